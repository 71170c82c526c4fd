"""A file of burns: rows to burns, and what one row says against another."""

import random
from datetime import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from throwbench.formats import UnreadableFile, read_burns
from throwbench.records import Burn, Check, columns

HEAD = "candle,burn,lit_at,out_at"
FIRST = "K1,1,2027-05-01 18:00,2027-05-01 22:00"


def burns(write, *rows, more="", inside_mm=None):
    header = HEAD + (f",{more}" if more else "")
    return read_burns(write("\n".join([header, *rows]) + "\n"), inside_mm=inside_mm)


def one(reading):
    (problem,) = reading.problems
    return problem.outcome, str(problem)


def test_a_burn_without_checks_is_a_burn(write):
    reading = burns(write, FIRST)
    assert reading.rows == (
        Burn(
            candle="K1",
            burn=1,
            lit_at=datetime(2027, 5, 1, 18),
            out_at=datetime(2027, 5, 1, 22),
            line=2,
        ),
    )
    assert reading.problems == ()
    assert reading.file == "file.csv"


@pytest.mark.parametrize("later", [FIRST, "K1,1,,", ",,,"])
def test_later_rows_repeat_the_burn_or_leave_it_blank(write, later):
    reading = burns(write, f"{FIRST},1", f"{later},2", more="check_h")
    assert [burn.checks for burn in reading.rows] == [
        (Check(check_h=1, line=2), Check(check_h=2, line=3))
    ]
    assert reading.problems == ()


def test_look_h_is_the_older_word_for_check_h(write):
    reading = burns(write, f"{FIRST},2", more="look_h")
    assert reading.rows[0].checks[0].check_h == 2
    assert reading.problems == ()


def test_both_words_for_the_hour_are_one_too_many(write):
    with pytest.raises(UnreadableFile, match="both mean check_h"):
        burns(write, f"{FIRST},2,2", more="look_h,check_h")


def test_the_times_may_stand_on_a_later_row(write):
    reading = burns(write, "K1,1,,,1", f"{FIRST},2", more="check_h")
    assert len(reading.rows[0].checks) == 2
    assert reading.problems == ()


def test_checks_stand_in_the_order_of_their_hours_those_without_last(write):
    reading = burns(write, f"{FIRST},,no", "K1,1,,,3,no", "K1,1,,,1,no", more="check_h,pool_full")
    assert [check.check_h for check in reading.rows[0].checks] == [1, 3, None]


def test_a_semicolon_file_with_decimal_commas_is_read(write):
    content = HEAD.replace(",", ";") + ";trim_mm\r\n" + FIRST.replace(",", ";") + ";4,5\r\n"
    assert read_burns(write(content)).rows[0].trim_mm == 4.5


def test_a_bad_cell_does_not_hide_a_high_flame_beside_it(write):
    reading = burns(write, f"{FIRST},1,over,hevy", more="check_h,flame,soot")
    (check,) = reading.rows[0].checks
    assert (check.flame, check.soot) == ("over", None)
    outcome, words = one(reading)
    assert outcome == "refused"
    assert "the cell left out" in words


@pytest.mark.parametrize("row", ["K1,,2027-05-01 18:00,2027-05-01 22:00", "K1,x,,", ",1,,", ",,,"])
def test_a_row_of_no_burn_is_left_out(write, row):
    reading = burns(write, f"{row},1", more="check_h")
    assert reading.rows == ()
    assert reading.problems[-1].outcome == "refused"
    assert "the row belongs to no burn" in str(reading.problems)


def test_a_blank_row_below_a_row_of_no_burn_belongs_to_none_either(write):
    reading = burns(write, f"{FIRST},1", "K1,x,,,1", ",,,,2", more="check_h")
    assert len(reading.rows[0].checks) == 1
    assert [item.line for item in reading.problems if "no burn" in item.sentence] == [3, 4]


def test_a_burn_without_its_times_is_left_out(write):
    reading = burns(write, "K1,1,2027-05-01 18:00,")
    assert reading.rows == ()
    assert one(reading) == (
        "refused",
        "file.csv, line 2, out_at: burn 1 of candle K1 has no out_at and is left out with its "
        "checks; one row of each burn needs both times: fill them in.",
    )


def test_two_times_of_one_burn_are_asked_about_and_the_first_is_used(write):
    reading = burns(write, FIRST, "K1,1,2027-05-01 17:00,")
    assert reading.rows[0].lit_at.hour == 18
    outcome, words = one(reading)
    assert outcome == "asked"
    assert "here and 2027-05-01 18:00 on line 2 of the same burn" in words


def test_two_readings_of_one_thing_are_held_back(write):
    reading = burns(write, f"{FIRST},21", "K1,1,,,22", more="room_c")
    assert reading.rows[0].room_c is None
    outcome, words = one(reading)
    assert outcome == "held back"
    assert "22 here and 21 on line 2 of the same burn, neither is used" in words


