"""Holding sleep off: one program, begun while something is lit, ended with it."""

import time
from datetime import timedelta

import pytest

from throwbench.web.alarm.awake import Awake, commands


@pytest.fixture
def awake():
    made = Awake()
    yield made
    made.release()


def words(noted) -> list[str]:
    ends = time.monotonic() + 10
    while not noted.exists() and time.monotonic() < ends:
        time.sleep(0.01)
    return noted.read_text().splitlines()


def test_it_is_begun_once_and_ended(awake, programs):
    noted = programs(systemd_inhibit="exec /bin/cat")
    for _ in range(3):
        awake.hold()
    assert words(noted) == [
        "systemd-inhibit --what=sleep:idle --mode=block --who=Throwbench "
        "--why=A candle is lit or a timer runs cat"
    ]
    assert awake.is_held
    awake.release()
    assert not awake.is_held


def test_it_ends_when_nothing_holds_its_input(awake, programs):
    """As when the server is killed: what waits for input that never comes ends by itself."""
    programs(systemd_inhibit="exec /bin/cat")
    awake.hold()
    child = awake._child
    child.stdin.close()
    assert child.wait(10) == 0


def test_a_machine_that_refuses_is_asked_once_and_not_said_to_be_awake(awake, programs):
    noted = programs(systemd_inhibit="exit 1")
    awake.hold()
    awake._child.wait(10)
    awake.hold()
    assert not awake.is_held
    assert len(words(noted)) == 1


def test_after_a_refusal_the_next_candle_asks_again(awake, programs):
    noted = programs(systemd_inhibit="exit 1")
    for _ in range(2):
        awake.hold()
        awake._child.wait(10)
        awake.release()
    assert len(words(noted)) == 2


def test_a_mac_is_asked_for_as_long_as_this_process_runs(programs):
    programs(caffeinate="exit 0")
    ((program, *told),) = commands()
    assert program.endswith("/caffeinate")
    assert told[:2] == ["-i", "-w"]


def test_without_a_program_nothing_is_held(awake, programs):
    programs()
    awake.hold()
    assert not awake.is_held


def test_the_round_says_whether_it_is_asked_to_stay_awake(maker, lit, loft, monkeypatch):
    lit("W8R", room=loft, ago=timedelta(hours=2))
    assert "Nothing keeps it from sleeping." in maker.get("/round/").text
    monkeypatch.setattr(Awake, "is_held", True)
    page = maker.get("/round/").text
    assert "It is asked not to sleep while something is lit or timed." in page
    assert "Alarm not guaranteed: this machine can sleep." in page
