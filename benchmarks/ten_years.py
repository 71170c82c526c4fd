"""A workshop after ten years: 2,000 test candles, 60,000 scores, 20,000 checks beside the demo's.

Rows are written in bulk and not through the services, so that it is made in a minute; each obeys
the constraints of the database. To be imported once Django is set up.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import product
from random import Random

from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.panel.models import Panel, Score, Seat, Sitting, Sniff
from throwbench.workshop.shelf.models import Fixing, Oil, Vessel, Wax, Wick
from throwbench.workshop.trials.models import (
    Burn,
    Candidate,
    Check,
    Combination,
    TestCandle,
    Trial,
)

TRIALS = 100
CANDLES_A_TRIAL = 20
SCORES_A_TRIAL = 600
BURNS_A_CANDLE, CHECKS_A_BURN = 5, 2
FIRST = datetime(2017, 1, 10, 9, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Counts:
    candles: int
    scores: int
    checks: int


def ten_years() -> Counts:
    """Fill the database that Django is set up on, which holds the demo already."""

    rng = Random(10)
    for number in range(TRIALS):
        _trial(rng, number)
    return Counts(
        candles=TestCandle.objects.count(),
        scores=Score.objects.count(),
        checks=Check.objects.count(),
    )


def _trial(rng: Random, number: int) -> None:
    owner = Person.objects.get(name="Ragnhild")
    begins = FIRST + timedelta(days=36 * number)
    trial = Trial.objects.create(
        name=f"Trial {number + 1}",
        question="Which of these join the line?",
        choose=2,
        wax=Wax.objects.first(),
        vessel=Vessel.objects.first(),
        made_at=begins,
        made_by=owner,
        fixed_at=begins,
    )
    oils = Oil.objects.bulk_create(
        Oil(name=f"Oil {number + 1}-{place}") for place in range(CANDLES_A_TRIAL // 2)
    )
    candles = _candles(trial, oils, begins)
    _burns(candles, owner, begins)
    _scores(rng, trial, candles, owner, begins)


def _candles(trial, oils, begins: datetime) -> list:
    candidates = Candidate.objects.bulk_create(Candidate(trial=trial, oil=oil) for oil in oils)
    wick, fixing = Wick.objects.get(series="flat cotton", size="4"), Fixing.objects.first()
    combinations = Combination.objects.bulk_create(
        Combination(
            candidate=candidate,
            wax=trial.wax,
            load_percent=8,
            wick=wick,
            vessel=trial.vessel,
            fixing=fixing,
            fill_mg=168_000,
            fill_mm=51,
        )
        for candidate in candidates
    )
    return TestCandle.objects.bulk_create(
        TestCandle(
            code=f"{trial.pk}Z{place}",
            combination=combinations[place % len(combinations)],
            poured_on=begins.date(),
            made_at=begins,
        )
        for place in range(CANDLES_A_TRIAL)
    )


def _burns(candles: list, owner, begins: datetime) -> None:
    burns = Burn.objects.bulk_create(
        Burn(
            candle=candle,
            number=number,
            kind="wick",
            lit_at=begins + timedelta(days=12 + number),
            lit_by=owner,
            out_by_at=begins + timedelta(days=12 + number, hours=4),
            out_at=begins + timedelta(days=12 + number, hours=3, minutes=55),
            put_out="snuffed",
            mass_before_mg=490_000,
            mass_after_mg=470_000,
            trim_mm=5,
        )
        for candle, number in product(candles, range(1, BURNS_A_CANDLE + 1))
    )
    Check.objects.bulk_create(
        Check(
            burn=burn,
            at=burn.lit_at + timedelta(hours=hour),
            who=owner,
            pool_width_mm=50 + 5 * hour,
            flame="under",
            flare_up="none",
            soot="none",
        )
        for burn, hour in product(burns, range(1, CHECKS_A_BURN + 1))
    )


def _scores(rng: Random, trial, candles: list, owner, begins: datetime) -> None:
    day = begins + timedelta(days=20)
    panel = Panel.objects.create(
        trial=trial, day=day.date(), asks="lit", opened_at=day, opened_by=owner, closed_at=day
    )
    room = Room.objects.get(name="kitchen")
    seats = Seat.objects.bulk_create(
        Seat(panel=panel, candle=candle, room=room, tag=str(100 + place))
        for place, candle in enumerate(candles)
    )
    sittings = Sitting.objects.bulk_create(Sitting(panel=panel, assessor=nose) for nose in _noses())
    sniffs = Sniff.objects.bulk_create(
        Sniff(sitting=sitting, seat=seat, at=day, way="slip", minutes_lit=90)
        for sitting, seat in product(sittings, seats)
    )
    Score.objects.bulk_create(
        Score(sniff=sniff, attribute=attribute, value=rng.randint(1, 5))
        for sniff, attribute in product(sniffs, ("liking", "hot_throw"))
    )


def _noses() -> list:
    """Fifteen noses: six of the demo, and nine who came for ten years."""
    there = list(Person.objects.filter(role="assessor")[:15])
    more = [Person(name=f"Nose {n}", role="assessor") for n in range(15 - len(there))]
    return [*there, *Person.objects.bulk_create(more)]
