"""How fast the doors answer, and the fits beside two other programs in the same run.

    ./run bench speed [--runs 7] [--json] [--keep]

Peers: statsmodels OrderedModel (fixed effects) and R ordinal::clmm (Debian's r-cran-ordinal).
Targets: `throwbench --help` under 0.2 s, the verdict on the example files under 1.5 s as a whole
process, neither fit slower than its peer.
"""

import argparse
import csv
import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

os.environ["OMP_NUM_THREADS"] = "1"

import numpy as np
from kept import keep
from statsmodels.miscmodels.ordinal_model import OrderedModel

from throwbench.formats import read_scores
from throwbench.science.sensory.factor import factor
from throwbench.science.sensory.published import fit

HERE = Path(__file__).parent
DATA = HERE.parent / "tests" / "reference"
EXAMPLE = HERE.parent / "src" / "throwbench" / "demo" / "example"
RESULTS = HERE / "results" / "speed.json"


@dataclass(frozen=True)
class Timing:
    """Median of the runs, in seconds. `ratio` is ours to the peer's, or to the target's."""

    task: str
    seconds: float
    beside: str
    their_seconds: float

    @property
    def ratio(self) -> float:
        return self.seconds / self.their_seconds

    def line(self) -> str:
        return (
            f"{self.task}: {self.seconds:.3f} s; {self.beside}: {self.their_seconds:.3f} s; "
            f"ratio {self.ratio:.2f}"
        )


def timed(call: Callable[[], Any], runs: int) -> float:
    """Median wall time of a call, after one to warm up."""
    call()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return median(times)


def process(*words: str) -> Callable[[], Any]:
    """The door as a whole process."""
    door = [str(Path(sys.executable).with_name("throwbench")), *words]
    return lambda: subprocess.run(door, check=True, capture_output=True)


def columns(file: str) -> dict[str, list[str]]:
    with (DATA / file).open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    return {name: [row[name] for row in rows] for name in rows[0]}


def fixed_effects(runs: int) -> Timing:
    """The wine data without judges, beside statsmodels."""

    wine = columns("wine_randall1989.csv")
    score = [int(cell) for cell in wine["rating"]]
    factors = [factor(name, wine[name]) for name in ("temp", "contact")]
    dummies = np.column_stack([item.of_row for item in factors])

    def theirs() -> object:
        return OrderedModel(np.array(score), dummies, distr="logit").fit(method="bfgs", disp=False)

    ours = timed(lambda: fit(score, fixed=factors), runs)
    return Timing("fixed effects, wine", ours, "statsmodels OrderedModel", timed(theirs, runs))


def mixed(
    file: str, fixed: tuple[str, ...], random: tuple[str, ...], formula: str, runs: int
) -> Timing:
    """A mixed model by Laplace, beside clmm."""

    table = columns(file)
    score = [int(cell) for cell in table["rating"]]
    fixed_terms = [factor(name, table[name]) for name in fixed]
    random_terms = [factor(name, table[name]) for name in random]
    ours = timed(lambda: fit(score, fixed=fixed_terms, random=random_terms), runs)
    theirs = subprocess.run(
        ["Rscript", str(HERE / "peers" / "clmm.R"), str(DATA / file), formula, str(runs)],
        check=True,
        capture_output=True,
        text=True,
    )
    task = f"mixed effects, {file.partition('_')[0]}"
    return Timing(task, ours, "R ordinal::clmm", float(theirs.stdout.split()[0]))


def reading(runs: int) -> Timing:
    """60,000 scores: the example's own, written out again and again in further sittings."""
    head, *rows = (EXAMPLE / "scores.csv").read_text(encoding="utf-8").splitlines()
    times = 60_000 // len(rows) + 1
    with TemporaryDirectory() as folder:
        file = Path(folder) / "scores.csv"
        file.write_text("\n".join([head, *(rows * times)[:60_000]]), encoding="utf-8")
        return Timing("60,000 scores read", timed(lambda: read_scores(file), runs), "target", 1.0)


def timings(runs: int) -> list[Timing]:
    example = [str(EXAMPLE / name) for name in ("scores.csv", "burns.csv")]
    made_of = ["--candles", str(EXAMPLE / "candles.csv"), "--choose", "4", "--band", "3.2-4.4"]
    panel = ("scent", "assessor", "room", "session")
    crossed = "rating ~ 1 + " + " + ".join(f"(1|{name})" for name in panel)
    judges = "rating ~ temp + contact + (1|judge)"
    return [
        Timing("throwbench --help", timed(process("--help"), runs), "target", 0.2),
        Timing(
            "throwbench verdict, example files",
            timed(process("verdict", *example, *made_of), runs),
            "target",
            1.5,
        ),
        reading(3),
        fixed_effects(runs),
        mixed("wine_randall1989.csv", ("temp", "contact"), ("judge",), judges, runs),
        mixed("candle_small.csv", (), panel, crossed, 1),
    ]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument("--json", action="store_true", help="one JSON object instead of a table")
    parser.add_argument("--keep", action="store_true", help="keep the result as data")
    wanted = parser.parse_args()
    if shutil.which("Rscript") is None:
        sys.exit(
            "Rscript is not here; the mixed fits are timed beside R's ordinal package: as root, "
            "call `apt-get install r-cran-ordinal`, then call again."
        )
    found = timings(wanted.runs)
    result = {"timings": [{**asdict(item), "ratio": item.ratio} for item in found]}
    print(json.dumps(result) if wanted.json else "\n".join(item.line() for item in found))
    if wanted.keep:
        keep(RESULTS, result)


if __name__ == "__main__":
    main()
