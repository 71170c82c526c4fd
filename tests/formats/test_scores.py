"""A file of scores, long or wide, and the scale it is on."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from throwbench.formats import UnreadableFile, read_scores
from throwbench.records import ATTRIBUTES, Score

LONG = "candle,candidate,assessor,room,sitting,attribute,score\n"
WIDE = "candle,candidate,assessor,room,sitting,liking,hot throw\n"
A_SCORE = Score(
    candle="A1",
    candidate="Ferry Rope",
    assessor="Odd",
    room="loft",
    sitting="S1",
    attribute="liking",
    score=4,
    line=2,
)


def long(*scores):
    """One sitting for each score: a second sniff, not a row that stands twice."""
    rows = enumerate(scores, start=1)
    return LONG + "".join(f"A1,Ferry Rope,Odd,loft,S{i},liking,{score}\n" for i, score in rows)


def sentences(reading):
    return [str(problem) for problem in reading.problems]


def test_the_long_form_is_one_score_per_row(write):
    reading = read_scores(write(long(4)))
    assert reading.rows == (A_SCORE,)
    assert reading.problems == ()


def test_the_wide_form_is_one_column_per_attribute(write):
    reading = read_scores(
        write(WIDE + "A1,Ferry Rope,Odd,loft,S1,4,\nA1,Ferry Rope,Odd,loft,S1,,2\n")
    )
    assert reading.rows == (A_SCORE, replace(A_SCORE, attribute="hot_throw", score=2, line=3))
    assert reading.problems == ()


def test_in_the_wide_form_a_bad_answer_leaves_the_other_answers(write):
    reading = read_scores(write(WIDE + "A1,Ferry Rope,Odd,loft,S1,4,loud\n"))
    assert reading.rows == (A_SCORE,)
    assert sentences(reading) == [
        "file.csv, line 2, hot throw: 'loud' is refused and the score left out, a whole step from "
        "0 to 10, or 'cannot tell', is possible; write one of these."
    ]


@pytest.mark.parametrize("answer", ["cannot tell", "Cannot Tell"])
def test_cannot_tell_is_an_answer_without_a_score(write, answer):
    assert read_scores(write(long(answer))).rows[0].score is None
    wide = WIDE + f"A1,Ferry Rope,Odd,loft,S1,{answer},\n"
    assert [row.score for row in read_scores(write(wide)).rows] == [None]


def test_an_empty_score_in_the_long_form_is_an_answer_without_a_score(write):
    assert read_scores(write(long("", 3))).rows[0].score is None


def test_a_score_between_two_steps_is_refused(write):
    reading = read_scores(write(long(3, "3.5")))
    assert len(reading.rows) == 1
    assert sentences(reading)[0].endswith("is possible; write 3 or 4, as it was given.")


def test_a_whole_score_may_be_written_with_decimals(write):
    assert read_scores(write(long("4,0".join('""'), "4.0"))).rows[1].score == 4


def test_outside_the_named_scale_a_score_is_refused(write):
    reading = read_scores(write(long(1, 5, 6, 0)), scale=(1, 5))
    assert [row.score for row in reading.rows] == [1, 5]
    assert [problem.line for problem in reading.problems] == [4, 5]
    assert "a whole step from 1 to 5" in reading.problems[0].sentence


def test_without_a_named_scale_eleven_is_refused(write):
    assert [row.score for row in read_scores(write(long(7, 11, 10, 8))).rows] == [7, 10, 8]


def test_one_score_that_would_change_the_scale_of_all_the_others_is_held_back(write):
    reading = read_scores(write(long(*[3] * 30, 7)))
    assert len(reading.rows) == 30
    assert [problem.outcome for problem in reading.problems] == ["held back"]
    assert sentences(reading) == [
        "file.csv, line 32, score: 7 is held back, nearly all of the 31 scores lie within 1 to 5; "
        "correct it if it is a slip, or name the scale if it is meant (--scale)."
    ]


def test_a_bare_file_needs_no_more_than_candidate_assessor_and_score(write):
    path = write("candidate,assessor,score\nRope,Odd,4\nSlate,Odd,2\n")
    rows = read_scores(path, bare=True).rows
    assert [(row.candle, row.candidate, row.score) for row in rows] == [
        ("Rope", "Rope", 4),
        ("Slate", "Slate", 2),
    ]
    assert {(row.attribute, row.room, row.sitting) for row in rows} == {("score", "one", "one")}
    with pytest.raises(UnreadableFile, match="candle and room and sitting and attribute"):
        read_scores(path)


def test_a_bare_file_keeps_what_it_has(write):
    path = write("candidate,assessor,room,attribute,score\nRope,Odd,loft,hot_throw,4\n")
    (row,) = read_scores(path, bare=True).rows
    assert (row.room, row.attribute, row.candle) == ("loft", "hot_throw", "Rope")


def test_a_bare_file_without_assessors_is_not_one_nose_in_silence(write):
    with pytest.raises(UnreadableFile, match="assessor"):
        read_scores(write("candidate,score\nRope,4\n"), bare=True)


def test_with_a_named_scale_nothing_is_asked_about_it(write):
    assert read_scores(write(long(*[3] * 30, 7)), scale=(1, 10)).problems == ()


def test_a_candle_with_two_oils_is_asked_about_once(write):
    rows = "A1,Ferry Rope,Odd,loft,S1,liking,4\n" + "A1,Linen Loft,Odd,loft,S1,liking,4\n"
    rows += "A1,Linen Loft,Odd,loft,S2,liking,4\n"
    reading = read_scores(write(LONG + rows))
    assert len(reading.rows) == 3
    assert sentences(reading) == [
        "file.csv, line 3, candidate: candle A1 is Linen Loft here and Ferry Rope on line 2, used "
        "as written; a candle holds one oil: check the code, and whether two tags were swapped."
    ]


def test_one_oil_in_two_spellings_is_asked_about(write):
    rows = "A1,Ferry Rope,Odd,loft,S1,liking,4\nA2,ferry-rope,Odd,loft,S1,liking,4\n"
    (problem,) = read_scores(write(LONG + rows)).problems
    assert problem.outcome == "asked"
    assert problem.sentence.startswith("ferry-rope is spelled Ferry Rope on line 2")


def test_headers_forgive_case_blanks_and_order(write):
    header = " Score ,ATTRIBUTE,sitting,Room,Assessor,Candidate,candle, Cure Days \n"
    reading = read_scores(write(header + "4,liking,S1,loft,Odd,Ferry Rope,A1,12\n"))
    assert reading.rows == (replace(A_SCORE, cure_days=12.0),)
    assert reading.problems == ()


def test_an_unknown_column_is_asked_about_with_the_nearest_name(write):
    content = LONG.strip() + ",cure_dys\nA1,Ferry Rope,Odd,loft,S1,liking,4,12\n"
    (problem,) = read_scores(write(content)).problems
    assert (problem.outcome, problem.line) == ("asked", 1)
    assert problem.sentence.startswith("the column cure_dys is not known and is ignored")
    assert problem.sentence.endswith("did you mean cure_days?")


def test_an_unknown_column_like_no_other_is_to_be_renamed_or_taken_out(write):
    content = LONG.strip() + ",xyzzy\nA1,Ferry Rope,Odd,loft,S1,liking,4,12\n"
    assert read_scores(write(content)).problems[0].sentence.endswith("rename it, or take it out.")


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("candle,score\nA1,3\n", "candidate and assessor and room and sitting and attribute are"),
        (LONG.replace("room", "rom") + "1,2,3,4,5,liking,3\n", "rom: did you mean room?"),
        (LONG.replace(",score", "") + "1,2,3,4,5,liking\n", "score is needed"),
        ("thoughts\nit was nice\n", "the file has only one column, thoughts; candle and"),
        ("candle,candidate,assessor,room,sitting\n1,2,3,4,5\n", "no column holds scores"),
        (LONG.replace("room", "room,Room ") + "1,2,3,4,5,6,liking,3\n", "two columns are called"),
        (LONG.strip() + ",cure days,cure_days\n1,2,3,4,5,liking,3,1,1\n", "both mean cure_days"),
    ],
)
def test_a_file_that_lacks_what_is_needed_is_said(write, content, words):
    with pytest.raises(UnreadableFile, match=words):
        read_scores(write(content))


def test_a_column_of_text_where_scores_should_be_is_a_problem_per_row(write):
    reading = read_scores(write(long("lovely", "too sweet")))
    assert reading.rows == ()
    assert [problem.outcome for problem in reading.problems] == ["refused", "refused"]


def test_a_cell_that_cannot_be_read_leaves_out_the_row(write):
    content = LONG.strip() + ",counts\nA1,Ferry Rope,Odd,loft,S1,liking,4,maybe\n"
    reading = read_scores(write(content))
    assert reading.rows == ()
    assert "and the row left out" in reading.problems[0].sentence


def test_sixty_thousand_scores_are_read(write):
    row = "A{0},Oil {1},N{1},loft,S{4},{2},{3},12,60,5,nose,no,no,no,\n"
    header = LONG.strip() + (
        ",cure_days,minutes_lit,clean_air_min,burn_kind,tired,perfume,recognised,counts\n"
    )
    rows = (row.format(i % 90, i % 90 % 9, ATTRIBUTES[i % 5], i % 5 + 1, i) for i in range(60_000))
    path = write(header + "".join(rows))
    reading = read_scores(path)
    assert len(reading.rows) == 60_000
    assert reading.problems == ()


@settings(deadline=None)  # a file is written each time
@given(cells=st.lists(st.lists(st.text(max_size=8), min_size=7, max_size=7), max_size=5))
def test_any_text_in_any_cell_is_a_score_or_a_sentence(cells, answer):
    text = LONG + "\n".join(map(",".join, cells))
    reading = answer(text.encode("utf-8", "surrogatepass"), read_scores)
    if isinstance(reading, str):
        assert reading.endswith((".", "?"))
    else:
        assert all(problem.sentence for problem in reading.problems)
        assert all(row.score is None or 0 <= row.score <= 10 for row in reading.rows)
