"""From scores and burns to a verdict, on small trials made by hand (`definition` throughout)."""

import json
from dataclasses import asdict, replace

import pytest

from burning import SEEN_CHECK, clean_candle, made_of
from scoring import score, scores
from throwbench.records import Check
from throwbench.science.errors import UnclearError
from throwbench.verdict.judge import verdict
from throwbench.verdict.result import Band, Verdict
from throwbench.verdict.settings import Settings

DAY = clean_candle()[-1].lit_at.date()
FAST = Settings(draws=400)
LIKED = {"Slate": "55 45", "Kelp": "43 43", "Rope": "22 13"}


def combinations(**changes):
    return [made_of(name, oil=name, **changes) for name in LIKED]


def logs(*names, **changes):
    return [
        replace(burn, **changes) for name in names or LIKED for burn in clean_candle(name, burns=4)
    ]


def judged(given=LIKED, burns=(), made=(), *, settings=FAST, **changes):
    rows = scores(given) if isinstance(given, dict) else given
    return verdict(rows, burns, combinations=made, settings=settings, day=DAY, **changes)


def of(found: Verdict, name):
    return next(item for item in found.candidates if item.candidate == name)


def places(found):
    return {item.candidate: item.place for item in found.candidates}


@pytest.fixture
def clean():
    """All candles burned to the end without a broken limit."""
    return judged(burns=logs(), made=combinations())


def test_the_best_liked_is_picked_and_its_clean_limits_bind_nothing(clean):
    assert clean.pick == ("Slate",)
    assert clean.holds == ()
    assert clean.sentence() == f"{clean.headline} {clean.risk}"
    assert {item.limits[0].state for item in clean.candidates} == {"none broken"}
    assert (clean.counted, clean.not_counted, clean.choose) == (12, 0, 1)
    assert clean.scale == (1, 5)
    assert clean.bands == ()
    assert clean.day == DAY.isoformat()
    assert clean.ranked_by == "expected liking; no band for hot throw was given"
    assert clean.problems == ()
    assert clean.reasons[0] == "12 scores of 2 assessors count."


def test_each_candidate_has_its_own_figures(clean):
    slate = of(clean, "Slate")
    assert slate.place == "in the pick"
    assert slate.of("liking").counted == (4, 5, 5, 5)
    assert slate.worth == pytest.approx(slate.of("liking").expected)
    assert of(clean, "Rope").of("liking").counted == (1, 2, 2, 3)
    assert slate.worth > of(clean, "Kelp").worth > of(clean, "Rope").worth
    assert sum(item.chance_to_belong for item in clean.candidates) == pytest.approx(1)
    assert sum(item.chance_best for item in clean.candidates) == pytest.approx(1)
    assert slate.chance_to_belong == slate.chance_best
    assert slate.swap_cost == pytest.approx(slate.worth - of(clean, "Kelp").worth)
    assert of(clean, "Kelp").swap_cost == pytest.approx(slate.swap_cost)
    assert slate.burns_well == ("full melt pool not yet judged",)
    assert slate.only_shown == ()
    assert slate.reasons == ()
    assert (slate.supplier, slate.group, slate.split) == (None, None, None)
    assert slate.of("hot_throw") is None


def test_supplier_theme_and_dose_of_an_oil_are_told(clean):
    made = combinations(supplier="Tarnholt", group="mineral")
    made[1] = replace(made[1], load_percent=8.7)
    found = judged(burns=logs(), made=made)
    assert (of(found, "Kelp").supplier, of(found, "Kelp").group) == ("Tarnholt", "mineral")
    assert of(found, "Kelp").reasons == (
        "Dosed at 8.7 % of wax, most others at 8: it stands apart.",
    )
    assert of(found, "Slate").reasons == ()


def test_a_clear_winner_is_named():
    found = judged({"Slate": "555 555 555", "Kelp": "222 212 221", "Rope": "221 212 222"})
    assert found.clear_winner == "Slate"
    assert found.headline.startswith("Clear winner: Slate, the best ")
    assert judged({"Slate": "34", "Kelp": "43", "Rope": "33"}).clear_winner is None


def test_what_the_panel_cannot_tell_is_said():
    words = "Each assessor met each oil about once, so their own taste cannot be told from chance."
    assert words in judged({"Slate": "4 3", "Kelp": "3 4"}).reasons
    assert words not in judged({"Slate": "44 33", "Kelp": "33 44"}).reasons


