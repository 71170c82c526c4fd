"""Whether stated chances and losses come true in worlds drawn from the answer's own priors.

Each simulated trial draws everything from the priors, lets every nose score every candidate once,
and asks for four of nine. If the answer is right about itself, the stated loss of the pick equals
the true one on average, and nine in ten truths lie within the interval that says so. What is left
is the error of Laplace's approximation and of the cloud over the spreads.

    ./run bench calibration [--trials 2000] [--json] [--keep]
"""

import argparse
import json
import os
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path

os.environ["OMP_NUM_THREADS"] = "1"

import numpy as np
from kept import keep
from scipy.special import expit

from throwbench.records import Score
from throwbench.science.sensory.likelihood import LOGISTIC_SD
from throwbench.science.sensory.priors import Priors
from throwbench.verdict.pick import best_sets, choose
from throwbench.verdict.scent import ask

RESULTS = Path(__file__).parent / "results" / "calibration.json"
CANDIDATES, NOSES, CHOOSE = 9, 4, 4
LOW, HIGH = 1, 5
SHARES = (0.5, 0.8, 0.9, 0.95)


@dataclass(frozen=True)
class Trial:
    """What was stated and what was true in one trial."""

    stated_loss: float
    true_loss: float
    inside: tuple[int, ...]
    belongs: tuple[tuple[float, bool], ...]


def trial(number: int) -> Trial:
    """Draw a world, score it, ask, compare."""
    rng = np.random.default_rng([20261126, number])
    priors = Priors()
    within = priors.within * np.exp(priors.within_log_sd * rng.standard_normal()) / LOGISTIC_SD
    spread = np.abs(rng.standard_normal(2)) * (priors.candidate, priors.assessor)
    level = 0.5 * (LOW + HIGH) + 0.5 * (HIGH - LOW) * rng.standard_normal()
    level = level + spread[0] * rng.standard_normal(CANDIDATES)
    offset = spread[1] * rng.standard_normal(NOSES)
    borders = np.arange(LOW, HIGH) + 0.5 + priors.borders * rng.standard_normal(HIGH - LOW)
    heard = level[:, None] + offset + within * rng.logistic(size=(CANDIDATES, NOSES))
    score = LOW + (heard[:, :, None] > np.sort(borders)).sum(axis=2)
    truth = LOW + (1.0 - expit((np.sort(borders)[:, None] - level) / within)).sum(axis=0)
    return compared(score, truth)


def compared(score: np.ndarray, truth: np.ndarray) -> Trial:
    """The answer to (candidates, noses) scores beside the true expected scores."""
    rows = [
        Score(
            candle=str(c),
            candidate=str(c),
            assessor=str(n),
            room="room",
            sitting="1",
            attribute="liking",
            score=int(score[c, n]),
        )
        for c in range(CANDIDATES)
        for n in range(NOSES)
    ]
    names = [str(c) for c in range(CANDIDATES)]
    scent = ask(rows, attribute="liking", candidates=names, scale=(LOW, HIGH))
    assert scent is not None
    expected = scent.expected()
    pick = choose(expected, groups=[None] * CANDIDATES, most=CHOOSE)
    best = best_sets(truth[None, :], groups=[None] * CANDIDATES, most=CHOOSE)[0]
    inside = []
    for share in SHARES:
        low, high = np.quantile(expected, (0.5 - share / 2, 0.5 + share / 2), axis=0)
        inside.append(int(((low <= truth) & (truth <= high)).sum()))
    return Trial(
        stated_loss=pick.loss,
        true_loss=float(truth[best].sum() - truth[pick.chosen].sum()),
        inside=tuple(inside),
        belongs=tuple(zip(pick.belongs.tolist(), best.tolist(), strict=True)),
    )


def summary(trials: list[Trial]) -> dict[str, object]:
    """Means with their standard errors, coverage, and stated chances by tenths."""
    stated = np.array([t.stated_loss for t in trials])
    true = np.array([t.true_loss for t in trials])
    chances = np.array([pair for t in trials for pair in t.belongs], dtype=float)
    tenth = np.minimum((chances[:, 0] * 10).astype(int), 9)
    n = len(trials)
    return {
        "trials": n,
        "stated_loss": stated.mean(),
        "true_loss": true.mean(),
        "ratio": stated.mean() / true.mean(),
        "ratio_se": float(np.std(stated - true * stated.mean() / true.mean()) / n**0.5)
        / true.mean(),
        "coverage": {
            str(share): sum(t.inside[i] for t in trials) / (n * CANDIDATES)
            for i, share in enumerate(SHARES)
        },
        "belongs": [
            {
                "stated": chances[tenth == k, 0].mean(),
                "observed": chances[tenth == k, 1].mean(),
                "number": int((tenth == k).sum()),
            }
            for k in range(10)
            if (tenth == k).any()
        ],
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--trials", type=int, default=2000)
    parser.add_argument("--json", action="store_true", help="one JSON object instead of lines")
    parser.add_argument("--keep", action="store_true", help="keep the result as data")
    wanted = parser.parse_args()
    with get_context("spawn").Pool(os.cpu_count()) as pool:
        found = summary(pool.map(trial, range(wanted.trials), chunksize=20))
    print(json.dumps(found) if wanted.json else json.dumps(found, indent=1))
    if wanted.keep:
        keep(RESULTS, found)


if __name__ == "__main__":
    main()
