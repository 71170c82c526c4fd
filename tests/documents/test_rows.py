"""What the chart says of each oil."""

from dataclasses import replace

from throwbench.documents.rows import rows
from throwbench.verdict.result import Verdict


def test_lines_between_groups_say_what_the_scores_can_tell(verdict: Verdict) -> None:
    cuts = {row.oil: row.cut for row in rows(verdict) if row.cut}
    assert cuts == {
        "Kelp and Iron": ("equally good", "choose by price, papers or easy wick"),
        "Rhubarb Cold Frame": ("at most one rhubarb", "it is Rebarbara K"),
        "Ferry Rope": ("out of reach of the four", ""),
        "Goat Willow": ("not ranked", "no score of liking or hot throw counts"),
        "Harbour Tar": ("reference candle", "never picked"),
    }


def test_a_theme_without_a_pick_names_no_oil(verdict: Verdict) -> None:
    alone = tuple(one for one in verdict.candidates if one.candidate != "Rebarbara K")
    cuts = [row.cut for row in rows(replace(verdict, candidates=alone))]
    assert ("at most one rhubarb", "") in cuts


def test_a_verdict_on_nothing_has_no_row(verdict: Verdict) -> None:
    assert rows(replace(verdict, candidates=())) == ()


def test_a_place_is_a_word_and_most_have_a_shape(verdict: Verdict) -> None:
    said = {row.oil: (row.place, row.mark) for row in rows(verdict)}
    assert said["Slate After Rain"] == ("in the pick", "joins")
    assert said["Goat Willow"] == ("test again", "again")
    assert said["Ferry Rope"] == ("out of reach", "dropped")
    assert said["Harbour Tar"] == ("reference candle", None)


def test_an_oil_that_is_not_ranked_shows_its_scores_and_no_chance(verdict: Verdict) -> None:
    willow = next(row for row in rows(verdict) if row.oil == "Goat Willow")
    assert (willow.result, willow.counted, willow.chance) == (None, (), "")
    assert len(willow.not_counted) == 19


def test_two_combinations_are_told_apart_and_one_is_not_labelled(verdict: Verdict) -> None:
    limits = {row.oil: [one.words for one in row.limits] for row in rows(verdict)}
    assert limits["Kelp and Iron"] == ["wick 6 broken", "wick 5 not yet known"]
    assert limits["Linen Loft"] == ["not yet known"]


def test_a_settled_pick_is_not_tied_with_the_equally_good(verdict: Verdict) -> None:
    settled = tuple(replace(one, equally_good=False) for one in verdict.candidates)
    cuts = {row.oil: row.cut for row in rows(replace(verdict, candidates=settled))}
    assert cuts["Kelp and Iron"] is None
    assert cuts["Linen Loft"] == ("equally good", "choose by price, papers or easy wick")


def test_a_pick_that_is_tied_throughout_stands_under_one_line(verdict: Verdict) -> None:
    tied = tuple(replace(one, equally_good=True) for one in verdict.candidates[:5])
    said = [row.cut for row in rows(replace(verdict, candidates=tied))]
    assert said == [("equally good", "choose by price, papers or easy wick"), *[None] * 4]


def test_a_badly_wicked_candle_says_why_its_oil_is_not_ranked(verdict: Verdict) -> None:
    willow = verdict.candidates[-2]
    unsniffed = replace(willow, not_ranked_because="it tunnels and has no score that counts")
    nothing = replace(willow, not_ranked_because="no score counts", burns_well=("frosting",))
    barred = replace(nothing, not_ranked_because=None)
    shown = rows(replace(verdict, candidates=(willow, unsniffed, nothing, barred)))
    tunnels = "tunnels: not ranked"
    assert [row.instead for row in shown] == [tunnels, tunnels, "not ranked", "not ranked"]


def test_an_oil_on_which_opinions_split_is_headed_by_the_split(verdict: Verdict) -> None:
    few = replace(verdict.candidates[0], place="too few sniffs", equally_good=False)
    split = replace(few, candidate="Ferry Rope", split="loved by 2, disliked by 3")
    found = rows(replace(verdict, candidates=(few, split)))
    assert [row.cut for row in found] == [
        ("too few sniffs", "the scores that count cannot place it"),
        ("opinions split", "more sniffs of these noses cannot place it"),
    ]
    assert [(row.place, row.mark) for row in found] == [
        ("test again", "again"),
        ("opinions split", "again"),
    ]
