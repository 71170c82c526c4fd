"""`throwbench scent FILE`: the answer, and published fits beside it."""

import json

import pytest
from click.testing import CliRunner

from reading import REFERENCE, cases
from throwbench.cli.scent import command

WINE = REFERENCE / "wine_randall1989.csv"
PRINTED = ("--score", "rating", "--fixed", "temp,contact", "--random", "judge")
LIKING = ("--attribute", "liking")
HEAD = "candle,candidate,assessor,room,sitting,attribute,score\n"
ROWS = "".join(
    f"{oil[0]},{oil},{nose},{room},{nose} {room},{attribute},{step}\n"
    for attribute, levels in (("liking", (5, 3, 1)), ("hot_throw", (2, 3, 4)))
    for oil, level in zip(("Slate", "Kelp", "Rope"), levels, strict=True)
    for nose in ("Odd", "Tor", "Isak")
    for room, more in (("loft", 0), ("kitchen", 1))
    for step in [min(5, level + more)]
)


@pytest.fixture
def scores(tmp_path):
    path = tmp_path / "scores.csv"
    path.write_text(HEAD + ROWS, encoding="utf-8")
    return path


@pytest.fixture
def wine():
    return WINE


def asked(*words):
    return CliRunner().invoke(command, [str(word) for word in words])


def said(*words):
    answer = asked(*words)
    assert answer.exit_code == 0, answer.output
    return answer.output


def whole(*words):
    return json.loads(said(*words, "--json"))


@pytest.mark.parametrize(("estimator", "group"), [("laplace", "B"), ("quadrature", "C")])
def test_the_fit_of_the_wine_has_the_printed_figures(wine, estimator, group):
    """`printed`: sources and tolerances stand in the table of published fits."""
    found = whole(wine, *PRINTED, "--estimator", estimator)
    warm, yes = found["effects"]["temp"]["warm"], found["effects"]["contact"]["yes"]
    figures = {
        "warm": warm["estimate"],
        "warm_se": warm["se"],
        "yes": yes["estimate"],
        "yes_se": yes["se"],
        "sigma": found["random"]["judge"]["sd"],
        "log_likelihood": found["log_likelihood"],
        **{f"cut_{i}": cut for i, cut in enumerate(found["thresholds"], start=1)},
        **{f"cut_{i}_se": se for i, se in enumerate(found["threshold_ses"], start=1)},
    }
    printed = cases("ordinal-models.csv", group)
    assert len(printed) >= 10
    for name, case in printed.items():
        case.agrees(figures[name.removeprefix(f"{group}-")])
    assert found["estimator"] == estimator
    assert found["sentence"].endswith("For comparison with published tables; not a verdict.")


def test_a_fit_is_said_line_by_line(wine):
    out = said(wine, *PRINTED)
    assert out.startswith("Maximum likelihood on 72 scores in 5 steps, logit, random effects by")
    for name in ("temp warm", "contact yes", "sd of judge", "threshold 1|2", "threshold 4|5"):
        assert f"\n  {name} " in out
    assert out.count("(se ") == 6


def test_options_of_a_fit_are_passed_on(wine):
    assert whole(wine, *PRINTED, "--link", "probit")["link"] == "probit"
    equal = whole(wine, *PRINTED, "--thresholds", "equidistant")
    assert equal["equidistant"]
    gaps = [b - a for a, b in zip(equal["thresholds"], equal["thresholds"][1:], strict=False)]
    assert gaps == pytest.approx([gaps[0]] * 3)
    few = whole(wine, *PRINTED, "--estimator", "quadrature", "--nodes", "1")
    laplace = whole(wine, *PRINTED, "--estimator", "laplace")
    assert few["log_likelihood"] == pytest.approx(laplace["log_likelihood"], abs=1e-4)


def test_several_crossed_terms_are_fitted(wine):
    found = whole(wine, "--score", "rating", "--fixed", "temp", "--random", "judge, judge:contact")
    assert set(found["random"]) == {"judge", "judge:contact"}


def test_without_names_a_fit_takes_the_standard_columns(scores):
    text = scores.read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if "hot_throw" not in line]
    noisy = [lines[0], *(line[:-1] + str(1 + i % 5) for i, line in enumerate(lines[1:]))]
    scores.write_text("\n".join(noisy), encoding="utf-8")
    found = whole(scores, "--estimator", "laplace")
    assert set(found["effects"]["candidate"]) == {"Kelp", "Rope"}
    assert found["reference"] == {"candidate": "Slate"}
    assert set(found["random"]) == {"assessor"}
    alone = whole(scores, "--fixed", "", "--random", "")
    assert alone["effects"] == alone["random"] == {}


