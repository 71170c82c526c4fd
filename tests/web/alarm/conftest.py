"""A workshop with candles to light, a clock that stands still, and who asks for the alarm."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from django.test import Client
from django.utils import timezone

from throwbench.workshop.house.models import Person, Role, Room, Workshop
from throwbench.workshop.shelf.models import Oil, Supplier, Vessel, Wax, Wick
from throwbench.workshop.trials.models import Burn, Candidate, Combination, TestCandle, Trial

NOW = datetime(2027, 5, 24, 9, 5, tzinfo=UTC)
"""11:05 in Oslo."""


@pytest.fixture
def now() -> datetime:
    return NOW


@pytest.fixture(autouse=True)
def in_oslo(monkeypatch, db):
    """Pages of a workshop in Oslo, at 11:05."""
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: NOW)
    Workshop.objects.create(id=1, name="Saltmyr", zone="Europe/Oslo")
    with timezone.override("Europe/Oslo"):
        yield


@pytest.fixture
def owner() -> Person:
    return Person.objects.create(name="Ragnhild", role=Role.OWNER)


@pytest.fixture
def odd() -> Person:
    return Person.objects.create(name="Odd", role=Role.ASSESSOR)


def signed_in(person: Person) -> Client:
    browser = Client()
    browser.force_login(person, backend="throwbench.workshop.house.sign_in.OneTimeLink")
    return browser


@pytest.fixture
def maker(owner) -> Client:
    return signed_in(owner)


@pytest.fixture
def nose(odd) -> Client:
    return signed_in(odd)


@pytest.fixture
def kitchen() -> Room:
    return Room.objects.create(name="kitchen", kind="living room")


@pytest.fixture
def loft() -> Room:
    return Room.objects.create(name="boat-shed loft", kind="large room")


@pytest.fixture
def trial(owner) -> Trial:
    return Trial.objects.create(name="Long Light", made_at=NOW, made_by=owner)


@pytest.fixture
def combination(trial) -> Combination:
    maker = Supplier.objects.create(name="Tarnholt Riechstoffe")
    oil = Oil.objects.create(name="Linen Loft", supplier=maker)
    return Combination.objects.create(
        candidate=Candidate.objects.create(trial=trial, oil=oil),
        wax=Wax.objects.create(name="R-36", cure_days=10),
        load_percent=8,
        wick=Wick.objects.create(series="flat cotton", size="4"),
        vessel=Vessel.objects.create(name="stoneware cup"),
    )


@pytest.fixture
def candle(combination) -> Callable[..., TestCandle]:
    def make(code: str, *, poured_on: date | None = date(2027, 5, 1), **more) -> TestCandle:
        return TestCandle.objects.create(
            code=code, combination=combination, poured_on=poured_on, made_at=NOW, **more
        )

    return make


@pytest.fixture
def lit(candle, owner) -> Callable[..., Burn]:
    def light(
        code: str, *, room: Room, ago: timedelta, hours: float = 4, kind: str = "wick", **more
    ) -> Burn:
        return Burn.objects.create(
            candle=candle(code),
            number=1,
            kind=kind,
            room=room,
            lit_at=NOW - ago,
            lit_by=owner,
            out_by_at=NOW - ago + timedelta(hours=hours),
            **more,
        )

    return light


@pytest.fixture
def programs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Path]:
    """Small programs in a PATH of their own: `programs(aplay="exit 0")`; each notes its words."""
    place, noted = tmp_path / "programs", tmp_path / "noted"
    place.mkdir()
    monkeypatch.setenv("PATH", str(place))

    def install(**scripts: str) -> Path:
        for name, script in scripts.items():
            file = place / name.replace("_", "-")
            file.write_text(f'#!/bin/sh\necho "${{0##*/}} $@" >> {noted}\n{script}\n')
            file.chmod(0o755)
        return noted

    return install
