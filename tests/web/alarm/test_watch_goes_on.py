"""The watch rings on, whatever goes wrong beside it: a full disk, a program that cannot begin."""

from datetime import timedelta

import pytest
from django.db import OperationalError

from throwbench.web.alarm import watch, watching
from throwbench.web.alarm.here import WatchHere
from throwbench.web.alarm.players import Player
from throwbench.workshop.house.models import Ring, Watch

MINUTE = timedelta(minutes=1)


class Hours:
    """A watch as the server's thread runs it, at times that a test names."""

    def __init__(self, player: Player, monkeypatch) -> None:
        self.here, self.watcher = WatchHere(player=player), watch.Watcher(player)
        self._monkeypatch = monkeypatch

    def look(self, at) -> None:
        self._monkeypatch.setattr(watching, "time_here", lambda: at)
        watching._look(self.watcher, self.here)
        self.watcher._beside.submit(str).result(10)


@pytest.fixture
def hours(tmp_path, monkeypatch):
    made = Hours(Player(tmp_path / "alarm.wav"), monkeypatch)
    yield made
    made.watcher.end()
    made.here.awake.release()


@pytest.fixture
def noted(programs):
    return programs(aplay="exit 0", notify_send="exit 0")


def sounds(noted) -> int:
    return sum(line.startswith("aplay") for line in noted.read_text().splitlines())


def full(**_: object) -> None:
    raise OperationalError("database or disk is full")


def test_a_disk_that_is_full_does_not_end_the_sound(*, hours, noted, lit, loft, now, monkeypatch):
    lit("W8R", room=loft, ago=timedelta(hours=4))
    for name in ("note_ring", "note_watch"):
        monkeypatch.setattr(watch, name, full)
    for minute in range(4):
        hours.look(now + minute * MINUTE)
    assert sounds(noted) == 4
    assert hours.here.is_awake()


def test_what_rang_while_the_disk_was_full_is_written_once_there_is_room(
    *, hours, noted, lit, loft, now, monkeypatch
):
    lit("W8R", room=loft, ago=timedelta(hours=4))
    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(watch, "note_ring", full)
        hours.look(now)
        hours.look(now + MINUTE)
    hours.look(now + 2 * MINUTE)
    assert set(Ring.objects.values_list("rung", "at")) == {("machine", now), ("notice", now)}
    assert Watch.objects.get().last_at == now + 2 * MINUTE


def test_a_program_that_cannot_be_begun_is_a_trouble_and_no_end(hours, noted, lit, loft, now):
    lit("W8R\0", room=loft, ago=timedelta(hours=4))
    for minute in range(3):
        hours.look(now + minute * MINUTE)
    assert sounds(noted) == 3
    assert "null byte" in Ring.objects.get(rung="notice").trouble
