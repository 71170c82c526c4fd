"""Fits by maximum likelihood give the published figures."""

from functools import cache

import numpy as np
import pytest

from panels import panel, wine
from reading import cases
from throwbench.science.sensory.factor import crossing, factor
from throwbench.science.sensory.published import NoFiniteFitError, PublishedFit, fit

FITS = {
    "A": {"random": ()},
    "B": {"random": ("judge",)},
    "C": {"random": ("judge",), "estimator": "quadrature"},
    "D": {"random": ("judge",), "estimator": "quadrature", "link": "probit"},
    "E": {"random": ("judge",), "equidistant": True},
    "F": {"random": (), "fixed": ("temp", "contact", "judge")},
    "G": {"random": ("judge", "bottle")},
}


@cache
def wine_fit(name: str) -> PublishedFit:
    options = dict(FITS[name])
    fixed, random = options.pop("fixed", ("temp", "contact")), options.pop("random")
    table = wine()
    return fit(
        [int(cell) for cell in table["rating"]],
        fixed=[factor(column, table[column]) for column in fixed],
        random=[factor(column, table[column]) for column in random],
        **options,
    )


def value_of(found: PublishedFit, quantity: str) -> float:
    what, *rest = quantity.split(" ")
    if what in ("warm", "yes"):
        effect = found.effects["temp" if what == "warm" else "contact"][what]
        return effect.se if rest else effect.estimate
    if what == "cut":
        place = int(rest[0]) - 1
        return (found.threshold_ses if rest[1:] else found.thresholds)[place]
    if what == "step":
        return found.thresholds[1] - found.thresholds[0]
    return found.random["judge"] if what == "sigma" else found.log_likelihood


WINE = cases("ordinal-models.csv", *FITS)


@pytest.mark.parametrize("case", WINE.values(), ids=WINE)
def test_the_wine_fits_are_the_published_ones(case):
    case.agrees(value_of(wine_fit(case.group), case.quantity))


MODES = cases("ordinal-models.csv", "B mode")


@pytest.mark.parametrize("case", MODES.values(), ids=MODES)
def test_the_likeliest_effect_of_each_judge_is_the_other_program_s(case):
    case.agrees(wine_fit("B").modes["judge"][case.quantity.rsplit(" ", 1)[1]])


def test_a_term_that_explains_nothing_has_a_standard_deviation_of_zero():
    assert wine_fit("G").random["bottle"] == 0.0  # other program: 4e-6
    assert set(wine_fit("G").modes["bottle"].values()) == {0.0}


@cache
def panel_fit() -> PublishedFit:
    table = panel()
    terms = [factor(name, table[name]) for name in ("scent", "assessor", "room", "session")]
    return fit([int(cell) for cell in table["rating"]], random=terms)


PANEL = cases("ordinal-models.csv", "P")


@pytest.mark.parametrize("case", PANEL.values(), ids=PANEL)
def test_four_crossed_terms_are_fitted_as_by_the_other_program(case):
    found = panel_fit()
    what = case.quantity
    if what.startswith("cut"):
        case.agrees(found.thresholds[int(what.split(" ")[1]) - 1])
    else:
        case.agrees(found.random.get(what, found.log_likelihood))


def test_one_quadrature_node_is_laplace():  # definition
    table = wine()
    score = [int(cell) for cell in table["rating"]]
    judge = [factor("judge", table["judge"])]
    one = fit(score, random=judge, estimator="quadrature", nodes=1)
    laplace = fit(score, random=judge)
    assert one.log_likelihood == pytest.approx(laplace.log_likelihood, abs=1e-7)


def test_an_interaction_term_counts_each_pair_once():
    table = wine()
    pairs = crossing("judge:temp", table["judge"], table["temp"])
    assert len(pairs.levels) == 18
    assert pairs.levels[:2] == ("1:cold", "1:warm")


def test_the_first_level_in_file_order_is_the_reference():
    found = wine_fit("A")
    assert found.reference == {"temp": "cold", "contact": "no"}
    assert list(found.effects["temp"]) == ["warm"]


def test_swapping_the_reference_turns_the_sign():  # definition
    score, group = [1, 2, 2, 3, 2, 3, 3, 4], list("aaaabbbb")
    ab = fit(score, fixed=[factor("g", group)])
    ba = fit(score[::-1], fixed=[factor("g", group[::-1])])
    assert ab.effects["g"]["b"].estimate == pytest.approx(-ba.effects["g"]["a"].estimate, abs=1e-5)
    assert ab.log_likelihood == pytest.approx(ba.log_likelihood, abs=1e-9)


def test_two_steps_are_a_logistic_regression():  # definition: log odds of a 2 x 2 table
    score = [0] * 6 + [1] * 2 + [0] * 3 + [1] * 5
    found = fit(score, fixed=[factor("g", ["a"] * 8 + ["b"] * 8)], equidistant=True)
    assert found.effects["g"]["b"].estimate == pytest.approx(np.log(5 * 6 / (3 * 2)), abs=1e-5)
    assert found.thresholds == pytest.approx([np.log(3.0)], abs=1e-5)
    se = np.sqrt(1 / 6 + 1 / 2 + 1 / 3 + 1 / 5)
    assert found.effects["g"]["b"].se == pytest.approx(se, abs=1e-5)


@pytest.mark.parametrize(
    ("score", "groups", "words"),
    [
        ([], [], "There is no score"),
        ([3, 3, 3], list("aab"), "All 3 scores are 3"),
        ([1, 2, 3], list("aaa"), "Column g holds only a"),
        ([1, 1, 1, 2, 2, 2], list("aaabbb"), "run away without bound"),
    ],
)
def test_a_fit_that_has_no_finite_answer_says_why(score, groups, words):
    with pytest.raises(NoFiniteFitError, match=words):
        fit(score, fixed=[factor("g", groups)])


def test_quadrature_takes_one_random_term():
    table = wine()
    terms = [factor(name, table[name]) for name in ("judge", "bottle")]
    with pytest.raises(ValueError, match="2 random terms"):
        fit([int(cell) for cell in table["rating"]], random=terms, estimator="quadrature")


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("A", "no random term: log likelihood -86.49192"),
        ("B", "by Laplace's approximation"),
        ("C", "by adaptive quadrature"),
    ],
)
def test_a_fit_says_what_it_is_and_that_it_is_no_verdict(name, words):
    said = wine_fit(name).sentence()
    assert words in said
    assert "72 scores in 5 steps" in said
    assert said.endswith("not a verdict.")
