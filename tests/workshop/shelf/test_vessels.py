"""Vessels and their pieces: a structural flaw is never taken back silently."""

import uuid
from datetime import timedelta

import pytest

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.corrections import corrections_of
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Flaw, Piece, Vessel
from throwbench.workshop.shelf.selectors.vessels import (
    piece_rows,
    piece_sentence,
    structural_flaws,
    vessel_sentence,
    vessels,
)


@pytest.fixture
def cup(by) -> Vessel:
    return services.add_vessel(name="stoneware cup", inside_mm=68, height_mm=74, brim_ml=210, **by)


@pytest.fixture
def second(cup, by) -> Piece:
    """A glaze-flawed cup, kept for tests."""
    return services.add_piece(cup, name="Cup 7", flaw="cosmetic", flaw_note="glaze", **by)


def test_a_vessel_says_its_measures(cup):
    said = vessel_sentence(cup).replace("\xa0", " ")
    assert said == "68 mm inside, 74 mm high, 210 ml to the brim."


def test_what_is_not_known_of_a_vessel_is_said(by):
    bowl = services.add_vessel(name="bowl", inside_mm=90, **by)
    assert vessel_sentence(bowl) == "90\xa0mm inside; high and to the brim: not known."
    tin = services.add_vessel(name="tin", **by)
    assert vessel_sentence(tin) == "None of its measures is known yet."


def test_changed_measures_keep_what_they_were(cup, by):
    services.change_vessel(cup, brim_ml=212, **by)
    assert [(row.was, row.became) for row in corrections_of([cup])] == [("210", "212")]


def test_a_flaw_of_a_new_piece_says_who_saw_it_and_when(second, owner, now):
    assert (second.flaw_seen_by, second.flaw_seen_at) == (owner, now)


def test_a_piece_without_a_flaw_was_seen_by_nobody(cup, by):
    piece = services.add_piece(cup, name="Cup 1", **by)
    assert (piece.flaw, piece.flaw_seen_by) == (Flaw.NONE, None)


def test_a_chip_bars_the_vessel(second, owner, now):
    later = now + timedelta(hours=1)
    services.note_flaw(second, flaw="structural", note="a chip at the rim", who=owner, now=later)
    assert list(structural_flaws()) == [second]
    assert piece_sentence(second) == "Cup 7 is never lit: a chip at the rim."
    assert second.flaw_seen_at == later


def test_what_was_noted_before_a_chip_stays_visible(second, by):
    services.note_flaw(second, flaw="structural", note="a chip", **by)
    kept = {row.field: (row.was, row.became) for row in corrections_of([second])}
    assert kept == {"flaw": ("cosmetic", "structural"), "flaw_note": ("glaze", "a chip")}


@pytest.mark.parametrize("flaw", ["none", "cosmetic"])
def test_a_structural_flaw_is_never_taken_back_silently(second, by, flaw):
    services.note_flaw(second, flaw="structural", note="a chip", **by)
    with pytest.raises(UnclearError, match="never taken back silently"):
        services.note_flaw(second, flaw=flaw, note="", **by)
    assert Piece.objects.get().flaw == "structural"


def test_a_flaw_noted_by_mistake_is_put_right_with_a_reason(second, by):
    services.note_flaw(second, flaw="structural", note="a chip", **by)
    services.put_flaw_right(second, flaw="none", why="it was Cup 8", **by)
    assert Piece.objects.get().flaw == "none"
    assert "it was Cup 8" in {row.why for row in corrections_of([second])}


def test_without_a_reason_it_is_not(second, by):
    with pytest.raises(UnclearError, match="There is no reason"):
        services.put_flaw_right(second, flaw="none", why=" ", **by)
    assert Piece.objects.get().flaw == "cosmetic"


def test_a_washed_piece_counts_how_often(second, by):
    for _ in range(3):
        services.wash(second, **by)
    [row] = piece_rows(second.vessel)
    assert (row.washed, row.words) == ("washed three times", "for tests only")


def test_pressed_twice_it_is_washed_once(second, by):
    entry = uuid.uuid4()
    for _ in range(2):
        services.wash(second, entry=entry, **by)
    assert Piece.objects.get().times_washed == 1


def test_a_kind_of_vessel_counts_its_pieces_and_those_never_lit(cup, second, by):
    services.add_piece(cup, name="Cup 8", flaw="structural", **by)
    [row] = vessels()
    assert (row.named, row.never_lit) == (2, 1)
