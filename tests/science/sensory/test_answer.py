"""The answer to scores: checked against another sampler, bare importance sampling and sense."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import expit, log_expit

from panels import panel
from reading import cases
from throwbench.science.errors import UnclearError
from throwbench.science.sensory.answer import answer
from throwbench.science.sensory.factor import factor
from throwbench.science.sensory.layout import LOGISTIC_SD
from throwbench.science.sensory.posterior import Posterior


@cache
def panel_answer() -> Posterior:
    table = panel()
    terms = [(factor(name, table[name]), 1.0) for name in ("assessor", "room", "session")]
    return answer(
        [int(cell) for cell in table["rating"]],
        scale=(1, 10),
        candidate=factor("scent", table["scent"]),
        terms=terms,
    )


def contrasts(found: Posterior) -> np.ndarray:
    level = found.level / found.noise[:, None]
    return level - level.mean(axis=1, keepdims=True)


NUTS = cases("ordinal-models.csv", "N mean", "N sd", "N best")


@pytest.mark.parametrize("case", NUTS.values(), ids=NUTS)
def test_a_full_panel_is_answered_as_by_a_long_run_of_another_sampler(case):
    found = panel_answer()
    scent = found.candidates.index(case.id.rsplit("-", 1)[1])
    centred = contrasts(found)
    value = {
        "N mean": centred[:, scent].mean,
        "N sd": centred[:, scent].std,
        "N best": (found.level.argmax(axis=1) == scent).mean,
    }[case.group]
    case.agrees(float(value()))


def by_importance(score: list[int], oil: list[int], nose: list[int], draws: int) -> np.ndarray:
    """Expected scores by weighting draws of the prior: no Newton, no Laplace, no cloud.

    Returns mean and sd of the expected score of each candidate, and each one's chance to be best.
    """
    rng = np.random.default_rng(7)
    within = 0.8 * np.exp(0.5 * rng.standard_normal(draws)) / LOGISTIC_SD
    oils, noses = max(oil) + 1, max(nose) + 1
    level = (
        3.0
        + 2.0 * rng.standard_normal((draws, 1))
        + np.abs(rng.standard_normal((draws, 1))) * rng.standard_normal((draws, oils))
    )
    shift = np.abs(rng.standard_normal((draws, 1))) * rng.standard_normal((draws, noses))
    cuts = 1.5 + np.arange(4) + 0.3 * rng.standard_normal((draws, 4))
    edges = np.hstack([np.full((draws, 1), -1e6), cuts, np.full((draws, 1), 1e6)])
    log_weight = np.zeros(draws)
    for y, i, j in zip(score, oil, nose, strict=True):
        up = (edges[:, y] - level[:, i] - shift[:, j]) / within
        low = (edges[:, y - 1] - level[:, i] - shift[:, j]) / within
        with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
            chance = log_expit(up) + log_expit(-low) + np.log(-np.expm1(low - up))
        log_weight += np.where(up > low, chance, -np.inf)
    weight = np.exp(log_weight - log_weight.max())
    weight /= weight.sum()
    below = expit((cuts[:, :, None] - level[:, None, :]) / within[:, None, None])
    expected = 1.0 + (1.0 - below).sum(axis=1)
    mean = weight @ expected
    sd = np.sqrt(weight @ (expected - mean) ** 2)
    best = np.array([weight[expected.argmax(axis=1) == i].sum() for i in range(oils)])
    return np.array([mean, sd, best])


@pytest.mark.parametrize(
    ("score", "oil", "nose"),
    [
        ([4], [0], [0]),
        ([5, 2], [0, 1], [0, 0]),
        ([4, 5, 2, 3, 3, 3], [0, 0, 1, 1, 2, 2], [0, 1, 0, 1, 0, 1]),
    ],
    ids=["one score", "one nose, two candidates", "two noses, three candidates"],
)
def test_tiny_data_are_answered_as_by_bare_importance_sampling(score, oil, nose):
    """Computed: 300,000 draws of the prior. Laplace's own error (skewness) is what is left."""
    found = answer(
        score,
        scale=(1, 5),
        candidate=factor("oil", [str(i) for i in oil]),
        terms=[(factor("assessor", [str(j) for j in nose]), 1.0)],
    )
    expected = found.expected()
    mean, sd, best = by_importance(score, oil, nose, 300_000)
    assert expected.mean(axis=0) == pytest.approx(mean, abs=0.12)
    assert expected.std(axis=0) == pytest.approx(sd, rel=0.12)
    chance = np.bincount(expected.argmax(axis=1), minlength=max(oil) + 1) / len(expected)
    assert chance == pytest.approx(best, abs=0.04)


