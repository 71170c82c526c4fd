"""Rows that stand twice are asked about, never silently taken for second sniffs."""

import pytest

from throwbench.formats import read_scores

HEAD = "candle,candidate,assessor,room,sitting,attribute,score,tired\n"
ROW = "A1,Rope,Odd,loft,S1,liking,4,\n"
OTHER = "B1,Slate,Odd,loft,S1,liking,2,\n"


def asked(write, text, **how):
    reading = read_scores(write(text), **how)
    return len(reading.rows), [(p.outcome, str(p)) for p in reading.problems]


def test_a_row_that_stands_twice_is_asked_about_and_used_as_written(write):
    assert asked(write, HEAD + ROW + OTHER + ROW) == (
        3,
        [
            (
                "asked",
                "file.csv, line 4: this row is alike in every column with an earlier one (line 2), "
                "used as written, as second sniffs; take the copies out if they were pasted twice.",
            )
        ],
    )


def test_a_block_pasted_twice_is_one_question(write):
    rows, problems = asked(write, HEAD + (ROW + OTHER) * 3)
    assert rows == 6
    assert [words for _, words in problems] == [
        "file.csv, line 4: 4 rows from here on are alike in every column with an earlier one "
        "(line 2), used as written, as second sniffs; take the copies out if they were pasted "
        "twice."
    ]


@pytest.mark.parametrize(
    "changed",
    [
        ROW.replace("S1", "S2"),
        ROW.replace("A1", "A2"),
        ROW.replace("Odd", "Tor"),
        ROW.replace("loft", "hall"),
        ROW.replace("liking", "hot_throw"),
        ROW.replace(",4,", ",5,"),
        ROW.replace(",4,", ",4,yes"),
    ],
)
def test_a_row_that_differs_in_one_column_is_no_copy(write, changed):
    assert asked(write, HEAD + ROW + changed) == (2, [])


def test_the_two_answers_of_one_wide_row_are_no_copies(write):
    wide = "candle,candidate,assessor,room,sitting,liking,hot throw\nA1,Rope,Odd,loft,S1,4,4\n"
    assert asked(write, wide) == (2, [])


def test_in_a_bare_file_only_a_whole_copy_is_asked_about(write):
    bare = "candidate,assessor,score\n"
    one, other = "Rope,Odd,4\n", "Slate,Odd,2\n"
    assert asked(write, bare + one + other + one, bare=True) == (3, [])
    assert asked(write, bare + one * 3, bare=True) == (3, [])
    rows, problems = asked(write, bare + (one + other) * 2, bare=True)
    assert (rows, len(problems)) == (4, 1)
