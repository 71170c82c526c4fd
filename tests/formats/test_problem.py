"""A problem says where it is, and a file of noise does not drown the maker in them."""

from throwbench.formats.problem import LISTED, Fault, Note, problems_of, shown


def refused(line, words="no"):
    return Note(line, "trim_mm", "x", Fault("refused", words))


def test_a_problem_names_file_line_and_column():
    (problem,) = problems_of("burns.csv", [refused(14)])
    assert str(problem) == "burns.csv, line 14, trim_mm: no"


def test_a_problem_of_no_line_names_the_file_alone():
    note = Note(0, "", "", Fault("asked", "a question"))
    assert str(problems_of("burns.csv", [note])[0]) == "burns.csv: a question"


def test_problems_stand_in_the_order_of_the_lines():
    assert [item.line for item in problems_of("f", [refused(9), refused(2)])] == [2, 9]


def test_beyond_a_hundred_of_one_outcome_there_is_a_count():
    notes = [refused(line) for line in range(1, LISTED + 1235)]
    asked = Note(7, "score", "9", Fault("asked", "a question"))
    problems = problems_of("f", [*notes, asked])
    assert len(problems) == LISTED + 2
    assert sum(item.outcome == "asked" for item in problems) == 1
    assert str(problems[-1]).startswith("f: 1,234 more are refused and not listed")


def test_words_are_made_only_for_problems_that_are_listed():
    made = []
    notes = [refused(line, lambda: made.append(1) or "no") for line in range(1000)]
    problems_of("f", notes)
    assert len(made) == LISTED


def test_more_questions_than_listed_are_counted_as_questions():
    notes = [Note(1, "", "", Fault("asked", "?"))] * (LISTED + 1)
    assert "1 more are asked about" in problems_of("f", notes)[-1].sentence


def test_a_long_cell_is_quoted_short_and_without_control_characters():
    assert shown("a\x07b") == "a\N{REPLACEMENT CHARACTER}b"
    assert shown("x" * 50) == "x" * 40 + "…"