def test_one_score_says_very_little():
    found = answer([5], scale=(1, 5), candidate=factor("oil", ["a"]))
    low, high = np.quantile(found.expected(), (0.05, 0.95))
    assert high - low > 1.5
    assert 3.0 < found.expected().mean() < 5.0


def test_the_same_scores_give_the_same_answer_and_another_random_state_nearly():
    ask = {"scale": (1, 5), "candidate": factor("oil", list("aabb"))}
    one, again = answer([4, 5, 2, 3], **ask), answer([4, 5, 2, 3], **ask)
    other = answer([4, 5, 2, 3], **ask, random_state=1)
    assert np.array_equal(one.level, again.level)
    assert not np.array_equal(one.level, other.level)
    assert one.level.mean(axis=0) == pytest.approx(other.level.mean(axis=0), abs=0.05)


def test_a_candidate_without_a_score_is_drawn_from_the_others():
    oils = factor("oil", ["a", "a", "b", "b", "c"])
    known = factor("oil", list("aabb"))
    unseen = type(known)(name="oil", levels=oils.levels, of_row=known.of_row)
    found = answer([5, 4, 2, 2], scale=(1, 5), candidate=unseen).expected()
    means, sds = found.mean(axis=0), found.std(axis=0)
    assert means[1] < means[2] < means[0]
    assert sds[2] > sds[0]
    assert sds[2] > sds[1]


def test_a_step_that_nobody_used_and_scores_all_alike_have_an_answer():
    gap = answer([1, 5, 1, 5], scale=(1, 5), candidate=factor("oil", list("aabb")))
    alike = answer([3, 3, 3, 3], scale=(1, 5), candidate=factor("oil", list("aabb")))
    assert np.isfinite(gap.expected()).all()
    assert alike.expected().mean(axis=0) == pytest.approx([3.0, 3.0], abs=0.05)


def test_separation_has_an_answer():
    found = answer([1, 1, 1, 5, 5, 5], scale=(1, 5), candidate=factor("oil", list("aaabbb")))
    assert (found.level[:, 1] > found.level[:, 0]).mean() > 0.95


@pytest.mark.parametrize("link", ["logit", "probit"])
def test_expected_scores_lie_on_the_scale(link):
    found = answer(
        [0, 10, 7, 3], scale=(0, 10), candidate=factor("oil", list("abab")), link=link
    ).expected()
    assert found.shape == (4000, 2)
    assert found.min() >= 0.0
    assert found.max() <= 10.0


@settings(max_examples=15, deadline=None)
@given(
    score=st.lists(st.integers(1, 5), min_size=4, max_size=8),
    row=st.integers(0, 3),
)
def test_a_higher_score_never_lowers_its_candidate(score, row):
    oils = factor("oil", [str(i % 2) for i in range(len(score))])
    raised = list(score)
    raised[row] = min(5, raised[row] + 1)
    before = answer(score, scale=(1, 5), candidate=oils).level
    after = answer(raised, scale=(1, 5), candidate=oils).level
    gap_before = before[:, row % 2] - before[:, 1 - row % 2]
    gap_after = after[:, row % 2] - after[:, 1 - row % 2]
    assert gap_after.mean() >= gap_before.mean() - 0.03


def test_an_effect_is_found_by_its_name_and_is_zero_where_the_model_has_none():
    rooms = factor("room", list("xyxyxyxy"))
    found = answer(
        [5, 2, 5, 2, 4, 1, 4, 2],
        scale=(1, 5),
        candidate=factor("oil", list("aabbaabb")),
        terms=[(rooms, 1.0)],
    )
    assert found.effect("room", "x").mean() > found.effect("room", "y").mean()
    assert (found.effect("room", "z") == 0.0).all()
    assert (found.effect("garden", "x") == 0.0).all()
    assert set(found.spreads) == {"oil", "room", "within"}
    assert 10.0 < found.effective_points <= 192.0


@pytest.mark.parametrize(
    ("score", "words"), [([], "0 scores"), ([3, 6], r"\(3, 6\)"), ([0], r"\(0\)")]
)
def test_a_score_off_the_scale_is_refused(score, words):
    with pytest.raises(UnclearError, match=words):
        answer(score, scale=(1, 5), candidate=factor("oil", ["a"] * len(score)))
