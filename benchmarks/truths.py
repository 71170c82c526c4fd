"""How often the demo's planted truths are found, over many seeds and in shuffled copies.

Each seed makes one whole trial of the demo, judged as `./run demo` judges it: four of nine, at most
one rhubarb, hot throw right from 3.2 to 4.4. Beside it, shuffled copies of the same trial: the
sniffs of each assessor under each other's oil; the sniffs of each candle and evening under each
other's assessor; the burns in each other's place. What is found there is found by chance.

    ./run bench truths [--seeds 200] [--processes 2] [--json] [--keep]

The truth is the same in every seed, so the stated chances are those of one world met many times; a
verdict that is right about its chances over all worlds may be bolder or shyer in this one.
"""

import argparse
import json
import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from functools import cache
from itertools import permutations
from multiprocessing import get_context
from pathlib import Path
from statistics import fmean

os.environ["OMP_NUM_THREADS"] = "1"

import numpy as np
from kept import keep
from scipy.stats import binom, hypergeom

from throwbench.demo import generate
from throwbench.demo.finding import (
    EARLY_WORDS,
    LOUD_WORDS,
    RHUBARBS,
    of_burns,
    of_scent,
    said_of,
    upper_end,
)
from throwbench.demo.plan import DEMO_DAY
from throwbench.demo.shuffling import burns_shuffled, noses_shuffled, oils_shuffled
from throwbench.demo.trial import Example
from throwbench.demo.truths import NOSES, OILS
from throwbench.records import Burn
from throwbench.verdict.judge import verdict
from throwbench.verdict.pick import best_sets
from throwbench.verdict.result import Band, Verdict
from throwbench.verdict.settings import Settings

RESULTS = Path(__file__).parent / "results" / "truths.json"
BAND = Band(3.2, 4.4)
CHOOSE = 4
SETTINGS = Settings(choose=CHOOSE, bands=(BAND,))
PERNILLE = "Pernille is noted to use the upper end"
OTHERS_NOTED = "an assessor other than Pernille is noted to use the upper end"
DOUBT = 0.05 / 14
"""One-sided, shared among the fourteen truths that shuffled copies can speak to."""
SHUFFLE = 10_000
"""Added to the seed of a trial, it is the seed of its shuffled copies."""


@dataclass(frozen=True)
class Found:
    """One seed: what was found in the trial and in its shuffled copies, and what was stated."""

    seed: int
    truths: Mapping[str, bool]
    shuffled: Mapping[str, bool]
    named_by_chance: Mapping[str, float]
    belongs: tuple[tuple[float, bool], ...]
    stated_loss: float
    true_loss: float
    pick: tuple[str, ...]


@dataclass(frozen=True)
class Rate:
    """How often a truth was found, and how often it was in shuffled copies."""

    truth: str
    found: float
    shuffled: float
    chance: float
    chance_is: str
    no_more_than_chance: bool


@dataclass(frozen=True)
class Tenth:
    """Chances to belong stated within one tenth, against how often it was so."""

    stated_from: float
    stated_to: float
    count: int
    stated: float
    belonged: float


def judged(example: Example, *, draws: int) -> Verdict:
    return verdict(
        example.scores,
        example.burns,
        combinations=example.combinations,
        settings=replace(SETTINGS, draws=draws),
        day=DEMO_DAY,
    )


def one(seed: int, draws: int) -> Found:
    example = generate(seed=seed)
    rng = np.random.default_rng(SHUFFLE + seed)
    answer = judged(example, draws=draws)
    oils = judged(replace(example, scores=oils_shuffled(example.scores, rng)), draws=draws)
    noses = judged(replace(example, scores=noses_shuffled(example.scores, rng)), draws=draws)
    burns = burns_shuffled(example.burns, rng)
    names, by_chance = upper_end(answer), upper_end(noses)
    others = len(NOSES) - 1
    best = true_pick()
    return Found(
        seed=seed,
        truths={
            **of_scent(answer),
            PERNILLE: "Pernille" in names,
            OTHERS_NOTED: bool(names - {"Pernille"}),
            **of_burns(example.burns, example.combinations),
        },
        shuffled={
            **{truth: hit for truth, hit in of_scent(oils).items() if truth in by_orders()},
            **spoken(oils),
            PERNILLE: "Pernille" in by_chance,
            **of_burns(burns, example.combinations),
        },
        named_by_chance={
            **named(oils),
            PERNILLE: len(by_chance - {"Pernille"}) / others,
            **burns_by_chance(example.burns),
        },
        belongs=tuple(
            (item.chance_to_belong, item.candidate in best)
            for item in answer.candidates
            if item.chance_to_belong is not None
        ),
        stated_loss=answer.loss_steps or 0.0,
        true_loss=sum(true_worth(n) for n in best) - sum(true_worth(n) for n in answer.pick),
        pick=answer.pick,
    )


