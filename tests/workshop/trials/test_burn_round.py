"""The burn round: every lit candle in one press, and the way out of the door."""

from datetime import timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.test import Client

from throwbench import records
from throwbench.records import columns
from throwbench.workshop.house.services import set_house_limit
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.services import burn as burning

HOUR = timedelta(hours=1)


@pytest.fixture
def lit(cured, other_cured, owner, now) -> list[Burn]:
    """K7F and M9C, lit two hours ago."""
    at = now - 2 * HOUR
    return [
        burning.light(candle, kind="wick", lit_at=at, who=owner, now=at)
        for candle in (cured, other_cured)
    ]


def told(burn: Burn, answer: str = "same", **more: Any) -> dict[str, Any]:
    """One candle's part of the form, as a browser sends it."""
    part = {"answer": answer, "flare_up": "none", "soot": "none", **more}
    return {f"b{burn.pk}-{name}": value for name, value in part.items()}


def sent(maker: Client, *parts: dict[str, Any], **more: Any) -> Any:
    data = {name: value for part in parts for name, value in part.items()}
    return maker.post("/round/", {"entry": uuid4(), **data, **more})


def text(response: Any) -> str:
    return response.content.decode().replace("\N{NO-BREAK SPACE}", " ")


def test_without_a_lit_candle_it_says_so(maker) -> None:
    assert "No candle is lit." in text(maker.get("/round/"))


def test_the_put_out_time_stands_first(maker, lit) -> None:
    page = text(maker.get("/round/"))
    assert "Two candles out by" in page
    assert '<span class="fig clock__fig">13:05</span>' in page
    assert "Seen, no change: both" in page
    assert "Alarm not guaranteed: this machine can sleep." in page


def test_no_oil_stands_on_the_round(maker, lit) -> None:
    page = text(maker.get("/round/"))
    assert "Slate After Rain" not in page
    assert "Rhubarb" not in page
    assert "Tarnholt" not in page


def test_one_press_says_that_all_were_seen(maker, lit, now) -> None:
    assert sent(maker, *map(told, lit)).status_code == 302
    checks = Check.objects.order_by("burn")
    assert [(one.burn_id, one.at, one.no_change) for one in checks] == [
        (burn.pk, now, True) for burn in lit
    ]
    assert all(one.soot == "" and one.flame == "" for one in checks)


def test_pressed_twice_it_is_noted_once(maker, lit) -> None:
    data = {"entry": uuid4(), **told(lit[0], "out"), **told(lit[1])}
    for _ in range(2):
        assert maker.post("/round/", data).status_code == 302
    assert Check.objects.count() == 1


def test_not_seen_notes_nothing(maker, lit) -> None:
    sent(maker, told(lit[0], "not seen"), told(lit[1]))
    assert [one.burn_id for one in Check.objects.all()] == [lit[1].pk]


def test_changed_says_what_was_looked_at(maker, lit) -> None:
    sent(maker, told(lit[0], "changed", over="on", soot="trace", mushroom="clear"), told(lit[1]))
    check = Check.objects.get(burn=lit[0])
    assert (check.flame, check.flare_up, check.soot, check.mushroom) == (
        "over", "none", "trace", "clear",
    )  # fmt: skip
    assert check.no_change is None
    page = text(maker.get("/round/"))
    assert page.count("Put K7F out now: flame over the mark. Do not light it again.") == 2


def test_changed_with_nothing_ticked_is_asked_about(maker, lit) -> None:
    page = text(sent(maker, told(lit[0], "changed"), told(lit[1])))
    assert "K7F has changed, and nothing is ticked or measured." in page
    assert not Check.objects.exists()


def test_no_change_with_something_ticked_is_refused(maker, lit) -> None:
    page = text(sent(maker, told(lit[0], over="on"), told(lit[1])))
    assert "K7F stands on “No change”, and something is ticked below it." in page


def test_a_pool_wider_than_its_cup_holds_up_the_whole_round(maker, lit) -> None:
    page = text(sent(maker, told(lit[0], "changed", pool_width_mm="86"), told(lit[1])))
    assert "Melt pool is 86 mm; this cup is 68 mm inside." in page
    assert 'value="86"' in page
    assert not Check.objects.exists()