@pytest.mark.parametrize(("first", "later"), [("yes", "no"), ("no", "yes")])
def test_of_yes_and_no_the_grave_one_is_used(write, first, later):
    reading = burns(write, f"{FIRST},{first}", f"K1,1,,,{later}", more="wick_moved")
    assert reading.rows[0].wick_moved is True
    assert one(reading)[0] == "asked"


@pytest.mark.parametrize(("first", "later"), [("crack", "none"), ("none", "crack")])
def test_of_two_words_on_damage_the_graver_one_is_used(write, first, later):
    reading = burns(write, f"{FIRST},{first}", f"K1,1,,,{later}", more="vessel_damage")
    assert reading.rows[0].vessel_damage == "crack"
    assert "crack is used, to be careful" in one(reading)[1]


def test_two_notes_of_one_burn_are_two_notes(write):
    reading = burns(write, f"{FIRST},hissed", "K1,1,,,smelled", "K1,1,,,hissed", more="note")
    assert reading.rows[0].note == "hissed; smelled"
    assert reading.problems == ()


@pytest.mark.parametrize("hour", ["1", ""])
def test_a_check_written_twice_counts_once(write, hour):
    reading = burns(write, f"{FIRST},{hour},no", f"K1,1,,,{hour},no", more="check_h,pool_full")
    assert len(reading.rows[0].checks) == 1
    outcome, words = one(reading)
    assert outcome == "refused"
    assert "says the same as line 2" in words


def test_two_checks_at_one_hour_are_asked_about_and_both_used(write):
    reading = burns(write, f"{FIRST},1,no", "K1,1,,,1,yes", more="check_h,pool_full")
    assert len(reading.rows[0].checks) == 2
    assert "1 h is the hour of line 2 too" in reading.problems[0].sentence


def test_times_with_and_without_an_offset_do_not_mix(write):
    reading = burns(
        write,
        FIRST,
        "K1,2,2027-05-02T18:00+02:00,2027-05-02T22:00+02:00",
        "K1,3,2027-05-03T18:00,2027-05-03T22:00+02:00",
    )
    assert [burn.burn for burn in reading.rows] == [1]
    assert [problem.outcome for problem in reading.problems] == ["refused", "refused"]
    assert "write them alike" in reading.problems[0].sentence


def test_times_that_all_have_an_offset_are_elapsed_time(write):
    # definition: 01:30 at +02:00 to 02:30 at +01:00 is 2 h, on the night the clocks go back
    reading = burns(write, "K1,1,2026-10-25T01:30+02:00,2026-10-25T02:30+01:00")
    assert reading.problems == ()
    burn = reading.rows[0]
    assert (burn.out_at - burn.lit_at).total_seconds() == 7200


def test_a_file_without_the_times_is_said(write):
    with pytest.raises(UnreadableFile, match="lit_at and out_at are needed"):
        read_burns(write("candle,burn\nK1,1\n"))


def test_one_code_in_two_spellings_is_asked_about(write):
    reading = burns(write, FIRST, FIRST.replace("K1", "k1"))
    assert "k1 is spelled K1" in one(reading)[1]


def sentence_on(path):
    with pytest.raises(UnreadableFile) as caught:
        read_burns(path)
    return caught.value.sentence


def test_a_file_of_noise_below_a_good_header_is_answered_with_a_sentence(write):
    letters = random.Random(2).choices("abc ,,\n.0123456789", k=9_000_000)
    path = write(HEAD + "\n" + "".join(letters))
    assert "Check that it is the right file" in sentence_on(path)


NAMES = [item.name for record in (Burn, Check) for item in columns(record)]


def test_a_file_of_lines_that_only_look_like_burns_is_refused_with_a_sentence(write):
    rows = (f"{number},1,word {number},word\n" for number in range(300_000))
    path = write(HEAD + "\n" + "".join(rows))
    assert sentence_on(path) == (
        "file.csv: more than 5,000 different cells of the column lit_at are refused, such as "
        "'word 5000'; it holds: when it was lit. Check that it is the right file."
    )


TIMES = ("2027-05-01 18:00", "2027-05-01 20:00", "0001-01-01 00:00+14:00", "9999-12-31 23:59Z")
VALUES = ("", "yes", "no", "1", "2", "3,5", "-1", "1e9", "nan", "185F", "over", "none", "pool")
WORDS = st.sampled_from((*TIMES, *VALUES)) | st.text(max_size=6)


@settings(deadline=None)  # a file is written each time
@given(rows=st.lists(st.lists(WORDS, min_size=len(NAMES), max_size=len(NAMES)), max_size=6))
def test_any_text_in_any_cell_is_a_burn_or_a_sentence(rows, answer):
    text = "\n".join(",".join(row) for row in [NAMES, *rows])
    reading = answer(text.encode("utf-8", "surrogatepass"), read_burns)
    if isinstance(reading, str):
        assert reading.endswith((".", "?"))
    else:
        assert all(burn.out_at > burn.lit_at for burn in reading.rows)
        assert all(problem.sentence.endswith((".", "?")) for problem in reading.problems)
