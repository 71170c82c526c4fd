"""A look that could not be read keeps its candle from being clean."""

import pytest

from throwbench.formats import read_burns
from throwbench.records import Burn, Check, columns
from throwbench.rules import columns_that_break

HEAD = "candle,burn,lit_at,out_at,wick_moved,vessel_damage,flame_mm,pool_width_mm,flare_up\n"
TIMES = "2027-05-01 09:00,2027-05-01 13:00"


def unread(write, *rows):
    return dict(read_burns(write(HEAD + "\n".join(rows), "burns.csv")).unread)


def test_a_log_that_reads_well_hides_nothing(write):
    assert unread(write, f"K7F,1,{TIMES},no,none,20,40,none") == {}


@pytest.mark.parametrize(
    ("row", "column", "value"),
    [
        (f"K7F,1,{TIMES},perhaps,none,20,40,none", "wick_moved", " (perhaps)"),
        (f"K7F,1,{TIMES},no,none,201,40,none", "flame_mm", " (201)"),
        (f"K7F,1,{TIMES},no,none,20,40,flashover", "flare_up", " (flashover)"),
        (f"K7F,x,{TIMES},no,none,20,40,none", "burn", " (x)"),
        ("K7F,1,,2027-05-01 13:00,no,none,20,40,none", "lit_at", ""),
    ],
)
def test_a_look_that_was_refused_is_named_with_its_candle(write, row, column, value):
    assert unread(write, f"K7F,2,{TIMES},no,none,20,40,none", row) == {
        "K7F": f"Put right burns.csv, line 3, {column}{value}: it could not be used and may hide a "
        "broken limit of K7F."
    }


def test_a_blank_candle_is_the_one_above_and_the_first_fault_is_told(write):
    rows = (
        f"K7F,1,{TIMES},no,none,20,40,none",
        ",,,,,,999,40,none",
        ",,,,,,998,40,none",
    )
    assert "line 3, flame_mm (999)" in unread(write, *rows)["K7F"]


def test_a_pool_that_could_not_be_read_hides_no_broken_limit(write):
    assert unread(write, f"K7F,1,{TIMES},no,none,20,wide,none") == {}


NO_WORD_OF_IT = "???"
BREAK = columns_that_break({})
ONLY_SET = {"vessel_c": {"vessel-temperature": 60.0}, "pool_depth_mm": {"pool-depth": 13.0}}


def unread_cell(write, column, house=None):
    """What a log hides of which one cell cannot be read."""
    text = f"candle,burn,lit_at,out_at,{column}\nK7F,1,{TIMES},{NO_WORD_OF_IT}\n"
    return dict(read_burns(write(text), house=house).unread)


@pytest.mark.parametrize("column", sorted(BREAK))
def test_each_column_that_can_show_a_broken_limit_may_hide_one(write, column):
    assert f"line 2, {column} ({NO_WORD_OF_IT})" in unread_cell(write, column)["K7F"]


def test_how_long_it_glowed_after_is_such_a_column():
    assert "afterglow_s" in BREAK


@pytest.mark.parametrize(("column", "house"), ONLY_SET.items())
def test_a_figure_that_only_the_maker_makes_a_limit_hides_one_once_it_is_set(write, column, house):
    assert unread_cell(write, column) == {}
    assert column in unread_cell(write, column, house)["K7F"]


def test_no_other_column_hides_a_broken_limit(write):
    others = {column.name for record in (Burn, Check) for column in columns(record)} - BREAK
    for column in others - {"candle", "burn", "lit_at", "out_at"}:
        assert unread_cell(write, column) == {}


@pytest.mark.parametrize("cell", ["45 seconds", '"1,234"', "5000"])
def test_an_afterglow_that_could_not_be_used_is_never_none_broken(write, cell):
    text = f"candle,burn,lit_at,out_at,afterglow_s\nK7F,1,{TIMES},{cell}\n"
    assert "afterglow_s" in read_burns(write(text)).unread["K7F"]


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("yes", "yes"),
        ("yes, a crack at the rim", "crack"),
        ("yes, cracked", "crack"),
        ("yes; leaking and chipped", "leak"),
        ("yes, at the foot", "yes"),
        ("no", "none"),
        ("none", "none"),
    ],
)
def test_yes_may_be_followed_by_the_makers_own_words(write, written, read):
    row = f'K7F,1,{TIMES},"yes, leaning","{written}",20,40,none'
    (burn,) = read_burns(write(HEAD + row)).rows
    assert burn.vessel_damage == read
    assert burn.wick_moved is True


def test_words_after_yes_are_no_answer_where_yes_is_none(write):
    reading = read_burns(write(HEAD + f"K7F,1,{TIMES},no,none,20,40,yes a lot"))
    assert reading.rows[0].checks[0].flare_up is None
    assert "flare_up" in reading.unread["K7F"]


def test_a_candle_that_went_out_by_itself_is_asked_about(write):
    head = "candle,burn,lit_at,out_at,put_out\n"
    reading = read_burns(write(head + f"K7F,1,{TIMES},went out\nK7F,2,{TIMES},snuffed"))
    asked = [str(problem) for problem in reading.problems if problem.column == "put_out"]
    assert len(asked) == 1
    assert "line 2, put_out: went out is asked about" in asked[0]
    assert reading.rows[0].put_out == "went out"


def test_a_problem_names_the_column_as_the_file_does(write):
    head = "candle,burn,lit_at,out_at,look_h,Flame mm\n"
    reading = read_burns(write(head + f"K7F,1,{TIMES},1.4,500"))
    assert [problem.column for problem in reading.problems] == ["Flame mm", "look_h"]
