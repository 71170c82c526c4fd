"""Scores that are alike are laid out once, with their number as weight."""

import numpy as np
import pytest

from throwbench.science.sensory.answer import answer
from throwbench.science.sensory.design import Design
from throwbench.science.sensory.factor import factor
from throwbench.science.sensory.laplace import find_mode
from throwbench.science.sensory.layout import Layout
from throwbench.science.sensory.priors import Priors


def laid_out(score, oils, noses):
    effects = [(factor("oil", list(oils)), 1.0), (factor("nose", list(noses)), 1.0)]
    return Layout.of(np.array(score), scale=(1, 5), effects=effects, priors=Priors(), link="logit")


def test_scores_alike_in_step_and_terms_are_one_row_in_the_order_of_the_file():
    found = laid_out([5, 2, 5, 5, 2, 4], "abaabb", "xxxyxx")
    assert found.design.weight.tolist() == [2.0, 2.0, 1.0, 1.0]
    assert found.upper.tolist() == [np.inf, -0.5, np.inf, 1.5]
    assert [effect.of_row.tolist() for effect, _ in found.effects] == [[0, 1, 0, 1], [0, 0, 1, 0]]


def test_many_scores_take_no_more_rows_than_there_are_different_ones():
    rng = np.random.default_rng(1)
    steps, oils, noses = rng.integers(1, 6, 20_000), rng.integers(0, 3, 20_000), [0, 1] * 10_000
    found = laid_out(steps, map(str, oils), map(str, noses))
    assert len(found.upper) == 5 * 3 * 2
    assert found.design.weight.sum() == 20_000


@pytest.mark.parametrize("link", ["logit", "probit"])
@pytest.mark.parametrize("apart", [False, True], ids=["one matrix", "two matrices"])
def test_a_weight_is_that_many_rows(link, apart):
    """`definition`: mode and log integral of weighted rows are those of the rows written out."""
    upper = np.array([[1.0, 0.0], [1.0, 0.5], [0.0, 1.0]])
    lower = upper * [1.0, 0.5] if apart else upper
    a0, b0 = np.array([[0.5, 1.5, 2.0]]), np.array([[-0.5, 0.5, -1.0]])
    times = [3, 1, 2]
    scale = np.array([[0.8, 1.2]])
    once = find_mode(
        Design.of(upper=upper, lower=lower, link=link, tail=1, weight=np.array(times, dtype=float)),
        a0=a0,
        b0=b0,
        scale=scale,
    )
    often = np.repeat(np.arange(3), times)
    written = find_mode(
        Design.of(upper=upper[often], lower=lower[often], link=link, tail=1),
        a0=a0[:, often],
        b0=b0[:, often],
        scale=scale,
    )
    assert once.z == pytest.approx(written.z, abs=1e-9)
    assert once.log_marginal == pytest.approx(written.log_marginal, abs=1e-9)


def test_a_hundred_thousand_scores_are_answered():
    """As many rows as a file can be made of by a slip of the pen: no more work than 50 cells."""
    rng = np.random.default_rng(2)
    oils = rng.integers(0, 2, 100_000)
    found = answer(
        np.clip(rng.integers(1, 5, 100_000) + oils, 1, 5).tolist(),
        scale=(1, 5),
        candidate=factor("oil", ["ab"[i] for i in oils]),
        terms=[(factor("nose", [str(i % 5) for i in range(100_000)]), 1.0)],
    )
    gap = found.expected()[:, found.candidates.index("b")]
    gap = gap - found.expected()[:, found.candidates.index("a")]
    assert 0.5 < gap.mean() < 1.0
    assert gap.std() < 0.05
