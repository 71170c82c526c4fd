"""What the plan of the sniffs cannot compare (`definition`)."""

from dataclasses import replace
from datetime import date

from scoring import score, scores
from throwbench.verdict.judge import verdict
from throwbench.verdict.links import (
    first_unlinked,
    not_met,
    room_per_nose,
    to_link,
    unlinked,
    untold,
)


def met(*pairs, **facts):
    """`"A:Odd"`: Odd scored A."""
    return [score(3, oil, assessor=nose, **facts) for oil, nose in (p.split(":") for p in pairs)]


APART = met("A:Odd", "B:Odd", "C:Tor", "D:Tor")


def test_candidates_fall_into_groups_that_no_nose_links():
    assert unlinked(APART, "DBAC") == (("D", "C"), ("B", "A"))
    assert unlinked(met("A:Odd", "B:Tor", "C:Isak"), "ABC") == (("A",), ("B",), ("C",))


def test_a_chain_of_noses_links_all():
    assert unlinked([*APART, *met("B:Tor")], "ABCD") == ()
    assert unlinked(met("A:Odd", "B:Odd", "B:Tor", "C:Tor"), "ABC") == ()
    assert unlinked([], "AB") == ()


def test_a_score_that_is_none_links_nothing():
    assert len(unlinked([*APART, score(None, "A", assessor="Tor")], "ABCD")) == 2


def test_only_those_that_are_asked_about_are_told():
    assert unlinked(APART, "AB") == ()
    assert unlinked(APART, "AC") == (("A",), ("C",))


def test_two_groups_are_both_and_more_are_two_of():
    assert not_met((("A", "B"), ("C",))) == (
        "No nose met both A and C, so what sets them apart may be the noses alone."
    )
    assert not_met((("A",), ("B",), ("C",)), attribute="hot_throw") == (
        "Of hot throw: no nose met two of A, B and C, "
        "so what sets them apart may be the noses alone."
    )
    assert to_link(tuple((name,) for name in "ABCDEFGH")) == (
        "Sniff one of each together, by the same noses: A, B, C, D, E and 3 others."
    )


def test_the_first_attribute_that_ranks_and_is_not_linked_is_told():
    linked = met("A:Odd", "C:Odd")
    hot = met("A:Odd", "C:Tor", attribute="hot_throw")
    assert first_unlinked([*linked, *hot], "AC") == ("hot_throw", (("A",), ("C",)))
    cold = met("A:Odd", "C:Tor", attribute="cold_throw")
    assert first_unlinked([*linked, *cold], "AC") == (None, ())


def test_a_room_for_each_nose_is_told_and_a_shared_one_is_not():
    own = [replace(row, room=row.assessor) for row in APART]
    words = (
        "Each assessor sniffed in a room of their own: "
        "what the room does cannot be told from what the nose does."
    )
    assert room_per_nose(own) == words
    assert room_per_nose(APART) is None
    assert room_per_nose(own[:2]) is None
    assert room_per_nose([*own, replace(own[0], room="Tor")]) is None
    assert room_per_nose([*own, replace(own[0], assessor="Isak")]) is None
    assert untold([*own, *met("A:Tor")][:4], "AC")[1] == words


def test_a_verdict_says_it_and_asks_for_sniffs_that_link():
    rows = scores({"A": "55", "B": "44", "C": "22", "D": "11"})
    apart = [replace(row, assessor="Tor") if row.candidate in "CD" else row for row in rows]
    found = verdict(apart, day=date(2027, 5, 24))
    assert (
        "Of liking: no nose met both A and C, so what sets them apart may be the noses alone."
    ) in found.reasons
    assert "Sniff one of each together, by the same noses: A and C." in found.next_steps
    assert not any("equally good" in step for step in found.next_steps)
    linked = verdict(rows, day=date(2027, 5, 24))
    assert not any("no nose met" in words for words in linked.reasons)
    assert not any("Sniff one of each" in step for step in linked.next_steps)


def test_one_that_is_ranked_without_a_score_on_an_attribute_is_said_to_be_drawn():
    linked = met("A:Odd", "B:Odd", "C:Odd")
    hot = met("A:Odd", attribute="hot_throw")
    assert untold([*linked, *hot], "ABC") == (
        "Of hot throw: no score of B and C counts; "
        "their figures are drawn from what the others are like.",
    )
    assert untold([*linked[:2], *met("A:Odd", "B:Odd", "C:Odd", attribute="hot_throw")], "ABC") == (
        "Of liking: no score of C counts; its figure is drawn from what the others are like.",
    )
    assert untold([*linked, *met("A:Odd", attribute="cold_throw")], "ABC") == ()


def test_a_figure_of_cold_throw_stands_only_where_it_was_scored():
    rows = [*scores({"A": "55 54", "B": "33 43"}), *met("A:Odd", attribute="cold_throw")]
    found = {one.candidate: one for one in verdict(rows, day=date(2027, 5, 24)).candidates}
    assert found["A"].of("cold_throw") is not None
    assert found["B"].of("cold_throw") is None
    assert found["B"].of("liking") is not None