SPOKEN = {
    "Rebarbara K is said to be weak before its cure": ("Rebarbara K", EARLY_WORDS),
    "Vårrabarbra 114 is said to be loud in the cold, weak when lit": (
        "Vårrabarbra 114",
        LOUD_WORDS,
    ),
}
SPLIT = "Ferry Rope is said to split"


def spoken(copy: Verdict) -> dict[str, bool]:
    """The truths that are words about one oil, in a shuffled copy."""
    said = {item.candidate: item for item in copy.candidates}
    found = {truth: said_of(said[oil], words) for truth, (oil, words) in SPOKEN.items()}
    return found | {SPLIT: said["Ferry Rope"].split is not None}


def named(copy: Verdict) -> dict[str, float]:
    """In a shuffled copy, the share of the other oils about which the same words are said.

    The rhubarbs are compared with each other: they alone were sniffed early, and so more often.
    """
    ranked = [item for item in copy.candidates if item.worth is not None]
    shares = {
        truth: fmean(
            said_of(item, words)
            for item in ranked
            if item.candidate != oil and item.candidate in RHUBARBS
        )
        for truth, (oil, words) in SPOKEN.items()
    }
    return shares | {
        SPLIT: fmean(item.split is not None for item in ranked if item.candidate != "Ferry Rope")
    }


def true_worth(name: str) -> float:
    """Worth by the verdict's own definition, from the planted levels [step]."""
    oil = OILS[name]
    miss = max(BAND.low - oil.hot, 0.0) + max(oil.hot - BAND.high, 0.0)
    return oil.liking - SETTINGS.outside * miss


def ranked_oils() -> list[str]:
    """Oils that can be picked: Goat Willow tunnels and the reference candle is none."""
    return [n for n, oil in OILS.items() if oil.role == "candidate" and n != "Goat Willow"]


def true_pick() -> set[str]:
    names = ranked_oils()
    worth = np.array([[true_worth(name) for name in names]])
    inside = best_sets(worth, groups=[OILS[n].group for n in names], most=CHOOSE)[0]
    return {name for name, chosen in zip(names, inside, strict=True) if chosen}


@cache
def by_orders() -> dict[str, float]:
    """Chance of each truth about the pick if every order of the ranked oils is equally likely."""
    names = ranked_oils()
    worth = np.array(list(permutations(range(len(names)))), dtype=float)
    sets = best_sets(worth, groups=[OILS[n].group for n in names], most=CHOOSE)
    at = {name: place for place, name in enumerate(names)}
    slate, frame = at["Slate After Rain"], at["Rhubarb Cold Frame"]
    rebarbara, loud = at["Rebarbara K"], at["Vårrabarbra 114"]
    right = [name in true_pick() for name in names]
    return {
        "Slate After Rain is in the pick": float(sets[:, slate].mean()),
        "Slate After Rain is the likeliest best": 1 / len(names),
        "the pick is the four that truly are the best": float((sets == right).all(axis=1).mean()),
        "Rebarbara K is the one rhubarb of the pick": float(sets[:, rebarbara].mean()),
        "Rebarbara K stands above Rhubarb Cold Frame": float(
            (worth[:, rebarbara] > worth[:, frame]).mean()
        ),
        "Vårrabarbra 114 is not in the pick": float(1 - sets[:, loud].mean()),
    }