def test_columns_that_a_file_does_not_have_are_not_taken(wine):
    found = whole(wine, "--score", "rating", "--fixed", "temp")
    assert found["random"] == {}
    assert set(whole(wine, "--score", "rating", "--random", "judge")["effects"]) == set()


def test_the_answer_says_the_sentence_first_and_then_a_row_per_candidate(scores):
    lines = said(scores).splitlines()
    assert lines[0].startswith("Clear winner: Slate, the best ")
    assert "on a scale of 1 to 5. That rests on 18 scores of 3 assessors." in lines[0]
    assert lines[1] == ""
    assert [line.split()[0] for line in lines[2:5]] == ["Slate", "Kelp", "Rope"]
    assert lines[5:] == [
        "",
        "Next: Nothing more to sniff: more testing would hardly change the choice.",
    ]
    assert lines[2].startswith("  Slate  liking ")
    assert "  the best " in lines[2]
    assert " in 100" in lines[2]
    assert "right" not in lines[2]


def test_the_answer_as_json_has_every_figure(scores):
    found = whole(scores)
    assert found["sentence"] == said(scores).splitlines()[0]
    assert found["scale"] == [1, 5]
    assert found["problems"] == []
    for item in found["candidates"]:
        assert set(item) == {
            "candidate",
            "expected",
            "interval_90",
            "chance_in_band",
            "chance_to_belong",
            "chance_best",
            "place",
            "placed",
            "equally_good",
            "split",
            "scores",
        }
        assert set(item["interval_90"]) == {"low", "high"}
        assert item["interval_90"]["low"] < item["expected"] < item["interval_90"]["high"]
        assert item["chance_in_band"] is None
    assert sum(item["chance_best"] for item in found["candidates"]) == pytest.approx(1)


def test_how_many_are_chosen_changes_the_chance_to_belong(scores):
    found = whole(scores, "--choose", "2")
    assert found["choose"] == 2
    assert sum(item["chance_to_belong"] for item in found["candidates"]) == pytest.approx(2)
    assert "  in the two over 99 in 100" in said(scores, "--choose", "2")


def test_where_all_can_join_the_chance_to_be_best_is_told(scores):
    out = said(scores, "--choose", "3")
    assert "in the three" not in out
    assert out.count("  the best ") == 3
    assert whole(scores, "--choose", "3")["next_steps"] == [
        "Nothing more to sniff: more testing would hardly change the choice."
    ]


def test_liking_is_asked_first_and_another_attribute_by_its_name(scores):
    assert whole(scores)["attribute"] == "liking"
    assert whole(scores, "--attribute", "hot_throw")["candidates"][0]["candidate"] == "Rope"
    rows = [line for line in ROWS.splitlines() if "hot_throw" in line]
    scores.write_text(HEAD + "\n".join(rows), encoding="utf-8")
    assert whole(scores)["attribute"] == "hot_throw"
    cold = [line.replace("hot_throw", "cold_throw") for line in rows]
    scores.write_text(HEAD + "\n".join(cold), encoding="utf-8")
    assert whole(scores)["attribute"] == "cold_throw"


def test_a_band_says_how_likely_each_is_right(scores):
    band = ("--attribute", "hot_throw", "--band", "3-4", "--band", "loft=2.5-4")
    found = whole(scores, *band)
    assert found["candidates"][-1]["candidate"] == "Slate"
    assert all(0 <= item["chance_in_band"] <= 1 for item in found["candidates"])
    assert "  right " in said(scores, *band)


def test_a_theme_lets_one_join(scores, tmp_path):
    theme = tmp_path / "one-of.csv"
    theme.write_text("candidate,group\nSlate,stone\nKelp,stone\n", encoding="utf-8")
    found = whole(scores, "--choose", "2", "--one-of", theme)
    chance = {item["candidate"]: item["chance_to_belong"] for item in found["candidates"]}
    assert chance["Slate"] + chance["Kelp"] == pytest.approx(1)


def test_a_scale_can_be_named(scores):
    assert whole(scores, "--scale", "0-10")["scale"] == [0, 10]
    refused = said(scores, "--scale", "1-4")
    assert "scores.csv, line 2, score: " in refused
    assert whole(scores, "--scale", "1-4")["problems"][0].startswith("scores.csv, line 2")


