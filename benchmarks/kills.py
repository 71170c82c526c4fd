"""Kill the server in the middle of its work, again and again: is anything lost, doubled or left?

    ./run kills [500] [--json] [--keep]

A fresh workshop, the real server, devices that send entries without pause. The server is killed
(SIGKILL: it cannot say goodbye) at random moments, its main process alone and its whole group in
turn; some kills meet it while it starts, some while a verdict is worked out beside it. After each,
before anything is started again: which processes are left, is the database whole, is each entry
there that the workshop said it kept, and is each there once. Exit code 1 where one is not so.
"""

import argparse
import json
import os
import random
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
import uuid
from collections import Counter
from contextlib import closing, suppress
from dataclasses import asdict, dataclass, field
from itertools import count
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory
from threading import Event, Thread

from devices import UNANSWERED, Browser, Device, Seen
from kept import keep
from left_behind import left_behind

RESULTS = Path(__file__).parent / "results" / "kills.json"
FILL = (
    "import json, sys; from pathlib import Path; from lit_workshop import make;"
    "print(json.dumps(make(Path(sys.argv[1]))))"
)
THROWBENCH = (sys.executable, "-c", "from throwbench.cli import main; main()")
DEVICES = 4
RUNS_S = 0.35
"""A kill comes so long after the first answer, at most."""
START_S = 0.6
EACH_AT_THE_START, EACH_IN_A_VERDICT = 7, 5
"""Every so-manieth kill meets the server as it starts, or while a verdict is worked out."""
GONE_S = 5.0
"""What outlives the server for longer is left behind."""
ALONE, GROUP = "main process alone", "whole group"


@dataclass(slots=True)
class Result:
    """What came of the kills. The four in the middle have to be 0."""

    kills: int = 0
    by_way: Counter[str] = field(default_factory=Counter)
    at_the_start: int = 0
    with_a_child: int = 0
    entries_made: int = 0
    acknowledged: int = 0
    answers_lost: int = 0
    lost: int = 0
    doubled: int = 0
    left_behind: int = 0
    not_whole: int = 0
    other_answers: int = 0
    restart_s: list[float] = field(default_factory=list)
    seconds: float = 0.0
    troubles: list[str] = field(default_factory=list)

    @property
    def is_good(self) -> bool:
        wrong = (self.lost, self.doubled, self.left_behind, self.not_whole, self.other_answers)
        return not any(wrong) and self.acknowledged > 0


@dataclass(frozen=True, slots=True)
class Examined:
    """One look at a database: what it lacks, what it has twice, and whether it is whole."""

    lost: list[str]
    doubled: list[str]
    trouble: str


def examine(database: Path, acknowledged: dict[str, float]) -> Examined:
    """Look at a copy, so that the server itself is the first to mend what was killed.

    `acknowledged` is the figure that each entry noted, by its id.
    """
    with TemporaryDirectory() as place:
        copy = Path(place) / database.name
        for ending in ("", "-wal"):
            part = database.with_name(database.name + ending)
            if part.exists():
                shutil.copy(part, f"{copy}{ending}")
        try:
            said, entries, heats = _read(copy)
        except sqlite3.DatabaseError as error:
            return Examined(lost=list(acknowledged), doubled=[], trouble=str(error))
    lost = [one for one, heat in acknowledged.items() if one not in entries or not heats[heat]]
    doubled = [f"{heat} °C" for heat, times in heats.items() if times > 1]
    if sum(heats.values()) != len(entries):
        doubled.append(f"{len(entries)} entries and {sum(heats.values())} checks")
    return Examined(lost=lost, doubled=doubled, trouble="" if said == "ok" else said)


def _read(database: Path) -> tuple[str, set[str], Counter[float]]:
    """What it says of itself, the ids that it kept, and how often each figure is noted."""
    entries = "SELECT id FROM house_entry WHERE what = 'burn round'"
    heats = "SELECT vessel_c FROM trials_check WHERE vessel_c IS NOT NULL"
    with closing(sqlite3.connect(database)) as there:
        said: str = there.execute("PRAGMA integrity_check").fetchone()[0]
        ids = {str(uuid.UUID(row[0])) for row in there.execute(entries)}
        return said, ids, Counter(round(row[0], 3) for row in there.execute(heats))