def burns_by_chance(burns: Sequence[Burn]) -> dict[str, float]:
    """Chance of each truth of the burn log if every burn may stand in every place.

    Tunnelling needs at least one narrow burn among those that decide, so the share of narrow
    burns (those on wick 3) is an upper bound.
    """
    every = len(burns)
    of = {code: sum(burn.candle == code for burn in burns) for code in ("W3E", "S4M", "G4W")}
    heavy = sum(any(check.soot == "heavy" for check in burn.checks) for burn in burns)
    on_large = of["W3E"] - 1
    soot = float(hypergeom.sf(on_large // 2, every, heavy, on_large))
    return {
        "Kelp and Iron on wick 6 is broken by soot, and nothing else is": soot,
        "the sticker of Ferry Rope is barred, and no other fixing is": of["S4M"] / every,
        "the burn of 4 h 50 is marked, and no other is": 1 / every,
        "Goat Willow tunnels, and no other oil does": of["G4W"] / every,
    }


def rates(found: Sequence[Found]) -> list[Rate]:
    """Every truth; those that no shuffled copy can speak to have no rate there."""
    return [_rate(truth, found) for truth in found[0].truths if truth in found[0].shuffled]


def _rate(truth: str, found: Sequence[Found]) -> Rate:
    orders = truth in by_orders()
    chance = by_orders()[truth] if orders else fmean(f.named_by_chance[truth] for f in found)
    shuffled = fmean(item.shuffled[truth] for item in found)
    if orders:
        words = "every order of the eight ranked oils equally likely"
    elif truth in burns_by_chance(generate().burns):
        words = "every burn in every place equally likely"
    else:
        words = "how often the same is said of the others in the shuffled copies"
    return Rate(
        truth=truth,
        found=fmean(item.truths[truth] for item in found),
        shuffled=shuffled,
        chance=chance,
        chance_is=words,
        no_more_than_chance=by_luck(shuffled, chance=chance, n=len(found)) >= DOUBT,
    )


def by_luck(rate: float, *, chance: float, n: int) -> float:
    """Chance of a rate so high or higher in n copies; of a chance met never, once in n is taken."""
    return float(binom.sf(round(rate * n) - 1, n, max(chance, 1 / n)))


def tenths(found: Sequence[Found]) -> list[Tenth]:
    pairs = [pair for item in found for pair in item.belongs]
    table = []
    for tenth in range(10):
        here = [p for p in pairs if min(int(p[0] * 10), 9) == tenth]
        if here:
            table.append(
                Tenth(
                    stated_from=tenth / 10,
                    stated_to=(tenth + 1) / 10,
                    count=len(here),
                    stated=fmean(chance for chance, _ in here),
                    belonged=fmean(truly for _, truly in here),
                )
            )
    return table


def run(seeds: Iterable[int], *, draws: int, processes: int) -> list[Found]:
    tasks = [(seed, draws) for seed in seeds]
    if processes == 1:
        return [one(*task) for task in tasks]
    with get_context("spawn").Pool(processes) as pool:
        return pool.starmap(one, tasks, chunksize=1)


def result(found: Sequence[Found]) -> dict[str, object]:
    alone = {
        truth: fmean(item.truths[truth] for item in found)
        for truth in found[0].truths
        if truth not in found[0].shuffled
    }
    return {
        "seeds": len(found),
        "rates": [asdict(rate) for rate in rates(found)],
        "without_a_shuffled_copy": alone,
        "belongs": [asdict(tenth) for tenth in tenths(found)],
        "loss_steps": {
            "stated": fmean(item.stated_loss for item in found),
            "true": fmean(item.true_loss for item in found),
        },
        "picks": {str(item.seed): list(item.pick) for item in found},
    }


def table(found: Sequence[Found]) -> str:
    lines = [f"{len(found)} seeds", f"{'found':>6} {'shuffled':>9} {'chance':>7}  truth"]
    for rate in rates(found):
        mark = "" if rate.no_more_than_chance else "  (more often than chance)"
        lines.append(
            f"{rate.found:6.2f} {rate.shuffled:9.3f} {rate.chance:7.3f}  {rate.truth}{mark}"
        )
    for truth in found[0].truths.keys() - found[0].shuffled.keys():
        share = fmean(item.truths[truth] for item in found)
        lines.append(f"{share:6.2f} {'-':>9} {'-':>7}  {truth}")
    lines.append("stated chance to belong, how often it was so, number")
    lines += [f"{row.stated:6.2f} {row.belonged:6.2f} {row.count:6d}" for row in tenths(found)]
    stated, true = (fmean(getattr(f, name) for f in found) for name in ("stated_loss", "true_loss"))
    lines.append(f"loss of the pick: stated {stated:.3f} step, true {true:.3f} step")
    return "\n".join(lines)


def main(argv: Sequence[str] | None = None) -> None:
    parser = argparse.ArgumentParser(description="How often the planted truths are found.")
    parser.add_argument("--seeds", type=int, default=200)
    parser.add_argument("--draws", type=int, default=SETTINGS.draws)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--keep", action="store_true", help="keep the result as data")
    asked = parser.parse_args(argv)
    found = run(range(asked.seeds), draws=asked.draws, processes=asked.processes)
    whole = result(found)
    if asked.keep:
        keep(RESULTS, whole)
    print(json.dumps(whole, ensure_ascii=False, indent=1) if asked.json else table(found))


if __name__ == "__main__":
    main()
