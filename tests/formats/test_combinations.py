"""What test candles are made of, which oils share a theme, and files beside each other."""

from throwbench.formats import (
    questions_across,
    read_burns,
    read_combinations,
    read_scores,
    read_theme,
)
from throwbench.records import Combination, ThemeMember

HEAD = "candle,oil,load_percent,group\n"
THEME = "candidate,group\n"


def said(problems):
    return [(item.line, item.column, item.outcome) for item in problems]


def test_a_combination_may_leave_all_but_code_and_oil_unknown(write):
    reading = read_combinations(write(HEAD + "K1,Ferry Rope,,\n"))
    assert reading.rows == (Combination(candle="K1", oil="Ferry Rope", line=2),)
    assert reading.problems == ()


def test_a_load_of_80_percent_is_refused_with_its_line(write):
    reading = read_combinations(write(HEAD + "K1,Ferry Rope,8,\nK2,Ferry Rope,80,\n"))
    assert [row.candle for row in reading.rows] == ["K1"]
    assert str(reading.problems[0]) == (
        "file.csv, line 3, load_percent: 80 % of wax is refused and the row left out, possible is "
        "0 to 40 % of wax; did you mean 8 % of wax?"
    )


def test_a_candle_has_one_row(write):
    rows = "K1,Ferry Rope,8,\nK1,Ferry Rope,8,\nK1,Linen Loft,8,\n"
    reading = read_combinations(write(HEAD + rows))
    assert [row.oil for row in reading.rows] == ["Ferry Rope"]
    assert said(reading.problems) == [(3, "candle", "refused"), (4, "candle", "refused")]
    assert "this one says the same" in reading.problems[0].sentence
    assert "this one says otherwise" in reading.problems[1].sentence


def test_an_oil_in_two_groups_keeps_the_first(write):
    rows = "K1,Rebarbara K,8,rhubarb\nK2,Rebarbara K,8,garden\nK3,Rebarbara K,8,\n"
    reading = read_combinations(write(HEAD + rows))
    assert [row.group for row in reading.rows] == ["rhubarb", None, None]
    assert said(reading.problems) == [(3, "group", "refused")]


def test_one_oil_in_two_spellings_is_asked_about(write):
    reading = read_combinations(write(HEAD + "K1,Rebarbara K,8,\nK2,rebarbara k,8,\n"))
    assert said(reading.problems) == [(3, "oil", "asked")]


def test_a_theme_is_one_row_per_oil(write):
    reading = read_theme(write(THEME + "Rebarbara K,rhubarb\n"))
    assert reading.rows == (ThemeMember(candidate="Rebarbara K", group="rhubarb", line=2),)


def test_one_candidate_in_two_groups_is_refused(write):
    rows = "Rebarbara K,rhubarb\nRebarbara K,garden\nRebarbara K,rhubarb\n"
    reading = read_theme(write(THEME + rows))
    assert len(reading.rows) == 1
    assert said(reading.problems) == [(3, "group", "refused"), (4, "candidate", "refused")]
    assert "an oil belongs to one group" in reading.problems[0].sentence


def scores_of(write, *pairs):
    head = "candle,candidate,assessor,room,sitting,attribute,score\n"
    rows = "".join(f"{candle},{oil},Odd,loft,S1,liking,4\n" for candle, oil in pairs)
    return read_scores(write(head + rows, "scores.csv"))


def test_a_candle_without_a_combination_is_asked_about_once_per_file(write):
    known = read_combinations(write(HEAD + "K1,Ferry Rope,8,\n", "combinations.csv"))
    burns = read_burns(
        write("candle,burn,lit_at,out_at\nK9,1,2027-05-01 18:00,2027-05-01 22:00\n", "burns.csv")
    )
    scores = scores_of(write, ("K1", "Ferry Rope"), ("K8", "Kelp"), ("K8", "Kelp"))
    problems = questions_across(scores=scores, burns=burns, combinations=known)
    assert [(item.file, item.value, item.outcome) for item in problems] == [
        ("scores.csv", "K8", "asked"),
        ("burns.csv", "K9", "asked"),
    ]
    assert "combinations.csv has no row for it" in problems[0].sentence


def test_a_candle_of_another_oil_than_its_combination_is_asked_about(write):
    known = read_combinations(write(HEAD + "K1,Ferry Rope,8,\n", "combinations.csv"))
    problems = questions_across(scores=scores_of(write, ("K1", "Kelp")), combinations=known)
    assert str(problems[0]) == (
        "scores.csv, line 2, candidate: candle K1 is Kelp here and Ferry Rope in "
        "combinations.csv, line 2; a candle holds one oil: check the code, and whether two tags "
        "were swapped."
    )


def test_an_oil_of_a_theme_that_no_file_knows_is_asked_about(write):
    theme = read_theme(write(THEME + "Kelp,sea\nKlep,sea\n"))
    problems = questions_across(scores=scores_of(write, ("K1", "Kelp")), theme=theme)
    assert said(problems) == [(3, "candidate", "asked")]


def test_a_theme_that_contradicts_the_combinations_is_asked_about(write):
    known = read_combinations(write(HEAD + "K1,Kelp,8,sea\nK2,Ferry Rope,8,\n"))
    theme = read_theme(write(THEME + "Kelp,shore\nFerry Rope,shore\n"))
    assert said(questions_across(theme=theme, combinations=known)) == [(2, "group", "asked")]


def test_files_that_fit_raise_no_question(write):
    known = read_combinations(write(HEAD + "K1,Kelp,8,sea\n"))
    assert questions_across(scores=scores_of(write, ("K1", "Kelp")), combinations=known) == ()
    assert questions_across(combinations=known) == ()
    assert questions_across(scores=scores_of(write, ("K1", "Kelp"))) == ()
