"""What one cell means in its column, and the sentence where it means nothing."""

from datetime import UTC, datetime

import pytest

from throwbench.formats.cells import Place, kind_of, read_cell
from throwbench.records import Burn, Check, Combination, Score, ThemeMember, columns

COLUMNS = {
    item.name: item
    for record in (Score, Burn, Check, Combination, ThemeMember)
    for item in columns(record)
}


def read(name, text, **place):
    return read_cell(text, Place(column=COLUMNS[name], **place))


def value(name, text, **place):
    found, fault = read(name, text, **place)
    assert fault is None, fault.sentence()
    return found


def fault(name, text, **place):
    found, found_fault = read(name, text, **place)
    assert found is None or found_fault.outcome == "asked"
    return found_fault.outcome, found_fault.sentence()


def test_every_column_of_every_record_can_be_read():
    for column in COLUMNS.values():
        assert read_cell("zzz", Place(column=column)) is not None
        assert kind_of(column) in {str, int, float, bool, datetime}


def test_an_empty_cell_is_not_known():
    assert value("trim_mm", "") is None


@pytest.mark.parametrize("word", ["unknown", "Not known", "not seen"])
def test_words_for_not_known_are_an_empty_cell(word):
    assert value("trim_mm", word) is None
    assert value("soot", word) is None


def test_in_free_text_unknown_is_a_word_of_the_maker():
    assert value("wick", "unknown") == "unknown"


def test_an_empty_cell_that_is_needed_refuses_the_row():
    outcome, words = fault("candle", "")
    assert outcome == "refused"
    assert words.startswith("the cell is empty and the row left out")


@pytest.mark.parametrize("text", ["yes", "YES", "true", "1"])
def test_yes_is_written_in_three_ways(text):
    assert value("relit", text) is True


@pytest.mark.parametrize("text", ["no", "False", "0"])
def test_no_is_written_in_three_ways(text):
    assert value("relit", text) is False


def test_maybe_is_neither_yes_nor_no():
    assert fault("relit", "maybe", left_out="cell") == (
        "refused",
        "'maybe' is refused and the cell left out, possible is yes or no; "
        "write one, or leave the cell empty.",
    )


@pytest.mark.parametrize("text", ["went out", "Went_out", "WENT  OUT"])
def test_case_and_blanks_of_a_word_are_forgiven(text):
    assert value("put_out", text) == "went out"


def test_no_damage_is_none():
    assert value("vessel_damage", "no") == "none"


def test_a_word_nearly_right_is_asked_back():
    outcome, words = fault("soot", "hevy")
    assert outcome == "refused"
    assert words.endswith("possible is none, trace, visible, heavy; did you mean heavy?")


def test_a_word_far_from_all_lists_them():
    assert fault("soot", "qqq")[1].endswith("heavy; write one of these.")


def test_a_number_needs_to_be_one():
    assert fault("trim_mm", "abc") == (
        "refused",
        "'abc' is refused and the row left out, a number in mm is needed; "
        "correct it, or leave the cell empty.",
    )


def test_a_whole_number_needs_to_be_whole():
    assert value("burn", "3") == 3
    assert value("burn", "3.0") == 3
    assert fault("burn", "3.5")[1].endswith("a whole number is needed; correct it.")
    assert fault("burn", "x")[0] == "refused"


def test_a_comma_that_may_part_thousands_is_held_back_and_asked_about():
    assert fault("mass_before_g", "1,234") == (
        "held back",
        "1,234 g is held back, it can be 1.234 or 1234; the comma may be a decimal comma or part "
        "thousands: write 1.234 or 1234.",
    )


def test_where_semicolons_part_the_cells_a_comma_is_a_decimal_comma():
    assert value("mass_before_g", "1,234", comma_is_decimal=True) == 1.234


@pytest.mark.parametrize(
    ("name", "text", "expected"),
    [  # definition; the conversions themselves are tested with the quantities
        ("vessel_c", "185F", 85.0),
        ("mass_before_g", "1 lb", 453.59237),
        ("trim_mm", "0.25 in", 6.35),
        ("trim_mm", "5 mm", 5.0),
        ("check_h", "90 min", 1.5),
        ("load_percent", "6,5 %", 6.5),
        ("load_percent", "8 % of wax", 8.0),
        ("load_percent", "10 % of total", 100 / 9),
        ("afterglow_s", "10 s", 10.0),
        ("cure_days", "10 d", 10.0),
    ],
)
def test_a_number_may_have_its_unit_behind_it(name, text, expected):
    assert value(name, text) == pytest.approx(expected, rel=1e-12)