def test_scores_before_the_cure_and_of_a_tired_nose_can_be_left_out(scores):
    lines = scores.read_text(encoding="utf-8").splitlines()
    told = [lines[0] + ",cure_days,tired"]
    told += [f"{line},{5 + i % 2},{'yes' if i % 3 else 'no'}" for i, line in enumerate(lines[1:])]
    scores.write_text("\n".join(told), encoding="utf-8")
    every = whole(scores)
    assert (every["counted"], every["not_counted"]) == (18, 0)
    assert whole(scores, "--cure-days", "5")["counted"] == 18
    cured = whole(scores, "--cure-days", "5,5")
    assert (cured["counted"], cured["not_counted"]) == (9, 9)
    assert " 9 more do not count." in cured["sentence"]
    assert whole(scores, "--leave-out", "tired")["counted"] == 6
    refused = asked(scores, "--cure-days", "7")
    assert refused.exit_code == 2
    assert (
        "No score of liking counts. An answer needs at least one; shown, not counted: "
        "18 still curing." in refused.output
    )


def test_the_link_is_passed_on(scores):
    assert whole(scores, "--link", "probit") != whole(scores)


def test_a_foreign_file_is_answered_too(wine, tmp_path):
    words = ("--score", "rating", "--candidate", "temp", "--assessor", "judge")
    found = whole(wine, *words)
    assert found["attribute"] == "rating"
    assert found["noses"] == 9
    assert [item["candidate"] for item in found["candidates"]] == ["warm", "cold"]
    assert whole(wine, "--score", "rating", "--candidate", "temp")["noses"] == 1
    named = tmp_path / "named.csv"
    named.write_text("candidate,assessor,score\nA,x,1\nB,x,2\n", encoding="utf-8")
    assert whole(named, "--assessor", "assessor")["attribute"] == "score"
    assert whole(named, "--candidate", "candidate")["noses"] == 1


def test_of_a_file_with_attributes_and_named_columns_one_attribute_is_answered(scores):
    for attribute in ("liking", "hot throw"):
        words = ("--attribute", attribute)
        named = whole(scores, *words, "--assessor", "assessor")
        assert named["attribute"] == attribute.replace(" ", "_")
        assert (named["counted"], named["noses"]) == (18, 3)
        assert whole(scores, *words)["counted"] == 18


def test_one_candidate_alone_has_no_chance_in_its_row(scores):
    rows = [line for line in ROWS.splitlines() if "Slate" in line]
    scores.write_text(HEAD + "\n".join(rows), encoding="utf-8")
    out = said(scores)
    assert "Slate stands alone: nothing to compare it with." in out
    assert " in 100" not in out


QUADRATURE = ("--estimator", "quadrature")
NAMED = ("--score", "score", *LIKING)


