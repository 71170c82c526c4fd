"""A server killed in the middle of its work loses nothing it acknowledged; and the look can see."""

import importlib
import json
import os
import sqlite3
import subprocess
import sys
import threading
import uuid
from collections import Counter
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from types import ModuleType

import pytest

BENCHMARKS = Path(__file__).parents[3] / "benchmarks"
A_FEW = 5
"""Of which one meets a verdict that is worked out; `./run kills` kills 500 times."""


@contextmanager
def process(*words: str, **environment: str) -> Iterator["subprocess.Popen[bytes]"]:
    """A process that has begun and waits."""
    running = subprocess.Popen(
        words, stdout=subprocess.PIPE, stdin=subprocess.PIPE, env={**os.environ, **environment}
    )
    try:
        assert running.stdout is not None
        assert running.stdout.readline() == b"here\n"
        yield running
    finally:
        running.kill()
        running.communicate()


@pytest.fixture
def of_benchmarks(monkeypatch):
    """A module of the benchmarks, by its name."""
    monkeypatch.syspath_prepend(str(BENCHMARKS))

    def module(name: str) -> ModuleType:
        return importlib.import_module(name)

    return module


@pytest.fixture
def noted(tmp_path) -> tuple[Path, dict[str, float]]:
    """A database with three entries and their checks, as the look reads it."""
    database = tmp_path / "workshop.sqlite3"
    kept = {str(uuid.uuid4()): 20 + place / 1000 for place in range(3)}
    with closing(sqlite3.connect(database)) as there, there:
        there.execute("CREATE TABLE house_entry (id char(32) PRIMARY KEY, what text)")
        there.execute("CREATE TABLE trials_check (vessel_c real)")
        for one, heat in kept.items():
            there.execute(
                "INSERT INTO house_entry VALUES (?, 'burn round')", [one.replace("-", "")]
            )
            there.execute("INSERT INTO trials_check VALUES (?)", [heat])
    return database, kept


def changed(database: Path, *statements: str) -> None:
    with closing(sqlite3.connect(database)) as there, there:
        for one in statements:
            there.execute(one)


def test_killed_a_few_times_nothing_is_lost_doubled_or_left():
    done = subprocess.run(
        [sys.executable, str(BENCHMARKS / "kills.py"), str(A_FEW), "--json"],
        capture_output=True,
        text=True,
        check=False,
    )
    told = json.loads(done.stdout)
    assert done.returncode == 0, told
    assert told["good"]
    assert (told["kills"], told["with_a_child"]) == (A_FEW, 1)
    assert set(told["by_way"]) == {"main process alone", "whole group"}
    assert told["acknowledged"] >= A_FEW


def test_a_whole_database_has_no_trouble(of_benchmarks, noted):
    found = of_benchmarks("kills").examine(*noted)
    assert (found.lost, found.doubled, found.trouble) == ([], [], "")


@pytest.mark.parametrize("table", ["house_entry", "trials_check"])
def test_an_acknowledged_entry_that_is_gone_is_found(of_benchmarks, noted, table):
    database, kept = noted
    changed(database, f"DELETE FROM {table} WHERE rowid = 2")
    assert of_benchmarks("kills").examine(database, kept).lost == [list(kept)[1]]


def test_a_check_noted_twice_is_found(of_benchmarks, noted):
    database, kept = noted
    changed(database, "INSERT INTO trials_check VALUES (20.001)")
    found = of_benchmarks("kills").examine(database, kept)
    assert found.doubled == ["20.001 °C", "3 entries and 4 checks"]


def test_a_database_that_is_not_whole_is_found(of_benchmarks, noted):
    database, kept = noted
    changed(
        database,
        "CREATE INDEX heats ON trials_check (vessel_c)",
        "PRAGMA writable_schema = ON",
        "UPDATE sqlite_master SET rootpage = 2 WHERE name = 'heats'",
    )
    assert of_benchmarks("kills").examine(database, kept).trouble


def test_what_is_lost_is_no_success(of_benchmarks):
    kills = of_benchmarks("kills")
    assert kills.Result(acknowledged=1).is_good
    assert not kills.Result(acknowledged=0).is_good
    for wrong in ("lost", "doubled", "left_behind", "not_whole", "other_answers"):
        assert not kills.Result(acknowledged=1, **{wrong: 1}).is_good


def test_a_process_is_found_by_its_file_its_port_and_its_mark(of_benchmarks, tmp_path):
    look = of_benchmarks("left_behind").left_behind
    file = tmp_path / "lock"
    code = (
        "import socket, sys; held = open(sys.argv[1], 'w'); door = socket.socket();"
        "door.bind(('127.0.0.1', int(sys.argv[2]))); door.listen();"
        "print('here', flush=True); sys.stdin.read()"
    )
    port = of_benchmarks("kills")._free_port()
    nowhere, other = tmp_path / "nowhere", of_benchmarks("kills")._free_port()
    mark = f"THROWBENCH_KILLED={uuid.uuid4()}"
    name, _, value = mark.partition("=")
    words = (sys.executable, "-c", code, str(file), str(port))
    with process(*words, **{name: value}) as running:
        assert list(look(folder=tmp_path, port=other, mark="X=1")) == [running.pid]
        assert list(look(folder=nowhere, port=port, mark="X=1")) == [running.pid]
        assert list(look(folder=nowhere, port=other, mark=mark)) == [running.pid]
        assert look(folder=nowhere, port=other, mark="X=1") == {}
    assert look(folder=tmp_path, port=port, mark=mark) == {}


def test_the_same_bytes_from_eight_at_once_are_one_row(of_benchmarks, tmp_path):
    """Against the real server: each gets an answer, all say that it is kept."""
    kills, devices = of_benchmarks("kills"), of_benchmarks("devices")
    run = kills.Run(tmp_path / "workshop", kills.random.Random(1), devices=0)
    try:
        device = devices.Device(run.maker, run.told["burns"], lambda: 1, run.seen, run.end)
        entry, answers, all_here = device._press(), Counter(), threading.Barrier(8)

        def send() -> None:
            browser = devices.Browser(run.port, run.maker.cookies)
            told = {"X_CSRFToken": run.token, "X_Sent_At": str(devices.now_ms())}
            all_here.wait()
            status, body = browser.ask("POST", "/entries/", entry.body, **told)
            browser.close()
            said = json.loads(body)
            assert (said["id"], said["digest"]) == (entry.id, entry.digest)
            answers[status, said["outcome"].split()[0]] += 1

        threads = [threading.Thread(target=send) for _ in range(8)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join(60)
    finally:
        run.stop()
    assert answers == {(200, "kept"): 8}
    found = kills.examine(run.folder / "workshop.sqlite3", {entry.id: entry.vessel_c})
    assert (found.lost, found.doubled, found.trouble) == ([], [], "")