def test_an_unusual_flame_is_asked_about_with_its_guess(maker, lit) -> None:
    name = f"b{lit[0].pk}-flame_mm"
    parts = [told(lit[0], "changed", flame_mm="70"), told(lit[1])]
    page = text(sent(maker, *parts))
    assert "Flame height is 70 mm; usual is 5 to 60 mm. Did you mean 7 mm?" in page
    assert f'value="{name}=7.0">Yes, 7 mm</button>' in page
    assert not Check.objects.exists()
    sent(maker, *parts, take=f"{name}=7.0")
    assert Check.objects.get(burn=lit[0]).flame_mm == 7


PUT_OUT = "Put K7F out now: flame 80 mm is over 75 mm (house limit). Do not light it again."


def test_a_flame_over_its_limit_is_asked_about_with_the_limit(maker, lit) -> None:
    name = f"b{lit[0].pk}-flame_mm"
    parts = [told(lit[0], "changed", flame_mm="80"), told(lit[1])]
    page = text(sent(maker, *parts))
    assert "80 mm is over 75 mm (house limit). If that is what you see: put K7F out now," in page
    assert "It is so, and it is out now</button>" in page
    assert f'value="{name}=8.0">I mistyped: it is 8 mm</button>' in page
    assert f'href="#id_{name}">I mistyped: type again</a>' in page
    assert "It is so: note it" not in page.split("M9C")[0]
    assert not Check.objects.exists()
    sent(maker, *parts, take=f"{name}=8.0")
    assert Check.objects.get(burn=lit[0]).flame_mm == 8


def test_a_flame_that_is_so_is_out_now(maker, lit, now) -> None:
    over = told(lit[0], "changed", flame_mm="80", out_now="on")
    assert sent(maker, over, told(lit[1])).status_code == 302
    check = Check.objects.get(burn=lit[0])
    assert (check.flame_mm, check.flame) == (80, "")
    assert [one.out_at for one in Burn.objects.order_by("pk")] == [now, None]
    assert PUT_OUT not in text(maker.get("/round/"))


def test_a_flame_within_what_is_usual_may_be_over_the_makers_limit(maker, lit, owner, now) -> None:
    set_house_limit(rule="flame-height", value=40, who=owner, now=now)
    page = text(sent(maker, told(lit[0], "changed", flame_mm="50"), told(lit[1])))
    assert "50 mm is over 40 mm (house limit). If that is what you see" in page


def test_a_flame_over_its_limit_stands_at_the_head_until_it_is_out(maker, lit, owner, now) -> None:
    sent(maker, told(lit[0], "changed", flame_mm="80", sure="on"), told(lit[1]))
    sent(maker, *map(told, lit))
    page = text(maker.get("/round/"))
    assert page.index(PUT_OUT) < page.index('<h1 class="clock">')
    assert "Put M9C out now" not in page
    assert PUT_OUT in text(maker.get("/candles/K7F/"))
    burning.put_out(lit[0], at=now, who=owner, now=now)
    assert PUT_OUT not in text(maker.get("/round/"))
    assert PUT_OUT not in text(maker.get("/candles/K7F/"))


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        ({"flare_up": "long"}, "flare-up longer than 10 s (house limit)"),
        ({"flare_up_s": 12}, "flare-up 12 s is over 10 s (house limit)"),
        ({"flare_up": "pool"}, "the whole pool took fire"),
        ({"soot": "heavy"}, "heavy soot"),
        ({"soot": "visible"}, ""),
        ({"flare_up": "short"}, ""),
        ({"flame_mm": 75}, ""),
    ],
)
def test_what_is_seen_over_a_limit_is_put_out(*, maker, lit, owner, now, seen, words) -> None:
    burning.check(lit[0], at=now, sure=True, who=owner, now=now, **seen)
    page = text(maker.get("/round/"))
    assert (f"Put K7F out now: {words}." in page) is bool(words)
    assert ("Put K7F out now" in page) is bool(words)