def test_the_headline_and_the_risk_carry_the_figures_of_the_pick(clean):
    best = of(clean, "Slate").chance_best
    assert clean.headline.startswith(("Clear winner: Slate", "No clear winner yet: Slate"))
    assert f"{100 * best:.0f} in 100" in clean.headline
    assert clean.clear_winner == ("Slate" if best >= 0.85 else None)
    assert 0 <= clean.loss_steps < of(clean, "Slate").swap_cost


def test_one_broken_limit_bars_the_oil_takes_its_scores_out_and_is_named(clean):
    burns = [replace(b, vessel_damage="leak") if b.candle == "Slate" else b for b in logs()]
    found = judged(burns=burns, made=combinations())
    assert clean.pick == ("Slate",)
    assert found.pick == ("Kelp",)
    slate = of(found, "Slate")
    assert slate.place == "barred"
    assert (slate.worth, slate.chance_to_belong, slate.chance_best) == (None, None, None)
    assert (slate.swap_cost, slate.placed, slate.equally_good) == (None, False, False)
    assert found.counted == 8
    assert found.not_counted == 4
    assert "Shown, not counted: 4 from a candle that broke a limit." in found.reasons
    assert found.holds[0] == slate.limits[0].sentence()
    assert found.holds[1].startswith("Stoneware cup is barred as a vessel: vessel damage, leak")
    assert "Slate on flat cotton 4 broke a limit: " in found.sentence()
    assert "leak" in found.sentence()
    assert "Slate: pour one test candle in another vessel, or drop it." in found.next_steps
    assert slate.reasons == ("Barred as a vessel: stoneware cup.",)


def test_one_combination_without_a_broken_limit_keeps_the_oil_open():
    made = [*combinations(), made_of("Slate2", oil="Slate", wick="flat cotton 6")]
    burns = [*logs(), *logs("Slate2", vessel_damage="leak")]
    rows = [*scores(LIKED), *(replace(s, candle="Slate2") for s in scores({"Slate": "11"}))]
    found = judged(rows, burns, made)
    assert found.pick == ("Slate",)
    assert [item.state for item in of(found, "Slate").limits] == ["none broken", "broken"]
    assert found.not_counted == 2
    assert of(found, "Slate").of("liking").not_counted == (1, 1)
    assert found.holds[0] == of(found, "Slate").limits[1].sentence()


def test_one_shifted_score_moves_the_expected_score_its_way():
    rows = scores({"A": "34 33", "B": "33 43"})
    up = [replace(rows[0], score=5), *rows[1:]]
    down = [replace(rows[0], score=1), *rows[1:]]
    low, middle, high = (of(judged(r), "A").of("liking").expected for r in (down, rows, up))
    assert low < middle - 0.1
    assert middle + 0.1 < high
    assert judged(down).pick == ("B",)
    assert judged(up).pick == ("A",)


def test_rows_that_were_not_used_are_named_in_the_sentence():
    problems = ["line 2: 7 is refused.", "line 3: x is refused.", "line 4: 3 is asked about."]
    found = judged(problems=problems, unused=problems[:2])
    assert found.problems == tuple(problems)
    assert found.sentence().endswith(
        "Not used: line 2: 7 is refused. Not used: line 3: x is refused."
    )
    assert "asked about" not in found.sentence()


def test_a_reference_candle_is_ranked_by_nobody_and_never_picked():
    made = combinations()
    made[0] = replace(made[0], role="reference")
    made[1] = replace(made[1], role="candidate")
    found = judged(made=made, settings=replace(FAST, choose=3))
    assert places(found) == {"Kelp": "in the pick", "Rope": "in the pick", "Slate": "reference"}
    slate = of(found, "Slate")
    assert slate.chance_to_belong is None
    assert slate.of("liking").counted == (4, 5, 5, 5)
    assert found.headline.endswith("Only two of three can join.")
    assert [item.candidate for item in found.candidates][-1] == "Slate"


def test_a_reference_candle_that_broke_a_limit_stays_a_reference():
    made = [made_of("Slate", oil="Slate", role="reference")]
    found = judged(burns=logs("Slate", vessel_damage="leak"), made=made)
    assert of(found, "Slate").place == "reference"