class Run:
    """One folder, one port, its devices, and the server that is killed."""

    def __init__(self, folder: Path, chance: random.Random, *, devices: int = DEVICES) -> None:
        self.folder, self.chance = folder, chance
        made = subprocess.run(
            [sys.executable, "-c", FILL, str(folder)],
            check=True,
            capture_output=True,
            text=True,
            cwd=Path(__file__).parent,
        )
        self.told = json.loads(made.stdout.splitlines()[-1])
        self.port, self.mark = _free_port(), f"THROWBENCH_KILLED={uuid.uuid4()}"
        self.seen, self.end = Seen(), Event()
        self.server = self._spawn()
        self.wait_for_it()
        self.maker = Browser(self.port)
        self.maker.sign_in(self.told["link"])
        self.token = self.maker.hello()["token"]
        number = count(1)
        self.devices = [
            Device(
                Browser(self.port, self.maker.cookies), self.told["burns"], lambda: next(number),
                self.seen, self.end,
            )
            for _ in range(devices)
        ]  # fmt: skip
        for device in self.devices:
            device.start()

    def _spawn(self) -> "subprocess.Popen[bytes]":
        name, _, value = self.mark.partition("=")
        return subprocess.Popen(
            [*THROWBENCH, "serve", str(self.folder), "--port", str(self.port)],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env={**os.environ, name: value},
            start_new_session=True,
        )

    def wait_for_it(self) -> float:
        """Until it takes calls [s]."""
        begins = time.perf_counter()
        while self.server.poll() is None:
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", self.port)) == 0:
                    return time.perf_counter() - begins
            time.sleep(0.005)
        raise SystemExit(f"the server ended by itself, with {self.server.returncode}")

    def restart(self) -> None:
        self.server = self._spawn()

    def kill(self, way: str) -> None:
        if way == ALONE:
            os.kill(self.server.pid, signal.SIGKILL)
        else:
            os.killpg(self.server.pid, signal.SIGKILL)
        self.server.wait()

    def left(self) -> dict[int, str]:
        """What is still there after a while; most of what a kill leaves is gone at once."""
        ends = time.monotonic() + GONE_S
        while found := left_behind(folder=self.folder, port=self.port, mark=self.mark):
            if time.monotonic() > ends:
                break
            time.sleep(0.02)
        return found

    def spawned(self) -> dict[int, str]:
        found = left_behind(folder=self.folder, port=self.port, mark=self.mark)
        return {pid: why for pid, why in found.items() if pid != self.server.pid}

    def ask_verdict(self) -> None:
        """Without waiting for it: the answer never comes."""
        Thread(target=self._ask, daemon=True).start()

    def _ask(self) -> None:
        browser = Browser(self.port, self.maker.cookies)
        kind = "application/x-www-form-urlencoded"
        path = f"/trials/{self.told['trial']}/verdict/ask/"
        with suppress(*UNANSWERED):  # the server is killed meanwhile
            browser.ask("POST", path, Content_Type=kind, X_CSRFToken=self.token)
        browser.close()

    def stop(self) -> None:
        """The devices first get through what they hold; then the server goes as it always goes."""
        self.end.set()
        for device in self.devices:
            device.join(30)
            device.gives_up = True
        self.maker.close()
        self.server.terminate()
        self.server.wait(30)


def run_kills(kills: int, *, seed: int = 1) -> Result:
    """Kill so many times; the moments are drawn, each time the same with the same seed."""
    result, begins = Result(), time.perf_counter()
    with TemporaryDirectory() as place:
        run = Run(Path(place) / "workshop", random.Random(seed))
        try:
            for number in range(1, kills + 1):
                _once(run, result, number)
        finally:
            run.stop()
        _look(run, result, "at the end")
    result.entries_made, result.acknowledged = len(run.seen.made), len(run.seen.acknowledged)
    result.answers_lost = run.seen.kept_before
    result.other_answers = len(run.seen.other)
    result.troubles += run.seen.other[:5]
    result.seconds = round(time.perf_counter() - begins, 1)
    return result


