"""How often a clear winner is named when there is none, and when there is one.

Each simulated trial: every nose scores every candidate, `sniffs` times, on five steps. A score is
the level of the candidate (3.0, the better one 4.0) plus the nose's offset (sd 0.5) plus noise from
sniff to sniff (sd 0.8), rounded and kept within 1 to 5. The answer is that of `throwbench scent`.

    ./run bench honesty [--trials 2000] [--json] [--keep]

The targets: of 2,000 trials without a difference at most 102 name a clear winner (then the true
rate is below 6 %, one-sided 95 % bound), and of 2,000 with a step between, 6 noses and 2 sniffs, at
least 1,533 name the right one (true rate above 75 %).
"""

import argparse
import json
import os
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from multiprocessing import get_context
from pathlib import Path

os.environ["OMP_NUM_THREADS"] = "1"

import numpy as np
from kept import keep
from scipy.stats import beta

from throwbench.records import Score
from throwbench.verdict.scent_answer import scent_answer
from throwbench.verdict.settings import Settings

RESULTS = Path(__file__).parent / "results" / "honesty.json"
LEVEL, WITHIN_SD, NOSE_SD = 3.0, 0.8, 0.5


@dataclass(frozen=True)
class World:
    """One kind of trial; `gap` is how far the first candidate stands above the others."""

    candidates: int
    noses: int
    sniffs: int
    gap: float
    taste: float = 0.0
    """sd of what each nose thinks of each candidate of its own [step]; a wrong world when large."""


@dataclass(frozen=True)
class Rate:
    """How often a clear winner was named, and was the right one, with one-sided 95 % bounds."""

    world: World
    trials: int
    named: int
    right: int
    named_at_most: float
    right_at_least: float


WORLDS = (
    World(3, 6, 2, 0.0),
    World(3, 6, 2, 1.0),
    World(3, 4, 1, 0.0),
    World(3, 4, 1, 1.0),
    World(9, 6, 2, 0.0),
    World(9, 6, 2, 1.0),
    World(9, 4, 1, 0.0),
    World(9, 4, 1, 1.0),
    World(3, 6, 2, 0.0, taste=0.5),
    World(3, 6, 2, 1.0, taste=0.5),
)


def trial(world: World, number: int) -> list[Score]:
    """The scores of one simulated trial; `number` fixes its chance."""
    rng = np.random.default_rng([20261125, number])
    offsets = rng.normal(0.0, NOSE_SD, world.noses)
    tastes = world.taste * rng.standard_normal((world.noses, world.candidates))
    rows = []
    for sniff in range(world.sniffs):
        for nose, offset in enumerate(offsets):
            for candidate in range(world.candidates):
                level = LEVEL + (world.gap if candidate == 0 else 0.0)
                own = offset + tastes[nose, candidate]
                heard = np.rint(level + own + rng.normal(0.0, WITHIN_SD))
                rows.append(_score(candidate, nose, sniff, int(np.clip(heard, 1, 5))))
    return rows


def _score(candidate: int, nose: int, sniff: int, step: int) -> Score:
    return Score(
        candle=f"C{candidate}",
        candidate=str(candidate),
        assessor=f"nose {nose}",
        room="room",
        sitting=f"sitting {sniff}",
        attribute="liking",
        score=step,
    )


def winner(job: tuple[World, int]) -> str | None:
    """Who is named clear winner in one trial."""
    answer = scent_answer(trial(*job), attribute="liking", scale=(1, 5), settings=Settings())
    return answer.clear_winner


def rate(world: World, winners: Sequence[str | None]) -> Rate:
    """Count, with Clopper-Pearson bounds."""
    n, named, right = len(winners), sum(w is not None for w in winners), winners.count("0")
    return Rate(
        world=world,
        trials=n,
        named=named,
        right=right,
        named_at_most=float(beta.ppf(0.95, named + 1, n - named)) if named < n else 1.0,
        right_at_least=float(beta.ppf(0.05, right, n - right + 1)) if right else 0.0,
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--trials", type=int, default=2000)
    parser.add_argument("--worlds", type=int, nargs="*", default=range(len(WORLDS)))
    parser.add_argument("--json", action="store_true", help="one JSON object instead of a table")
    parser.add_argument("--keep", action="store_true", help="keep the result as data")
    wanted = parser.parse_args()
    rates = []
    with get_context("spawn").Pool(os.cpu_count()) as pool:
        for world in (WORLDS[i] for i in wanted.worlds):
            jobs = [(world, number) for number in range(wanted.trials)]
            rates.append(rate(world, pool.map(winner, jobs, chunksize=20)))
            if not wanted.json:
                print(line(rates[-1]), flush=True)
    result = {"rates": [asdict(item) for item in rates]}
    if wanted.json:
        print(json.dumps(result))
    if wanted.keep:
        keep(RESULTS, result)


def line(item: Rate) -> str:
    world = item.world
    own = f", own taste {world.taste:g}" if world.taste else ""
    return (
        f"{world.candidates} candidates, {world.noses} noses x {world.sniffs}, "
        f"gap {world.gap:g} step{own}: named {item.named} of {item.trials} "
        f"(rate at most {item.named_at_most:.3f}), rightly {item.right} "
        f"(rate at least {item.right_at_least:.3f})"
    )


if __name__ == "__main__":
    main()
