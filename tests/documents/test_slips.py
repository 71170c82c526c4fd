"""Slips: three on a sheet, and nothing on them that tells what is sniffed."""

from dataclasses import fields, replace
from datetime import date

import pytest

from paper import at, boxes_mm, for_keeping, ink, middles_mm, pages, text_stays_mm, title
from throwbench.documents.slips import Slip, SlipSet, slips
from throwbench.science.errors import UnclearError

ODD = Slip(assessor="Odd", tag="417", room="Kitchen")
SET = SlipSet(day=date(2027, 5, 24), slips=(ODD, replace(ODD, tag="803")))
CAUTION = "Don't take part if scent gives you headaches or asthma. Stop any time."
LIKING = "Do you like it? for your own home 1 no 2 not much 3 so-so 4 yes 5 love it cannot tell"
STRENGTH = "1 none 2 faint 3 clear 4 strong 5 overpowering cannot tell"


def test_a_slip_asks_liking_first_then_strength_then_a_word() -> None:
    (said,) = pages(slips(SET))
    first = said[: said.index("803")]
    assert "This candle 417 Odd Kitchen Monday 24 May 2027 time" in first
    assert f"{CAUTION} {LIKING} How strong is it? lit {STRENGTH}" in first
    assert "one word for it, if one comes I recognised it" in first
    assert "Your first nose is right: do not go back. Then 5 min of clean air." in said


@pytest.mark.parametrize(
    ("asks", "there", "not_there"),
    [
        ("lit", "How strong is it? lit", "bottle"),
        ("unlit", f"How strong is it? unlit {STRENGTH}", "Do you like it?"),
        (
            "likeness",
            "How close is it to the bottle? 1 not at all 2 a little 3 half 4 close 5 the same",
            "How strong",
        ),
        ("blotter", f"How strong is it? from the blotter {STRENGTH}", "This candle"),
    ],
)
def test_each_kind_of_sitting_has_its_own_questions(asks: str, there: str, not_there: str) -> None:
    (said,) = pages(slips(replace(SET, asks=asks)))
    assert said.count(there) == 2
    assert not_there not in said
    assert said.count(CAUTION) == 2
    assert said.count("I recognised it") == 2


def test_a_blotter_is_not_called_a_candle() -> None:
    (said,) = pages(slips(replace(SET, asks="blotter")))
    assert "This blotter 417" in said


def test_there_is_no_way_to_print_what_would_tell() -> None:
    assert {field.name for field in fields(Slip)} == {"assessor", "tag", "room", "place"}
    assert {field.name for field in fields(SlipSet)} == {
        "day",
        "slips",
        "asks",
        "scale",
        "clean_air_min",
    }


def test_title_and_words_are_neutral() -> None:
    made = slips(SET)
    assert title(made) == "Slips"
    told = (" ".join(pages(made)) + made.decode("latin-1")).lower()
    telling = ("slate", "tarnholt", "long light", "saltmyr", "k7f", "wick", "trial", "r-36", "oil ")
    assert not [word for word in telling if word in told]


@pytest.mark.parametrize("tag", ["K7F", "41", "4170", "", "٤١٧", "4 7"])
def test_only_three_digits_are_a_tag(tag: str) -> None:
    with pytest.raises(UnclearError, match="A tag in front of a candle is three digits"):
        slips(replace(SET, slips=(replace(ODD, tag=tag),)))


def test_a_longer_scale_says_its_two_ends() -> None:
    (said,) = pages(slips(replace(SET, scale=(0, 10))))
    assert "for your own home; 0: no, 10: love it 0 1 2 3 4 5 6 7 8 9 10 cannot tell" in said
    assert "lit; 0: none, 10: overpowering" in said


def test_five_steps_from_another_number_keep_their_words() -> None:
    (said,) = pages(slips(replace(SET, scale=(0, 4))))
    assert "0 no 1 not much 2 so-so 3 yes 4 love it" in said


@pytest.mark.parametrize("scale", [(1, 1), (0, 11), (5, 1)])
def test_a_scale_without_room_is_refused(scale: tuple[int, int]) -> None:
    with pytest.raises(UnclearError, match="A slip has room for 2 to 11 steps"):
        slips(replace(SET, scale=scale))


def test_no_clean_air_asked_for_is_not_mentioned() -> None:
    (said,) = pages(slips(replace(SET, clean_air_min=0)))
    assert "clean air" not in said


def test_cut_and_laid_on_one_another_the_thirds_of_the_sheets_keep_their_order() -> None:
    noses = ("Odd", "Pernille", "Isak", "Maren", "Tor")
    order = [Slip(assessor=nose, tag=tag) for nose in noses for tag in ("417", "803")]
    said = pages(slips(replace(SET, slips=tuple(order))))
    assert len(said) == 4
    piles: list[list[str]] = [[], [], []]
    for sheet in said:
        for pile, there in zip(piles, sheet.split("This candle")[1:], strict=False):
            pile.append(there)
    begins = [there.strip().split(" Monday")[0] for pile in piles for there in pile]
    assert begins == [f"{one.tag} {one.assessor}" for one in order]


def test_a_slip_says_which_of_how_many_it_is() -> None:
    (said,) = pages(slips(replace(SET, slips=(replace(ODD, place=(2, 6)),))))
    assert "417 2 of 6 Odd" in said


def test_how_the_nose_is_today_is_asked_once_an_assessor() -> None:
    three = (ODD, replace(ODD, tag="803"), replace(ODD, assessor="Tor"))
    (said,) = pages(slips(replace(SET, slips=three)))
    asked = [there.count("tired nose perfume") for there in said.split("This candle")[1:]]
    assert asked == [1, 0, 1]


def test_no_slip_is_an_empty_sheet() -> None:
    assert pages(slips(replace(SET, slips=()))) == [""]


def test_cuts_part_a_sheet_into_three_equal_slips() -> None:
    page = ink(slips(SET), 0, below=200)
    # The dashes reach the edges, where nothing else does.
    cuts = middles_mm(page[:, : at(12)].any(axis=1))
    assert cuts == pytest.approx([99, 198], abs=0.15)


def test_every_answer_is_a_box_at_least_12_mm_high() -> None:
    made = slips(replace(SET, slips=(ODD,)))
    boxes = [(w, h) for w, h in boxes_mm(made, 0) if w > 12 and 12 <= h < 15]
    # Two questions of five answers and "cannot tell"; word, recognised, time.
    assert len(boxes) == 2 * 6 + 3


def test_a_long_name_wraps_and_stays_on_its_slip() -> None:
    long = Slip(
        assessor="Wilhelmine-Friederike von Schwarzburg-Sondershausen, the neighbour",
        tag="266",
        room="Boat-shed loft, the large and airy one with the gate to the water",
    )
    made = slips(replace(SET, slips=(long, ODD, ODD, ODD), scale=(0, 10)))
    assert len(pages(made)) == 2
    assert "the neighbour" in pages(made)[0]
    assert text_stays_mm(made) > 6


def test_they_are_made_for_keeping_and_always_the_same() -> None:
    made = slips(SET)
    assert for_keeping(made)
    assert made == slips(SET)