def test_without_a_score_that_counts_a_candidate_is_not_ranked_but_shown():
    rows = scores(LIKED)
    rows = [replace(s, counts=False) if s.candidate == "Slate" else s for s in rows]
    found = judged(rows, logs(), combinations())
    slate = of(found, "Slate")
    assert slate.place == "not ranked"
    assert slate.scent == ()
    assert slate.only_shown == (("liking", (4, 5, 5, 5)),)
    assert (slate.worth, slate.chance_to_belong) == (None, None)
    assert found.pick == ("Kelp",)
    assert found.next_steps[1].startswith("Slate: no score of liking or hot throw counts yet.")


def test_cold_throw_alone_ranks_nobody_and_keeps_its_answer():
    early = scores({"Ferry": "2"}, attribute="cold_throw", counts=False)
    rows = [*scores(LIKED), *scores({"Ferry": "4 3"}, attribute="cold_throw"), *early]
    ferry = of(judged(rows), "Ferry")
    assert (ferry.place, ferry.not_ranked_because) == ("not ranked", "no score counts")
    assert [item.attribute for item in ferry.scent] == ["cold_throw"]
    assert (ferry.scent[0].counted, ferry.scent[0].not_counted) == ((3, 4), (2,))
    assert ferry.only_shown == (("cold_throw", (2,)),)


def test_scores_that_no_answer_rests_on_are_set_aside_and_named():
    rows = [*scores(LIKED), *scores({"Slate": "54 5", "Ferry": "4"}, attribute="likeness")]
    found = judged([*rows, *scores({"Kelp": "1"}, attribute="uniqueness")])
    assert (found.counted, found.not_counted) == (12, 5)
    assert found.reasons[:2] == (
        "12 scores of 2 assessors count.",
        "Shown, not counted: 4 likeness and 1 uniqueness scores, which do not rank.",
    )
    assert of(found, "Slate") == of(judged(), "Slate")
    assert of(found, "Ferry").scent == of(found, "Ferry").only_shown == ()


def test_every_attribute_of_an_oil_that_is_not_ranked_is_shown():
    rows = [
        row
        for step, attribute in zip("345", ("cold_throw", "hot_throw", "liking"), strict=True)
        for row in scores({"Ferry": step}, attribute=attribute, counts=False)
    ]
    assert of(judged([*rows, *scores(LIKED)]), "Ferry").only_shown == (
        ("liking", (5,)),
        ("hot_throw", (4,)),
        ("cold_throw", (3,)),
    )


def test_scores_from_a_candle_that_broke_a_limit_are_shown_in_the_row_of_a_barred_oil():
    found = judged(burns=[*logs("Slate", relit=True), *logs("Kelp", "Rope")], made=combinations())
    slate = of(found, "Slate")
    assert (slate.place, slate.of("liking")) == ("barred", None)
    assert "Shown, not counted: 4 from a candle that broke a limit." in found.reasons
    assert slate.only_shown == (("liking", (4, 5, 5, 5)),)


def test_an_oil_that_was_only_burned_is_not_ranked():
    found = judged(burns=logs("Ferry"))
    assert of(found, "Ferry").place == "not ranked"
    assert of(found, "Ferry").limits[0].oil == "Ferry"


def test_a_candle_without_a_row_of_its_own_belongs_to_the_oil_that_its_scores_name():
    rows = [replace(s, candle="K7F") if s.candidate == "Slate" else s for s in scores(LIKED)]
    found = judged(rows, logs("K7F", vessel_damage="leak"))
    assert "K7F" not in places(found)
    assert of(found, "Slate").place == "barred"
    assert of(found, "Slate").limits[0].oil == "Slate"


def test_the_candles_file_stands_above_what_the_scores_call_a_candle():
    rows = [replace(s, candle="K7F") if s.candidate == "Slate" else s for s in scores(LIKED)]
    found = judged(rows, logs("K7F"), [made_of("K7F", oil="Kelp")])
    assert of(found, "Slate").limits == ()
    assert of(found, "Kelp").limits[0].label == "flat cotton 4"


def test_limits_that_are_not_known_yet_allow_a_pick_but_no_sale():
    burns = [burn for name in LIKED for burn in clean_candle(name)[:3]]
    found = judged(burns=burns, made=combinations())
    assert found.pick == ("Slate",)
    missing = of(found, "Slate").limits[0].missing
    assert found.holds == (f"Slate: sell none before its limits are known. {missing}",)
    assert found.next_steps[1] == missing


