"""What is known of the moment of a sniff: how long the candle was lit and the nose in clean air.

Reckoned when it is read: answers, and the burns they were given at, arrive in any order, and the
one that comes late is not the one that was last.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from throwbench.workshop.panel.models import Asks, Sniff
from throwbench.workshop.trials.models import Burn, BurnKind

A_DAY = timedelta(hours=24)
"""A sniff longer ago says nothing about the air since."""
A_MINUTE = timedelta(minutes=1)
"""A burn is noted by the minute: within that nobody knows whether it was lit."""
UNLIT = "unlit"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is kept of a sniff. `minutes_lit` and `clean_air_min` are None where not given."""

    sniff: int
    assessor: int
    candle: int | None
    asks: str
    is_timed: bool
    at: datetime
    minutes_lit: float | None
    clean_air_min: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """Minutes that are not known are None."""

    burn_kind: str
    minutes_lit: float | None
    clean_air_min: float | None


def moment_of(sniff: Sniff) -> Moment:
    """The moment of one sniff."""
    told = Told(
        sniff=sniff.pk,
        assessor=sniff.sitting.assessor_id,
        candle=sniff.seat.candle_id,
        asks=sniff.sitting.panel.asks,
        is_timed=sniff.is_timed,
        at=sniff.at,
        minutes_lit=sniff.minutes_lit,
        clean_air_min=sniff.clean_air_min,
    )
    return moments_of([told])[sniff.pk]


def moments_of(found: Sequence[Told]) -> Mapping[int, Moment]:
    """The moment of each sniff, in two queries. What was given stands as it was given.

    A slip without its time says nothing of its minutes: it was typed in later.
    """
    burns = burns_of({one.candle for one in found if one.candle is not None})
    before = _sniffs_before([one for one in found if _is_reckoned(one)])
    return {one.sniff: _moment(one, burns, before.get(one.sniff)) for one in found}


def _is_reckoned(one: Told) -> bool:
    return one.clean_air_min is None and one.is_timed


def _moment(one: Told, burns: Mapping[int, Sequence[Burn]], before: datetime | None) -> Moment:
    noted = burns.get(one.candle or 0, ())
    burn = next((row for row in noted if one.is_timed and burned(row, one.at)), None)
    lit, air = one.minutes_lit, one.clean_air_min
    if lit is None and burn is not None and one.asks != Asks.UNLIT:
        lit = _minutes(max(one.at - burn.lit_at, timedelta(0)))
    if air is None and before is not None:
        air = _minutes(one.at - before)
    return Moment(burn_kind=_kind(one, noted, burn), minutes_lit=lit, clean_air_min=air)


def _kind(one: Told, noted: Sequence[Burn], burn: Burn | None) -> str:
    """What the candle did while it was sniffed.

    One whose burns are noted was not lit outside of them. A slip without its time was sniffed at
    another time than it was typed in, and where no burn was ever noted nothing is known: both are
    taken as asked.
    """
    if one.asks == Asks.UNLIT:
        return UNLIT
    if burn is not None:
        return burn.kind
    is_known = bool(noted) and one.minutes_lit is None and one.is_timed
    return UNLIT if is_known and one.asks == Asks.LIT else BurnKind.NOSE.value


def burned(burn: Burn, at: datetime) -> bool:
    """Whether the candle was lit in this burn at that time."""
    out_at = burn.out_at
    return burn.lit_at - A_MINUTE < at and (out_at is None or at < out_at + A_MINUTE)


def burns_of(candles: Iterable[int]) -> Mapping[int, Sequence[Burn]]:
    """By candle, its burns in their order."""
    found: dict[int, list[Burn]] = defaultdict(list)
    rows = Burn.objects.filter(candle__in=set(candles)).order_by("number")
    for row in rows.only("candle_id", "kind", "lit_at", "out_at"):
        found[row.candle_id].append(row)
    return found


def _sniffs_before(found: Sequence[Told]) -> Mapping[int, datetime]:
    """When the nose of each sniff had sniffed before, anywhere within a day.

    A slip without its time does not tell.
    """
    if not found:
        return {}
    times = [one.at for one in found]
    rows = (
        Sniff.objects.filter(
            sitting__assessor__in={one.assessor for one in found},
            at__gte=min(times) - A_DAY,
            at__lte=max(times),
            is_timed=True,
        )
        .order_by("sitting__assessor", "at", "id")
        .values_list("pk", "sitting__assessor", "at")
    )
    before: dict[int, datetime] = {}
    last: dict[int, datetime] = {}
    for sniff, assessor, at in rows:
        if assessor in last and at - last[assessor] <= A_DAY:
            before[sniff] = last[assessor]
        last[assessor] = at
    return before


def _minutes(lasted: timedelta) -> float:
    return round(lasted / timedelta(minutes=1), 1)
