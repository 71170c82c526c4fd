"""Worth, draw by draw, against sums by hand (`definition` throughout)."""

import numpy as np
import pytest

from scoring import believed, score
from throwbench.science.errors import UnclearError
from throwbench.verdict.result import Band
from throwbench.verdict.worth import demand_bands, outside_bands, worth

LIKING = believed([[3.0, 4.0], [4.0, 2.0]])
HOT = believed([[2.2, 4.9], [3.2, 4.4]], attribute="hot_throw", rooms={"loft": -1.0})
RIGHT = Band(3.2, 4.4)


def near(found, expected):
    return np.allclose(found, expected, rtol=0, atol=1e-12)


def test_liking_less_half_a_step_per_step_outside_the_band():
    value, words = worth(LIKING, HOT, bands=[RIGHT], outside=0.5)
    assert near(value, [[2.5, 3.75], [4.0, 2.0]])  # 1.0 under, 0.5 over, inside
    assert words == "expected liking, 0.5 step less per step of hot throw outside its band"


def test_what_a_step_outside_costs_is_a_setting():
    value, words = worth(LIKING, HOT, bands=[RIGHT], outside=2)
    assert value[0] == pytest.approx([1.0, 3.0])
    assert words == "expected liking, 2 step less per step of hot throw outside its band"


def test_without_liking_hot_throw_alone_ranks():
    value, words = worth(None, HOT, bands=[RIGHT], outside=0.5)
    assert near(value, [[-0.5, -0.25], [0.0, 0.0]])
    assert words == (
        "no liking was scored: hot throw alone, 0.5 step less per step of hot throw outside its "
        "band"
    )


def test_without_a_band_stronger_is_not_better():
    value, words = worth(LIKING, HOT, bands=[], outside=0.5)
    assert (value == LIKING.expected()).all()
    assert words == "expected liking; no band for hot throw was given"


def test_a_band_without_hot_throw_is_said_to_be_unused():
    value, words = worth(LIKING, None, bands=[RIGHT], outside=0.5)
    assert (value == LIKING.expected()).all()
    assert words == "expected liking; no hot throw counts"


def test_with_neither_liking_nor_band_hot_throw_itself_ranks():
    value, words = worth(None, HOT, bands=[], outside=0.5)
    assert (value == HOT.expected()).all()
    assert words == "expected hot throw; no liking was scored and no band was given"


def test_nothing_to_rank_by_is_a_sentence():
    with pytest.raises(UnclearError) as refused:
        worth(None, None, bands=[RIGHT], outside=0.5)
    assert str(refused.value) == (
        "No score of liking or hot throw counts. A pick needs one of the two. "
        "Score one of them in a nose burn after the cure."
    )


def test_the_limits_of_a_band_lie_inside_it():
    at_limits = believed([[3.2, 4.4]], attribute="hot_throw")
    assert outside_bands(at_limits, [RIGHT]).tolist() == [[0.0, 0.0]]


def test_of_several_rooms_the_mean_counts_each_in_its_own_band():
    miss = outside_bands(HOT, [Band(3.2, 4.4), Band(3.2, 4.4, room="loft")])
    # (1.0 + 2.0) / 2; (0.5 + 0) / 2; (0 + 1.0) / 2; (0 + 0) / 2
    assert near(miss, [[1.5, 0.25], [0.5, 0.0]])


def test_a_band_for_a_room_that_was_scored_in_is_taken():
    bands = [Band(3, 4), Band(3, 4, room="loft")]
    demand_bands(bands, [score(3, room="loft")], scale=(1, 5))
    demand_bands([Band(1, 5)], [], scale=(1, 5))


@pytest.mark.parametrize("band", [Band(0.9, 4), Band(3, 5.1), Band(3, 3), Band(4, 3)])
def test_a_band_off_the_scale_is_a_sentence(band):
    with pytest.raises(UnclearError) as refused:
        demand_bands([band], [], scale=(1, 5))
    assert str(refused.value) == (
        f"The band {band.low:g} to {band.high:g} does not lie on the scale. "
        "The scale is 1 to 5. Give a band within it, or name the scale."
    )


def test_two_bands_for_one_room_are_a_sentence():
    twice = [Band(3, 4, room="loft"), Band(2, 3, room="loft")]
    with pytest.raises(UnclearError) as refused:
        demand_bands(twice, [score(3, room="loft")], scale=(1, 5))
    assert str(refused.value) == (
        "Two bands are given for the same room. "
        "Each room has one, and so has a band without a room. Leave one of them out."
    )


@pytest.mark.parametrize(
    ("rooms", "allowed"),
    [
        (("loft", "kitchen", "loft"), "The rooms are loft and kitchen."),
        (("",), "No score names a room."),
    ],
)
def test_a_band_for_another_room_is_a_sentence(rooms, allowed):
    with pytest.raises(UnclearError) as refused:
        demand_bands(
            [Band(3, 4), Band(3, 4, room="kichen")],
            [score(3, room=room) for room in rooms],
            scale=(1, 5),
        )
    assert str(refused.value) == (
        "A band is given for kichen, and no score that counts is from there. "
        f"{allowed} Name a room as the scores spell it, or give the band without one."
    )