def test_without_burns_every_limit_is_unknown_and_said_to_be():
    found = judged()
    assert all(item.limits == () for item in found.candidates)
    assert found.holds == (
        "Slate: sell none before its limits are known. A burn log to the end line is missing.",
    )
    assert found.not_tried == ()
    assert {words for item in found.candidates for words in item.burns_well} == {"nothing noted"}


def test_rules_that_need_a_laboratory_are_named_once(clean):
    assert len(clean.not_tried) == len(set(clean.not_tried)) >= 3
    assert any("EN 15426:2018" in words for words in clean.not_tried)


def test_a_theme_from_the_settings_overrules_the_theme_of_a_candle():
    made = [replace(card, group="mineral") for card in combinations()]
    two = replace(FAST, choose=2)
    one = judged(made=made, settings=two)
    assert one.pick == ("Slate",)
    assert places(one)["Kelp"] == places(one)["Rope"] == "held back by its theme"
    other = judged(made=made, settings=replace(two, groups={"Kelp": "sea"}))
    assert set(other.pick) == {"Slate", "Kelp"}
    assert of(other, "Kelp").group == "sea"
    assert of(other, "Rope").group == "mineral"
    assert of(other, "Rope").place == "held back by its theme"


def test_a_theme_from_the_settings_needs_no_candles_file():
    two = replace(FAST, choose=2, groups={"Slate": "mineral", "Kelp": "mineral"})
    found = judged(settings=two)
    assert set(found.pick) == {"Slate", "Rope"}
    assert places(found)["Kelp"] == "held back by its theme"


def test_oils_without_a_theme_hold_nobody_back():
    found = judged({"A": "33", "B": "33", "C": "33"}, settings=replace(FAST, choose=2))
    assert "held back by its theme" not in places(found).values()
    assert len(found.pick) == 2


def test_one_candidate_alone_is_picked_without_a_comparison():
    found = judged({"Slate": "44"})
    assert found.pick == ("Slate",)
    assert found.clear_winner is None
    assert found.headline == "The pick: Slate. It stands alone: nothing to compare it with."


def test_one_score_has_a_verdict_that_says_how_little_it_is():
    found = judged([score(4)])
    assert found.pick == ("Slate",)
    interval = of(found, "Slate").of("liking").nine_in_ten
    assert interval.high - interval.low > 2
    assert "One assessor: another may judge otherwise, and the intervals say so." in found.reasons


@pytest.mark.parametrize("rows", [[], [score(None)], [score(3, counts=False)]])
def test_without_a_score_that_counts_there_is_no_pick(rows):
    found = judged(rows)
    assert found.pick == ()
    assert (found.loss_steps, found.clear_winner) == (None, None)
    assert found.sentence() == (
        "No pick: nothing that may join has a score of liking or hot throw that counts. "
        "There is nothing to choose by yet."
    )
    assert found.ranked_by == "nothing: no score of liking or hot throw counts"
    assert found.scale == (1, 5)


def test_a_band_brings_hot_throw_into_the_worth():
    rows = [*scores(LIKED), *scores({"Slate": "11 11", "Kelp": "44 44"}, attribute="hot_throw")]
    band = Band(3.5, 4.5)
    found = judged(rows, settings=replace(FAST, bands=(band,)))
    assert found.bands == (band,)
    assert found.ranked_by.endswith("0.5 step less per step of hot throw outside its band")
    slate = of(found, "Slate")
    assert slate.of("hot_throw").chance_in_band < 0.05
    assert slate.worth < slate.of("liking").expected - 0.5
    dear = judged(rows, settings=replace(FAST, bands=(band,), outside=3))
    assert dear.pick == ("Kelp",)
    assert found.defaults == (
        "Scale 1 to 5, as scored.",
        "No candles file was given (--candles): each test candle stands alone.",
        "No cure was given (--cure-days): every score counts, whatever its cure.",
    )


def test_hot_throw_alone_can_rank():
    rows = scores({"Slate": "11 21", "Kelp": "44 54"}, attribute="hot_throw")
    found = judged(rows)
    assert found.pick == ("Kelp",)
    assert found.ranked_by == "expected hot throw; no liking was scored and no band was given"


