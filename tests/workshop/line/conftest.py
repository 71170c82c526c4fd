"""The example of the demo in a database: its trial, candles, burns and scores, or some of them."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import asdict, replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from throwbench import records
from throwbench.demo import Example, generate
from throwbench.demo.plan import CANDLES
from throwbench.demo.truths import OILS
from throwbench.formats.archive import Archive, digest
from throwbench.web.folder import Folder
from throwbench.workshop.house.models import Person, Role, Room, Workshop
from throwbench.workshop.line import services
from throwbench.workshop.line.apart import judged_apart
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.services import ask_verdict
from throwbench.workshop.panel.models import Panel, Score, Seat, Sitting, Sniff
from throwbench.workshop.shelf.models import Fixing, Lot, Oil, Supplier, Vessel, Wax, Wick
from throwbench.workshop.trials.models import (
    Band,
    Burn,
    Candidate,
    Check,
    Combination,
    TestCandle,
    Trial,
)

OSLO = ZoneInfo("Europe/Oslo")
MADE = datetime(2027, 4, 5, 9, 0, tzinfo=UTC)
FOUR = ("Slate After Rain", "Rebarbara K", "Rhubarb Cold Frame", "Kelp and Iron")
ROOMS = {"loft": "large room", "kitchen": "living room", "back room": "small room"}
_NOT_A_FIELD = {"line", "checks", "candle", "burn", "check_h"}


@cache
def example() -> Example:
    return generate()


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path: Path) -> None:
    """Drawings are kept in a folder of this test alone."""
    settings.FOLDER = Folder(tmp_path)


VERDICTS: dict[str, str] = {}


@pytest.fixture(autouse=True)
def _equal_notes_are_judged_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """A real child judges the first of equal notes; every later test would wait for the same."""

    def judged(notes: Archive) -> str:
        key = digest(notes)
        if key not in VERDICTS:
            VERDICTS[key] = judged_apart(notes)
        return VERDICTS[key]

    monkeypatch.setattr(services, "judged_apart", judged)


@pytest.fixture
def by(owner: Person, now: datetime) -> dict[str, Any]:
    return {"who": owner, "now": now}


@pytest.fixture
def assessor(workshop: Workshop) -> Person:
    """Of those whose scores are in the example."""
    return Person.objects.get_or_create(name="Odd", defaults={"role": Role.ASSESSOR})[0]


@pytest.fixture
def helper(workshop: Workshop) -> Person:
    return Person.objects.update_or_create(name="Isak", defaults={"role": Role.HELPER})[0]


@pytest.fixture
def rooms(workshop) -> dict[str, Room]:
    return {name: Room.objects.create(name=name, kind=kind) for name, kind in ROOMS.items()}


@pytest.fixture
def trial(owner: Person, rooms: dict[str, Room]) -> Trial:
    """Four oils of the example, two places, at most one rhubarb."""
    return load(FOUR, owner=owner, rooms=rooms, choose=2)


@pytest.fixture
def judgement(trial: Trial, owner: Person, now: datetime) -> Judgement:
    return ask_verdict(trial, who=owner, now=now)


def candidate(trial: Trial, oil: str) -> Candidate:
    return trial.candidates.get(oil__name=oil)


def combination(trial: Trial, code: str) -> Combination:
    return Combination.objects.get(candles__code=code, candidate__trial=trial)


def load(oils: Collection[str], *, owner: Person, rooms: dict[str, Room], choose: int = 4) -> Trial:
    """The records of the example on these oils, as rows."""
    trial = Trial.objects.create(name="Long Light", choose=choose, made_at=MADE, made_by=owner)
    Band.objects.create(trial=trial, room_kind="living room", low=3.2, high=4.4)
    candles = _candles(trial, oils)
    for burn in example().burns:
        if burn.candle in candles:
            _burn(candles[burn.candle], burn, owner=owner)
    _scores(trial, candles, rooms=rooms, owner=owner)
    return trial


def _candles(trial: Trial, oils: Collection[str]) -> dict[str, TestCandle]:
    wax = Wax.objects.create(name="R-36", cure_days=10)
    vessel = Vessel.objects.create(name="stoneware cup", inside_mm=68)
    made = {}
    for candle in CANDLES:
        if candle.oil in oils:
            combination = _combination(trial, candle, wax=wax, vessel=vessel)
            lot, _ = Lot.objects.get_or_create(
                code=candle.combination().wick_lot, wick=combination.wick
            )
            made[candle.code] = TestCandle.objects.create(
                code=candle.code,
                combination=combination,
                wick_lot=lot,
                poured_on=candle.poured,
                made_at=MADE,
            )
    return made


def _combination(trial, candle, *, wax: Wax, vessel: Vessel) -> Combination:
    fact = OILS[candle.oil]
    supplier, _ = Supplier.objects.get_or_create(name=fact.supplier)
    oil, _ = Oil.objects.get_or_create(name=candle.oil, defaults={"supplier": supplier})
    one, _ = Candidate.objects.get_or_create(
        trial=trial, oil=oil, defaults={"group": fact.group or "", "role": fact.role}
    )
    wick, _ = Wick.objects.get_or_create(series="flat cotton", size=str(candle.wick))
    fixing, _ = Fixing.objects.get_or_create(name=candle.fixing, kind=candle.fixing)
    made, _ = Combination.objects.get_or_create(
        candidate=one,
        wax=wax,
        load_percent=candle.load_percent,
        wick=wick,
        vessel=vessel,
        fixing=fixing,
        fill_mg=168_000,
        fill_mm=51,
    )
    return made


def _burn(candle: TestCandle, burn: records.Burn, *, owner: Person) -> Burn:
    facts = _facts(burn)
    for name in ("mass_before", "mass_after", "scale_step"):
        if grams := facts.pop(f"{name}_g", None):
            facts[f"{name}_mg"] = round(grams * 1000)
    lit_at, out_at = (at.replace(tzinfo=OSLO) for at in (burn.lit_at, burn.out_at))
    row = Burn.objects.create(
        **facts | {"lit_at": lit_at, "out_at": out_at},
        candle=candle,
        number=burn.burn,
        lit_by=owner,
        out_by_at=lit_at + timedelta(hours=4),
    )
    Check.objects.bulk_create(
        Check(burn=row, at=lit_at + timedelta(hours=look.check_h or 0), who=owner, **_facts(look))
        for look in burn.checks
    )
    return row


def _facts(record: records.Burn | records.Check) -> dict[str, object]:
    return {
        name: value
        for name, value in asdict(record).items()
        if value is not None and name not in _NOT_A_FIELD
    }


def _scores(
    trial: Trial, candles: dict[str, TestCandle], *, rooms: dict[str, Room], owner: Person
) -> None:
    sniffs: dict[tuple[str, str, str, str], list[records.Score]] = defaultdict(list)
    for score in example().scores:
        if score.candle in candles:
            asks = "unlit" if score.attribute == "cold_throw" else "lit"
            sniffs[score.sitting, asks, score.assessor, score.candle].append(score)
    for number, (key, scores) in enumerate(sniffs.items()):
        _sniff(trial, key, candles[key[3]], scores, number=number, rooms=rooms, owner=owner)


def _sniff(trial, key, candle, scores, *, number, rooms, owner) -> None:
    sitting, asks, name, _ = key
    day = date(2027, 5, int(sitting.split()[0]))
    at = datetime(day.year, day.month, day.day, 18, tzinfo=OSLO) + timedelta(seconds=number)
    panel, _ = Panel.objects.get_or_create(
        trial=trial,
        day=day,
        asks=asks,
        defaults={"opened_at": at, "opened_by": owner, "closed_at": at + timedelta(hours=3)},
    )
    nose, _ = Person.objects.get_or_create(name=name, defaults={"role": Role.ASSESSOR})
    seat, _ = Seat.objects.get_or_create(
        panel=panel,
        candle=candle,
        room=rooms[scores[0].room],
        defaults={"tag": f"{100 + Seat.objects.filter(panel=panel).count()}"},
    )
    sat, _ = Sitting.objects.get_or_create(panel=panel, assessor=nose)
    sniff = Sniff.objects.create(
        sitting=sat,
        seat=seat,
        at=at,
        way="hand-round",
        minutes_lit=scores[0].minutes_lit,
        clean_air_min=scores[0].clean_air_min,
        recognised=scores[0].recognised,
    )
    Score.objects.bulk_create(
        Score(sniff=sniff, attribute=score.attribute, value=score.score) for score in scores
    )


def burn_again(candle: TestCandle, *, owner: Person, **seen: str) -> Burn:
    """One more burn of a candle, all of it looked at."""
    template = next(one for one in example().burns if one.candle == "K7F" and one.burn == 4)
    row = _burn(candle, _after(template, candle.burns.latest("number")), owner=owner)
    if seen:
        row.checks.update(**seen)
    return row


def _after(template: records.Burn, last: Burn) -> records.Burn:
    lit_at = last.out_at.astimezone(OSLO).replace(tzinfo=None) + timedelta(hours=12)
    length = template.out_at - template.lit_at
    return replace(template, burn=last.number + 1, lit_at=lit_at, out_at=lit_at + length)