def test_put_out_notes_what_is_seen_once_it_is_out(maker, lit, now) -> None:
    sent(maker, told(lit[0], "out", none_of_these="on", until="on", afterglow_s="6"))
    burn = Burn.objects.get(pk=lit[0].pk)
    assert (burn.out_at, burn.put_out) == (now, "snuffed")
    assert (burn.relit, burn.wick_moved, burn.vessel_damage) == (False, False, "none")
    assert burn.afterglow_s == 6
    assert Check.objects.get().no_change is True


def test_put_out_without_looking_leaves_it_unknown(maker, lit) -> None:
    sent(maker, told(lit[0], "out"))
    burn = Burn.objects.get(pk=lit[0].pk)
    assert (burn.relit, burn.wick_moved, burn.vessel_damage) == (None, None, "")
    assert not Check.objects.exists()


@pytest.mark.parametrize(
    ("ticks", "damage"),
    [
        ({"chip": "on"}, "chip"),
        ({"chip": "on", "cracked": "on"}, "crack"),
        ({"leak": "on"}, "leak"),
    ],
)
def test_the_worst_damage_counts(maker, lit, ticks, damage) -> None:
    sent(maker, told(lit[0], "out", **ticks))
    assert Burn.objects.get(pk=lit[0].pk).vessel_damage == damage


def test_none_of_these_and_one_of_them_cannot_be(maker, lit) -> None:
    page = text(sent(maker, told(lit[0], "out", none_of_these="on", relit="on"), told(lit[1])))
    assert "Only one can be so." in page


@pytest.mark.parametrize(
    ("tick", "kept"),
    [
        ("crack", {"vessel_damage": "yes", "put_out": "snuffed"}),
        ("itself", {"vessel_damage": "", "put_out": "went out"}),
        ("end", {"note": "down to the end line, as seen"}),
    ],
)
def test_what_ends_a_burn_puts_it_out(maker, lit, now, tick, kept) -> None:
    sent(maker, told(lit[0], "changed", **{tick: "on"}), told(lit[1]))
    burn = Burn.objects.get(pk=lit[0].pk)
    assert burn.out_at == now
    assert {name: getattr(burn, name) for name in kept} == kept
    assert burn.checks.get().flame == "under"


def test_a_candle_put_out_earlier_is_noted_at_its_time(maker, lit, now) -> None:
    sent(maker, told(lit[0], "out", out_at="10:35", until="on"))
    burn = Burn.objects.get(pk=lit[0].pk)
    assert burn.out_at == now - HOUR / 2
    assert burn.checks.get().at == burn.out_at


def test_a_candle_left_on_is_said_and_kept(maker, cured, owner, now) -> None:
    at = now - timedelta(hours=4, minutes=50)
    burn = burning.light(cured, kind="wick", lit_at=at, who=owner, now=at)
    page = text(maker.get("/round/"))
    assert "over the limit: put out now" in page
    sent(maker, told(burn, "out"))
    assert "50 min over its limit: kept, and marked" in text(maker.get("/round/"))


def test_a_candle_out_meanwhile_is_said(maker, lit, owner, now) -> None:
    burning.put_out(lit[0], at=now - HOUR, who=owner, now=now)
    page = text(sent(maker, *map(told, lit)))
    assert "K7F was out at 10:05." in page
    assert not Check.objects.exists()


def test_a_candle_lit_meanwhile_is_not_said_to_be_seen(maker, lit) -> None:
    sent(maker, told(lit[0]))
    assert [one.burn_id for one in Check.objects.all()] == [lit[0].pk]


def test_an_entry_with_other_answers_keeps_the_first(maker, lit) -> None:
    entry = uuid4()
    sent(maker, told(lit[0]), entry=entry)
    page = text(sent(maker, told(lit[0], "not seen"), entry=entry))
    assert "This page was sent already" in page


def test_put_out_at_another_time_is_another_answer(maker, lit) -> None:
    entry = uuid4()
    sent(maker, told(lit[0], "out", out_at="10:35", until="on"), entry=entry)
    page = text(sent(maker, told(lit[0], "out", out_at="10:45", until="on"), entry=entry))
    assert "The first ones are kept" in page