def test_a_band_for_a_room_without_a_hot_throw_is_a_sentence():
    rows = [*scores(LIKED, room="attic"), *scores(LIKED, attribute="hot_throw")]
    with pytest.raises(UnclearError, match=r"A band is given for attic.*The rooms are loft"):
        judged(rows, settings=replace(FAST, bands=(Band(3, 4, room="attic"),)))
    assert judged(rows, settings=replace(FAST, bands=(Band(3, 4, room="loft"),))).pick


def test_what_stands_out_about_a_candidate_is_told():
    rows = [
        *scores({"Slate": "55 55", "Kelp": "44 44"}),
        *scores({"Slate": "22 12", "Kelp": "33 33"}, attribute="hot_throw", cure_days=12),
        *scores({"Slate": "55 55", "Kelp": "33 33"}, attribute="cold_throw", cure_days=12),
        *scores({"Kelp": "11 11"}, attribute="hot_throw", cure_days=3),
    ]
    found = judged(rows, settings=replace(FAST, cure_days=10))
    assert of(found, "Slate").reasons[0].startswith("Loud in the cold, weak when lit: ")
    assert of(found, "Kelp").reasons[0].startswith("Weak before its cure ended; ")
    assert of(found, "Kelp").of("hot_throw").not_counted == (1, 1, 1, 1)
    attributes = [item.attribute for item in of(found, "Slate").scent]
    assert attributes == ["liking", "hot_throw", "cold_throw"]


def test_scores_of_a_kind_can_be_left_out():
    rows = [replace(s, tired=s.assessor == "Odd") for s in scores(LIKED)]
    found = judged(rows, settings=replace(FAST, leave_out=frozenset({"tired"})))
    assert (found.counted, found.not_counted) == (6, 6)
    assert judged(rows).counted == 12


def test_scores_from_a_candle_that_tunnels_rank_nothing():
    narrow = (SEEN_CHECK, Check(check_h=3, pool_width_mm=40, pool_full=False))
    burns = [replace(b, checks=narrow) if b.candle == "Slate" else b for b in logs()]
    found = judged(burns=burns, made=combinations(inside_mm=68))
    slate = of(found, "Slate")
    assert slate.place == "not ranked"
    assert slate.burns_well[0] == "tunnels on flat cotton 4"
    assert slate.not_ranked_because == "its scores are from a candle that tunnels"
    assert slate.only_shown == (("liking", (4, 5, 5, 5)),)
    assert "Shown, not counted: 4 from a badly wicked candle." in found.reasons
    assert found.next_steps[1].startswith("Slate: tunnels, so its scores do not rank it.")
    assert of(found, "Kelp").burns_well == ("full melt pool not yet judged",)
    assert of(found, "Kelp").not_ranked_because is None


def test_an_oil_that_tunnels_without_a_score_is_not_told_that_its_scores_do_not_rank_it():
    narrow = (SEEN_CHECK, Check(check_h=3, pool_width_mm=40, pool_full=False))
    burns = [replace(b, checks=narrow) if b.candle == "Ferry" else b for b in logs("Ferry", *LIKED)]
    made = [*combinations(), made_of("Ferry", oil="Ferry", inside_mm=68)]
    found = judged(burns=burns, made=made)
    assert of(found, "Ferry").not_ranked_because == "it tunnels and has no score that counts"
    assert any(words.startswith("Ferry: tunnels, and no score of") for words in found.next_steps)
    cold = scores({"Ferry": "44"}, attribute="cold_throw")
    assert of(judged([*scores(LIKED), *cold], burns, made), "Ferry").not_ranked_because == (
        "it tunnels and has no score that counts"
    )
    made.append(made_of("Ferry2", oil="Ferry", inside_mm=68))
    other = judged(burns=[*burns, *logs("Ferry2")], made=made)
    assert of(other, "Ferry").not_ranked_because == "no score counts"