def _once(run: Run, result: Result, number: int) -> None:
    """One kill, what it left, and the next start."""
    at_the_start = number % EACH_AT_THE_START == 0
    in_a_verdict = number % EACH_IN_A_VERDICT == 0 and not at_the_start
    if at_the_start:
        time.sleep(run.chance.uniform(0, START_S))
    else:
        result.restart_s.append(run.wait_for_it())
        _some_work(run, in_a_verdict)
    result.with_a_child += in_a_verdict and bool(run.spawned())
    way = (GROUP, ALONE)[number % 2]
    run.kill(way)
    result.kills += 1
    result.by_way[way] += 1
    result.at_the_start += at_the_start
    _look(run, result, f"kill {number}, {way}")
    run.restart()


def _some_work(run: Run, in_a_verdict: bool) -> None:
    """Until a first entry was kept, and then for a moment that is drawn."""
    before, ends = len(run.seen.acknowledged), time.monotonic() + 20
    while len(run.seen.acknowledged) == before and time.monotonic() < ends:
        time.sleep(0.002)
    if in_a_verdict:
        run.ask_verdict()
        while not run.spawned() and time.monotonic() < ends:
            time.sleep(0.01)
    time.sleep(run.chance.uniform(0, RUNS_S))


def _look(run: Run, result: Result, when: str) -> None:
    left = run.left()
    kept = {one.id: one.vessel_c for one in list(run.seen.acknowledged.values())}
    found = examine(run.folder / "workshop.sqlite3", kept)
    result.left_behind += len(left)
    result.lost += len(found.lost)
    result.doubled += len(found.doubled)
    result.not_whole += bool(found.trouble)
    for trouble in (*left.values(), *found.lost, *found.doubled, found.trouble):
        if trouble:
            result.troubles.append(f"{when}: {trouble}")


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def as_data(result: Result) -> dict[str, object]:
    """One object with the same figures as the lines."""
    told = asdict(result)
    starts = sorted(told.pop("restart_s")) or [0.0]
    at_most = quantiles(starts, n=20)[-1] if len(starts) > 1 else starts[0]
    return {
        **told,
        "by_way": dict(result.by_way),
        "start_s": {"middle": round(median(starts), 2), "p95": round(at_most, 2)},
        "troubles": result.troubles[:20],
        "good": result.is_good,
    }


def say(told: dict[str, object]) -> None:
    ways = ", ".join(f"{how} {many}" for how, many in told["by_way"].items())  # type: ignore[attr-defined]
    print(f"{told['kills']} kills in {told['seconds']} s: {ways};")
    print(f"  {told['at_the_start']} at the start, {told['with_a_child']} beside a verdict")
    print(f"  entries acknowledged {told['acknowledged']}, of which lost: {told['lost']}")
    print(f"  noted twice: {told['doubled']}; kept, and the answer lost: {told['answers_lost']}")
    print(f"  processes left behind: {told['left_behind']}")
    print(f"  databases that were not whole: {told['not_whole']}")
    print(f"  answers of another kind: {told['other_answers']}")
    print(f"  from one start to the first call: {told['start_s']}")
    for trouble in told["troubles"]:  # type: ignore[attr-defined]
        print(f"  {trouble}")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("kills", type=int, nargs="?", default=500)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--keep", action="store_true")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    result = run_kills(asked.kills, seed=asked.seed)
    told = as_data(result)
    if asked.keep:
        keep(RESULTS, told)
    if asked.json:
        print(json.dumps(told, indent=1))
    else:
        say(told)
    return 0 if result.is_good else 1


if __name__ == "__main__":
    sys.exit(main())