@pytest.mark.parametrize(
    ("words", "unused", "belongs"),
    [
        (("--nodes", "5"), "--nodes", "a published fit"),
        (("--thresholds", "flexible"), "--thresholds", "a published fit"),
        (("--fixed", "room", "--nodes", "5"), "--nodes", "a fit by quadrature"),
        ((*QUADRATURE, "--choose", "2"), "--choose", "the answer, and not to a published fit"),
        ((*QUADRATURE, "--band", "3-4"), "--band", "the answer"),
        ((*QUADRATURE, "--one-of", "x.csv"), "--one-of", "the answer"),
        ((*QUADRATURE, "--scale", "1-5"), "--scale", "the answer"),
        ((*QUADRATURE, "--cure-days", "9"), "--cure-days", "the answer"),
        ((*QUADRATURE, "--leave-out", "tired"), "--leave-out", "the answer"),
        ((*QUADRATURE, "--candidate", "oil"), "--candidate", "the answer"),
        ((*QUADRATURE, "--assessor", "judge"), "--assessor", "the answer"),
        ((*NAMED, "--cure-days", "9"), "--cure-days", "a file with the columns of a sitting"),
        ((*NAMED, "--leave-out", "tired"), "--leave-out", "a file with the columns of a sitting"),
    ],
)
def test_an_option_that_would_change_nothing_is_refused(scores, words, unused, belongs):
    found = asked(scores, *words)
    assert found.exit_code == 2
    assert found.stdout == ""
    assert found.output.startswith(f"{unused} would change nothing here. It belongs to {belongs}")
    assert found.output.endswith(" Leave it out.\n")


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        (("--scale", "five"), "--scale five is not understood; it is two whole steps"),
        (("--band", "4-3"), "--band 4-3 ends before it begins; it is two scores"),
        (("--band", "attic=3-4"), "A band is given for attic, and no score that counts is"),
        (
            ("--attribute", "likeness"),
            "No score of likeness counts. The scores are of liking and hot_throw. Ask for",
        ),
        (("--assessor", "assessor"), "scores.csv has scores of liking and hot_throw. One of"),
        (("--estimator", "laplace"), "scores.csv has scores of liking and hot_throw. One of"),
        ((*LIKING, "--assessor", "nosee"), "scores.csv has no column nosee. Its columns are"),
        (("--scale", "0-100"), "--scale 0-100 has 101 steps; a scale has 2 to 31 of them."),
        (
            (*LIKING, "--score", "rating"),
            "scores.csv has no column rating. Its columns are candle, ",
        ),
        ((*LIKING, "--candidate", "oil"), "scores.csv has no column oil. Its columns are candle, "),
        ((*LIKING, "--fixed", "oil"), "scores.csv has no column oil. Its columns are candle, "),
        ((*LIKING, "--estimator", "quadrature", "--random", "assessor,room"), "Quadrature"),
        (("--one-of", "nowhere.csv"), "nowhere.csv"),
        (("--choose", "0"), "0 is not in the range"),
        (("--estimator", "guess"), "'guess' is not one of 'laplace', 'quadrature'"),
    ],
)
def test_what_cannot_be_answered_is_a_sentence(scores, words, answer):
    found = asked(scores, *words)
    assert found.exit_code == 2, found.output
    assert answer in found.output
    assert "Traceback" not in found.output
    assert isinstance(found.exception, SystemExit)


@pytest.mark.parametrize(
    "content", [b"", b"candle\nA\nB\n", b"\x00\xff\xfe" * 999, b"candidate,score\n"]
)
@pytest.mark.parametrize("words", [(), ("--estimator", "laplace")])
def test_a_file_that_is_none_is_a_sentence(tmp_path, content, words):
    path = tmp_path / "broken.csv"
    path.write_bytes(content)
    found = asked(path, *words)
    assert found.exit_code == 2, found.output
    assert isinstance(found.exception, SystemExit)
    assert found.stdout == ""
    assert "broken.csv" in found.output


def test_a_file_that_is_not_there_is_a_sentence(tmp_path):
    found = asked(tmp_path / "none.csv")
    assert found.exit_code == 2
    assert "none.csv" in found.output


@pytest.mark.parametrize(
    ("words", "column"),
    [
        (("--fixed", "temp,temp"), "temp"),
        (("--fixed", "temp", "--random", "judge,judge"), "judge"),
        (("--fixed", "temp", "--random", "temp"), "temp"),
        (("--fixed", "rating"), "rating"),
    ],
)
def test_a_column_is_named_once_in_a_published_fit(wine, words, column):
    found = asked(wine, "--score", "rating", *words)
    assert found.exit_code == 2
    assert f"The column {column} is named twice. It is the score" in found.output


def test_a_published_fit_holds_the_terms_asked_for_and_no_other(wine):
    fixed_alone = whole(wine, "--score", "rating", "--fixed", "temp")
    assert fixed_alone["random"] == {}
    random_alone = whole(wine, "--score", "rating", "--random", "judge")
    assert random_alone["effects"] == {}
    assert set(random_alone["random"]) == {"judge"}


def test_the_standard_columns_need_no_options(tmp_path):
    path = tmp_path / "bare.csv"
    rows = ["candidate,assessor,room,sitting,score"]
    rows += [f"{oil},{nose},loft,1,{step}" for nose in "xyz" for oil, step in (("A", 5), ("B", 2))]
    rows += [f"{oil},{nose},loft,1,{step}" for nose in "vw" for oil, step in (("A", 4), ("B", 3))]
    path.write_text("\n".join(rows), encoding="utf-8")
    found = whole(path)
    assert found["candidates"][0]["candidate"] == "A"
    assert (found["attribute"], found["counted"]) == ("score", 10)
    effects = whole(path, "--estimator", "quadrature", "--random", "assessor")["random"]
    assert set(effects) == {"assessor"}