def test_a_limit_of_the_makers_own_judges_the_burns_and_their_words():
    deep = (replace(SEEN_CHECK, pool_depth_mm=15, flame_mm=30, flame=None),)
    burns = logs(checks=deep)
    hint = "a hint that the wick is large"
    usual = judged(burns=burns, made=combinations())
    assert any(hint in words for words in of(usual, "Slate").burns_well)
    assert usual.pick == ("Slate",)
    house = judged(
        burns=burns, made=combinations(), settings=replace(FAST, house={"pool-depth": 16})
    )
    assert not any(hint in words for words in of(house, "Slate").burns_well)
    strict = judged(
        burns=burns, made=combinations(), settings=replace(FAST, house={"flame-height": 20})
    )
    assert set(places(strict).values()) == {"barred"}
    assert strict.pick == ()
    with pytest.raises(UnclearError, match="no limit that can be set"):
        judged(settings=replace(FAST, house={"flame": 20}))


def test_a_scale_that_is_named_is_taken_and_one_that_is_too_short_is_a_sentence():
    wide = judged(settings=replace(FAST, scale=(1, 10)))
    assert wide.scale == (1, 10)
    assert wide.defaults[0] == "Scale 1 to 10, as given."
    assert of(wide, "Slate").of("liking").nine_in_ten.high > 5
    with pytest.raises(UnclearError, match="scale of 1 to 4"):
        judged(settings=replace(FAST, scale=(1, 4)))


def test_opinions_that_split_are_told_in_the_steps_of_the_scale():
    found = judged({"Slate": "5 5 1 1", "Kelp": "3 3 3 3"})
    assert of(found, "Slate").split == "loved by 2, disliked by 2"
    assert of(found, "Kelp").split is None


def test_noses_that_agree_in_every_sniff_have_a_verdict():
    """The finer the noise, the farther the borders lie apart in its measure."""
    found = judged({name: "55 22 23 22" for name in "ABCD"})
    assert found.clear_winner is None
    assert all(item.of("liking").counted == (2, 2, 2, 2, 2, 3, 5, 5) for item in found.candidates)


def test_an_assessor_at_one_end_of_the_scale_is_noted_for_the_owner():
    found = judged({name: "55 22 23 22" for name in "ABCD"})
    assert [note.assessor for note in found.noses if note.shift > 0] == ["Odd"]
    assert "Odd" not in found.sentence()


def test_places_follow_the_order_of_a_report_and_the_open_one_stands_last():
    given = {"A": "55 55 55", "B": "43 34 43", "C": "43 34 34", "D": "11 12 21"}
    made = [made_of(name, oil=name) for name in given]
    burns = [b for n in given for b in logs(n, **({"vessel_damage": "leak"} if n == "D" else {}))]
    rows = [*scores(given), *scores({"E": "3"}, counts=False)]
    found = judged(rows, burns, made, settings=replace(FAST, choose=2))
    names = [item.candidate for item in found.candidates]
    assert names[0] == "A"
    assert names[3:] == ["D", "E"]
    assert found.pick == tuple(names[:2])
    assert of(found, names[1]).equally_good
    assert of(found, names[2]).place == "equally good"
    assert found.risk.startswith(
        "Only the second place is open, and being wrong there costs little:"
    )
    assert found.next_steps[-1].startswith(f"{names[1]} or {names[2]}: equally good.")


def test_identical_inputs_give_the_identical_verdict():
    one, other = (judged(burns=logs(), made=combinations()) for _ in range(2))
    assert one == other
    assert json.dumps(asdict(one)) == json.dumps(asdict(other))


def test_chance_is_fixed_by_its_state():
    assert judged() != judged(settings=replace(FAST, random_state=1))
    assert judged() != judged(settings=replace(FAST, draws=800))


def test_the_order_of_the_rows_changes_nothing_but_rounding():
    rows = sorted(scores(LIKED), key=lambda s: (s.assessor, s.sitting))
    turned = sorted(rows, key=lambda s: list(LIKED).index(s.candidate))
    burns = logs()
    one, other = judged(rows, burns, combinations()), judged(turned, burns[::-1], combinations())
    assert other.sentence() == one.sentence()
    assert places(other) == places(one)
    for item in one.candidates:
        twin = of(other, item.candidate)
        assert twin.limits == item.limits
        assert twin.worth == pytest.approx(item.worth, abs=1e-6)
        assert twin.chance_to_belong == pytest.approx(item.chance_to_belong, abs=1e-2)


def test_another_order_of_the_candidates_gives_the_same_pick():
    turned = judged(dict(reversed(LIKED.items())))
    assert turned.pick == judged().pick
    for name in LIKED:
        assert of(turned, name).worth == pytest.approx(of(judged(), name).worth, abs=0.1)
