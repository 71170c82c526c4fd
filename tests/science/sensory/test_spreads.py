"""Where the spreads are looked at, and what is drawn there (`definition`)."""

import numpy as np
import pytest
from scipy.stats import halfnorm, norm

from throwbench.science.errors import UnclearError
from throwbench.science.sensory.answer import answer
from throwbench.science.sensory.factor import factor
from throwbench.science.sensory.layout import Layout
from throwbench.science.sensory.posterior import draw
from throwbench.science.sensory.priors import Priors
from throwbench.science.sensory.published import NoFiniteFitError, fit
from throwbench.science.sensory.spreads import explore, recurrence

SCORES, OILS, NOSES = [5, 4, 2, 3, 4, 2], "aabbcc", "xyxyxy"


def layout():
    effects = [(factor("oil", list(OILS)), 1.0), (factor("nose", list(NOSES)), 0.5)]
    return Layout.of(np.array(SCORES), scale=(1, 5), effects=effects, priors=Priors(), link="logit")


def test_points_are_fractions_of_the_golden_and_the_plastic_number():
    golden, plastic = (1 + 5**0.5) / 2, 1.32471795724474602596
    i = np.arange(1, 9)
    assert recurrence(8, 1)[:, 0] == pytest.approx((0.5 + i / golden) % 1, abs=1e-12)
    two = recurrence(8, 2)
    assert two.shape == (8, 2)
    assert two[:, 0] == pytest.approx((0.5 + i / plastic) % 1, abs=1e-12)
    assert two[:, 1] == pytest.approx((0.5 + i / plastic**2) % 1, abs=1e-12)


@pytest.mark.parametrize("score", [-2.0, 0.0, 1.0, 3.0])
def test_a_normal_score_stands_for_the_quantile_of_its_prior(score):
    within, sds = layout().spreads(np.full((1, 3), score))
    assert within[0, 0] == pytest.approx(0.8 * np.exp(0.5 * score))
    half = halfnorm.ppf(norm.cdf(score))
    assert sds[0] == pytest.approx([1.0 * half, 0.5 * half])


def test_one_unit_of_an_unknown_is_its_prior_in_steps():
    """Four borders of 0.3, the level of half the borders, then the effects by their spreads."""
    half = halfnorm.ppf(0.5)
    assert layout().widths(np.zeros((1, 3)))[0] == pytest.approx(
        [0.3] * 4 + [2.0] + [1.0 * half] * 3 + [0.5 * half] * 2
    )


def test_the_cloud_has_192_points_of_which_mirrored_pairs_lie_about_the_likeliest():
    found = explore(layout().mode_at, size=3)
    assert found.points.shape == (192, 3)
    assert found.weight.sum() == pytest.approx(1.0)
    middle = (found.points[:96] + found.points[96:]) / 2
    assert np.ptp(middle, axis=0) == pytest.approx(np.zeros(3), abs=1e-9)


def test_draws_come_in_mirrored_pairs_so_their_mean_is_no_matter_of_chance():
    here = layout()
    cloud = explore(here.mode_at, size=3)
    one, other = (draw(here, cloud, draws=400, random_state=state) for state in (0, 1))
    assert (one.level != other.level).any()
    assert one.level.mean(axis=0) == pytest.approx(other.level.mean(axis=0), abs=1e-10)
    assert one.borders.mean(axis=0) == pytest.approx(other.borders.mean(axis=0), abs=1e-10)


def test_each_point_is_drawn_as_often_as_its_weight_says():
    here = layout()
    cloud = explore(here.mode_at, size=3)
    found = draw(here, cloud, draws=20_000, random_state=0)
    within, sds = here.spreads(cloud.points)
    assert found.spreads["within"].mean() == pytest.approx(cloud.weight @ within[:, 0], rel=2e-3)
    assert found.spreads["oil"].mean() == pytest.approx(cloud.weight @ sds[:, 0], rel=2e-3)
    assert found.spreads["nose"].mean() == pytest.approx(cloud.weight @ sds[:, 1], rel=2e-3)


HELP = "Ask for the answer instead: it has priors and can still be given."
GROUPS = factor("g", list("aaabbb"))


@pytest.mark.parametrize(
    ("refused", "sentence"),
    [
        (
            lambda: fit([]),
            "There is no score. A fit by maximum likelihood needs at least two different steps. "
            + HELP,
        ),
        (
            lambda: fit([3]),
            "There is one score, 3. A fit by maximum likelihood needs at least two different "
            "steps. " + HELP,
        ),
        (
            lambda: fit([3, 3]),
            "All 2 scores are 3. A fit by maximum likelihood needs at least two different steps. "
            + HELP,
        ),
        (
            lambda: fit([1, 2, 3], fixed=[factor("g", list("aaa"))]),
            "Column g holds only a. A fixed column needs at least two levels. "
            "Leave it out of the fixed columns.",
        ),
        (
            lambda: fit([1, 1, 1, 2, 2, 2], fixed=[GROUPS]),
            "The effects run away without bound: some level has only the lowest or only the "
            "highest scores (separation). A fit by maximum likelihood needs overlap between the "
            "levels. " + HELP,
        ),
    ],
)
def test_a_fit_without_a_finite_answer_is_a_whole_sentence(refused, sentence):
    with pytest.raises(NoFiniteFitError) as error:
        refused()
    assert str(error.value) == sentence


def test_two_terms_for_quadrature_are_a_whole_sentence():
    with pytest.raises(UnclearError) as error:
        fit([1, 2, 3, 1, 2, 3], random=[GROUPS, GROUPS], estimator="quadrature")
    assert str(error.value) == (
        "Quadrature was asked for 2 random terms. It takes one. "
        "Use the estimator laplace for crossed terms."
    )


def test_a_score_off_the_scale_is_a_whole_sentence():
    with pytest.raises(UnclearError) as error:
        answer([3, 6], scale=(1, 5), candidate=factor("oil", list("ab")))
    assert str(error.value) == (
        "2 scores (3, 6) were given for a scale of 1 to 5. At least one is needed and all lie on "
        "the scale. Check the file, or name the scale."
    )


def test_what_a_fit_was_asked_stands_in_it():
    score = [1, 2, 2, 3, 2, 3, 3, 4]
    two = [factor("g", list("aaaabbbb")), factor("h", list("xyzxyzxy"))]
    found = fit(score, fixed=two, link="probit", equidistant=True)
    assert found.reference == {"g": "a", "h": "x"}
    assert {name: list(levels) for name, levels in found.effects.items()} == {
        "g": ["b"],
        "h": ["y", "z"],
    }
    assert (found.estimator, found.link, found.equidistant) == ("laplace", "probit", True)
    assert (found.steps, found.scores, found.random, found.modes) == ((1, 2, 3, 4), 8, {}, {})
    alone = fit(score, fixed=two[1:], link="probit", equidistant=True)
    assert alone.effects["h"].keys() == {"y", "z"}
    assert np.diff(found.thresholds) == pytest.approx(
        [found.thresholds[1] - found.thresholds[0]] * 2
    )
    assert fit([1, 2, 1, 2], equidistant=True).equidistant is False
