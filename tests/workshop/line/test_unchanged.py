"""An answer is kept until anybody writes anything, and not a moment longer."""

import sqlite3

import pytest
from django.db import connection

from throwbench.workshop.house.models import Room
from throwbench.workshop.line import unchanged
from throwbench.workshop.line.unchanged import until_something_is_written


@pytest.fixture
def asked(db, monkeypatch):
    """Asks as a page does, and counts how often the answer had to be found."""
    monkeypatch.setattr(unchanged, "_in_a_transaction", lambda: False)
    monkeypatch.setattr(unchanged._kept, "state", None, raising=False)
    times = []

    def ask(key: int = 1) -> int:
        until_something_is_written(key, lambda: times.append(key) or "found")
        return len(times)

    return ask


def test_it_is_found_once(asked):
    assert [asked(), asked(), asked()] == [1, 1, 1]


def test_inside_a_transaction_nothing_is_kept(asked, monkeypatch):
    monkeypatch.setattr(unchanged, "_in_a_transaction", lambda: True)
    assert [asked(), asked()] == [1, 2]


def test_each_key_has_its_own(asked):
    assert [asked(1), asked(2), asked(1)] == [1, 2, 2]


def test_a_write_of_ones_own_drops_it(asked):
    assert asked() == 1
    Room.objects.create(name="attic", kind="small room")
    assert asked() == 2


def test_a_write_of_another_connection_drops_it(asked, monkeypatch, tmp_path):
    """SQLite's own count, looked at from a second connection to the same file."""
    path = tmp_path / "two.sqlite3"
    mine, other = sqlite3.connect(path), sqlite3.connect(path)
    other.execute("CREATE TABLE notes (text)")
    other.commit()

    def writes():
        return mine, mine.execute("PRAGMA data_version").fetchone()[0], mine.total_changes

    monkeypatch.setattr(unchanged, "_writes", writes)
    assert [asked(), asked()] == [1, 1]
    with other:
        other.execute("INSERT INTO notes VALUES ('soot')")
    assert asked() == 2
    mine.close()
    other.close()


def test_the_count_is_that_of_the_database(db):
    here, others, mine = unchanged._writes()
    assert here is connection.connection
    Room.objects.create(name="attic", kind="small room")
    assert unchanged._writes() == (here, others, mine + 1)


def test_it_does_not_grow_without_end(asked):
    for key in range(200):
        asked(key)
    assert len(unchanged._kept.answers) <= 64
