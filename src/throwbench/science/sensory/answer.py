"""The answer: what the scores say of each candidate, with doubt, from one score to a full panel.

The model works in steps of the maker's own scale. An assessor's impression of a candle is

    level + candidate + assessor + room + ... + noise

and the score is the step it falls in: step k reaches from k - 1/2 to k + 1/2, each border moved a
little by what the words of the scale mean to these assessors. Every part has a weak proper prior
(`priors.py`), so one nose and one score have an answer too, a wide one.

Given the spreads (noise, candidates, assessors, ...) the rest is integrated by Laplace's
approximation (`layout.py`); the spreads are integrated over a cloud of weighted points
(`spreads.py`); `posterior.py` draws. Its known error is some skewness with very few scores.
"""

from collections.abc import Sequence

import numpy as np

from throwbench.science.errors import UnclearError
from throwbench.science.sensory.factor import Factor
from throwbench.science.sensory.layout import Layout, Term
from throwbench.science.sensory.likelihood import Link
from throwbench.science.sensory.posterior import Posterior, draw
from throwbench.science.sensory.priors import Priors
from throwbench.science.sensory.spreads import explore

WEAK = Priors()


def answer(
    score: Sequence[int],
    *,
    scale: tuple[int, int],
    candidate: Factor,
    terms: Sequence[Term] = (),
    priors: Priors = WEAK,
    link: Link = "logit",
    draws: int = 4000,
    random_state: int = 0,
) -> Posterior:
    """Posterior of the candidates' levels from ordinal scores.

    Parameters
    ----------
    score : (n,) whole steps within `scale`, n >= 1.
    candidate : who was scored in each row; a level without a row is drawn from the others.
    terms : further crossed terms with the half-normal scale of their sd [step].
    draws : an even number; they come in mirrored pairs.

    Raises
    ------
    UnclearError
        No score, or a score outside the scale.

    Notes
    -----
    Candidate effects are random, sd half-normal(1 step): candidates that do not differ are drawn
    together, so that chance does not make a winner. One candidate, one assessor, one score, all
    scores equal, a step that nobody used: each has an answer, held by the priors.

    References
    ----------
    Rue, Martino, Chopin (2009), J. R. Stat. Soc. B 71:319-392 (nested Laplace approximations).

    Checked against: importance sampling from the prior on tiny data, and a long run of another
    sampler on a panel of 1152 scores (tests); simulated trials (`./run bench honesty`).
    """
    y = np.asarray(score, dtype=np.intp)
    low, high = scale
    if not y.size or y.min() < low or y.max() > high:
        raise UnclearError(
            f"{y.size} scores ({', '.join(map(str, sorted(set(score))))}) were given for a scale "
            f"of {low} to {high}.",
            "At least one is needed and all lie on the scale.",
            "Check the file, or name the scale.",
        )
    layout = Layout.of(
        y, scale=scale, effects=[(candidate, priors.candidate), *terms], priors=priors, link=link
    )
    cloud = explore(layout.mode_at, size=1 + len(layout.effects))
    return draw(layout, cloud, draws=draws, random_state=random_state)