def test_a_unit_of_another_kind_is_refused():
    outcome, words = fault("vessel_c", "12 oz")
    assert outcome == "refused"
    assert "is a weight" in words
    assert words.endswith("The row is left out.")


def test_a_share_of_total_beyond_all_loads_is_refused():
    assert fault("load_percent", "90 % of total")[0] == "refused"


def test_a_unit_that_is_no_unit_here_is_no_number():
    assert fault("afterglow_s", "10 x")[1].endswith("correct it, or leave the cell empty.")


def test_the_issue_s_own_sentence_on_a_trim_of_25():
    outcome, words = fault("trim_mm", "25")
    assert outcome == "asked"
    assert words == "25 mm is asked about, usual is 3 to 8 mm; did you mean 2.5 mm?"


def test_a_trim_in_inches_is_recognised():
    assert fault("trim_mm", "0.25")[1].endswith("did you mean 0.25 in, which is 6.35 mm?")


def test_an_unusual_value_without_a_likely_slip_is_asked_about_and_used():
    found, asked = read("room_c", "-2")
    assert found == -2
    assert asked.sentence() == (
        "-2 °C is asked about, usual is 15 to 30 °C; it is used as written: check it, and the unit."
    )


def test_a_vessel_of_185_degrees_is_held_back_as_fahrenheit():
    assert fault("vessel_c", "185") == (
        "held back",
        "185 °C is held back, usual is 5 to 120 °C; did you mean 185 °F? That is 85 °C. "
        "Write it in °C, or as 185F.",
    )


def test_a_vessel_of_185_degrees_with_its_unit_is_used_and_asked_about():
    found, asked = read("vessel_c", "185 °C")
    assert found == 185
    assert asked.sentence() == (
        "185 °C is asked about, usual is 5 to 120 °C; it is used as written: check it, and the "
        "unit."
    )


@pytest.mark.parametrize(("name", "just_under"), [("vessel_c", "139.9"), ("room_c", "39.9")])
def test_just_under_the_fahrenheit_figure_a_temperature_is_used(name, just_under):
    assert read(name, just_under)[0] == float(just_under)


@pytest.mark.parametrize(("name", "at"), [("vessel_c", "140"), ("room_c", "40"), ("room_c", "72")])
def test_from_the_fahrenheit_figure_on_a_temperature_is_held_back(name, at):
    assert fault(name, at)[0] == "held back"


def test_a_temperature_impossible_in_either_unit_is_refused():
    assert fault("vessel_c", "900")[0] == "refused"


@pytest.mark.parametrize("flame", ["61", "76", "80"])
def test_a_high_flame_is_asked_about_but_used(flame):
    found, asked = read("flame_mm", flame)
    assert found == float(flame)
    assert asked.outcome == "asked"


def test_a_load_of_80_percent_is_refused():
    assert fault("load_percent", "80") == (
        "refused",
        "80 % of wax is refused and the row left out, possible is 0 to 40 % of wax; "
        "did you mean 8 % of wax?",
    )


def test_a_load_written_as_a_share_of_one_is_recognised():
    assert fault("load_percent", "0.08")[1].endswith("did you mean 8 % of wax?")


def test_an_impossible_value_without_a_slip_says_what_to_do():
    assert fault("mass_before_g", "-5")[1].endswith("correct it, or check the unit.")
    assert fault("wax_mm", "0")[1].endswith("correct it, or check the unit.")


@pytest.mark.parametrize(("at", "outcome"), [("50", "asked"), ("50.1", "refused")])
def test_the_end_of_a_possible_range_is_possible(at, outcome):
    assert fault("trim_mm", at)[0] == outcome


@pytest.mark.parametrize(("name", "at"), [("trim_mm", "3"), ("trim_mm", "8"), ("burn", "12")])
def test_the_ends_of_a_usual_range_are_usual(name, at):
    value(name, at)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2027-05-01 18:30", datetime(2027, 5, 1, 18, 30)),
        ("2027-05-01T18:30:15", datetime(2027, 5, 1, 18, 30, 15)),
        ("2027-05-01T18:30Z", datetime(2027, 5, 1, 18, 30, tzinfo=UTC)),
    ],
)
def test_a_time_is_iso_8601_with_t_or_blank(text, expected):
    assert value("lit_at", text) == expected


@pytest.mark.parametrize("text", ["2027-05-01", "01.05.2027 18:30", "18:30", "yesterday"])
def test_a_day_without_its_time_is_not_taken_for_midnight(text):
    assert fault("lit_at", text)[1].endswith("write it as in 2026-05-24 18:30.")


def test_the_apostrophe_before_a_formula_is_not_the_maker_s():
    assert value("candidate", "'=Sum") == "=Sum"
    assert value("candidate", "'Sum'") == "'Sum'"