def test_going_out_all_are_out(maker, lit) -> None:
    data = {"entry": uuid4(), "burns": [burn.pk for burn in lit]}
    assert maker.post("/round/all-out/", data).status_code == 302
    assert not Burn.objects.filter(out_at=None).exists()


def test_going_out_puts_out_only_what_the_page_showed(maker, lit) -> None:
    maker.post("/round/all-out/", {"entry": uuid4(), "burns": [lit[0].pk]})
    assert Burn.objects.filter(out_at=None).get() == lit[1]


def test_going_out_leaves_what_another_device_has_put_out_as_it_was_noted(
    maker, lit, owner, now
) -> None:
    """All are out: one that was out before is no reason to ring for the others."""
    burning.put_out(lit[0], at=now - HOUR, who=owner, now=now)
    data = {"entry": uuid4(), "burns": [burn.pk for burn in lit]}
    assert maker.post("/round/all-out/", data).status_code == 302
    assert {burn.out_at for burn in Burn.objects.all()} == {now - HOUR, now}


def test_going_out_they_are_handed_over(maker, lit, assessor) -> None:
    data = {"entry": uuid4(), "burns": [burn.pk for burn in lit], "adult": assessor.pk}
    assert maker.post("/round/handed-over/", data).status_code == 302
    assert {burn.handed_to for burn in Burn.objects.all()} == {assessor}
    assert "with Odd" in text(maker.get("/round/"))


def test_handed_to_nobody_is_refused(maker, lit) -> None:
    data = {"entry": uuid4(), "burns": [burn.pk for burn in lit]}
    page = text(maker.post("/round/handed-over/", data))
    assert "A lit candle is handed to somebody who is there." in page


def test_what_is_out_already_is_not_put_out_again(maker, lit, owner, now) -> None:
    burning.put_out(lit[0], at=now - HOUR, who=owner, now=now)
    page = text(maker.post("/round/all-out/", {"entry": uuid4(), "burns": [lit[0].pk]}))
    assert "K7F was put out at 10:05 already." in page


def test_the_last_measured_pool_stands_beside_the_new_one(maker, lit, owner, now) -> None:
    burning.check(lit[0], at=now - HOUR, pool_width_mm=61, who=owner, now=now)
    assert "Last measured <b>61 mm, burn 1</b>" in text(maker.get("/round/"))


def test_an_assessor_sees_no_round(nose) -> None:
    assert nose.get("/round/").status_code == 403


def test_those_that_are_due_first_stand_in_the_head(maker, lit, owner, now) -> None:
    Burn.objects.filter(pk=lit[0].pk).update(out_by_at=now + HOUR)
    page = text(maker.get("/round/"))
    assert "One of two candles out by" in page
    assert '<span class="fig clock__fig">12:05</span>' in page


def test_the_next_check_is_said(maker, lit, owner, now) -> None:
    assert "this check is due now, the next at 12:05" in text(maker.get("/round/"))
    sent(maker, *map(told, lit))
    assert "the next check is due at 12:05" in text(maker.get("/round/"))


def test_how_long_a_flare_up_burned_is_noted_in_its_box(maker, lit) -> None:
    sent(maker, told(lit[0], "changed", flare_up="short", flare_up_s="7"))
    check = lit[0].checks.get()
    assert (check.flare_up, check.flare_up_s) == ("short", 7)


def test_every_figure_of_a_look_has_its_box(maker, lit) -> None:
    page = text(maker.get("/round/"))
    measured = [column.name for column in columns(records.Check) if column.told and column.unit]
    assert all(f'name="b{lit[0].pk}-{name}"' in page for name in measured)


@pytest.mark.parametrize(
    ("answer", "words"),
    [("same", "something is ticked below it"), ("changed", "no flare-up and the length of one")],
)
def test_a_length_without_a_flare_up_is_asked_back(maker, lit, answer, words) -> None:
    page = sent(maker, told(lit[0], answer, flare_up_s="7"))
    assert words in text(page)
    assert not Check.objects.exists()
