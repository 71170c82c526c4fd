"""Burns as records, in the workshop's local time, and what is lit now."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

from django.db.models import Max, QuerySet

from throwbench import records
from throwbench.formats.burn_questions import is_colder
from throwbench.science.burn import hours_between
from throwbench.workshop.house.corrections import corrections_of, said_of
from throwbench.workshop.house.models import Correction
from throwbench.workshop.trials.models import Burn, Check, Trial
from throwbench.workshop.trials.sights import told_of
from throwbench.workshop.trials.times import clock_is_behind, zone

CHECK_EVERY = timedelta(hours=1)


def burns_of(trial: Trial) -> tuple[records.Burn, ...]:
    """Every burn of a trial that is over: candle after candle as they were made.

    Times are local and carry an offset only where a change of clocks lies inside one of the
    burns; then all do, since one file is written in one way.
    """
    return as_records(Burn.objects.filter(candle__combination__candidate__trial=trial))


def as_records(found: QuerySet[Burn], *, lit: bool = False) -> tuple[records.Burn, ...]:
    """Burns that are over, by candle and number; `lit`: also what burns, up to its last check."""
    shown = found if lit else found.exclude(out_at=None)
    shown = shown.select_related("candle").prefetch_related("checks")
    rows = list(shown.order_by("candle_id", "number"))
    here = zone()
    with_offset = any(_changes_inside(row, here) for row in rows)
    slips = slips_of(rows)
    return tuple(
        _record(row, here, with_offset=with_offset, slips=slips.get(row.pk, ())) for row in rows
    )


def slips_of(rows: Iterable[Burn]) -> Mapping[int, Sequence[Correction]]:
    """What was put right in burns and in their checks, by the burn; checks are prefetched."""
    burns = list(rows)
    of_check = {check.pk: burn.pk for burn in burns for check in burn.checks.all()}
    checks = [check for burn in burns for check in burn.checks.all()]
    found: dict[int, list[Correction]] = defaultdict(list)
    for item in corrections_of(burns):
        found[item.row].append(item)
    for item in corrections_of(checks):
        found[of_check[item.row]].append(item)
    return found


def slip_words(slip: Correction) -> str:
    """'flame first typed as 80 mm, it was 18 mm: put right'."""
    said = said_of(slip)
    return f"{said.name} first typed as {said.was}, it was {said.became}: put right"


def _changes_inside(row: Burn, here: ZoneInfo) -> bool:
    return row.lit_at.astimezone(here).utcoffset() != _until(row).astimezone(here).utcoffset()


def _until(row: Burn) -> datetime:
    """When it was out, or was last seen to burn."""
    return row.out_at or max([row.lit_at, *(check.at for check in row.checks.all())])


def _record(
    row: Burn, here: ZoneInfo, *, with_offset: bool, slips: Sequence[Correction]
) -> records.Burn:
    told = {**told_of(row, records.Burn), "note": _note(row.note, slips)}
    return records.Burn(
        candle=row.candle.code,
        burn=row.number,
        kind=row.kind,
        lit_at=_local(row.lit_at, here, with_offset=with_offset),
        out_at=_local(_until(row), here, with_offset=with_offset),
        put_out=row.put_out or None,
        checks=tuple(_check(row, check) for check in row.checks.all()),
        **told,
    )


def _local(moment: datetime, here: ZoneInfo, *, with_offset: bool) -> datetime:
    """On the clock of the wall; with a fixed offset, so that a difference is elapsed time."""
    local = moment.astimezone(here)
    offset = local.utcoffset()
    assert offset is not None
    return local.replace(tzinfo=timezone(offset) if with_offset else None)


def _check(row: Burn, check: Check) -> records.Check:
    at_h = round(hours_between(row.lit_at, check.at), 2)
    return records.Check(check_h=at_h, sure=_sure(row, check), **told_of(check, records.Check))


def _sure(row: Burn, check: Check) -> bool | None:
    """Yes for what would be held back in a file: here it was asked about before it was noted."""
    if check.vessel_c is None or row.room_c is None:
        return None
    return is_colder(check.vessel_c, row.room_c) or None


def _note(note: str, slips: Sequence[Correction]) -> str | None:
    """The maker's words; what was put right is said once."""
    said = [] if "first typed as" in note else [slip_words(slip) for slip in slips]
    return "; ".join([note, *said] if note else said) or None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lit:
    """A candle that burns now."""

    burn: Burn
    now: datetime
    last_check_at: datetime | None

    @property
    def code(self) -> str:
        return self.burn.candle.code

    @property
    def is_late(self) -> bool:
        return self.now >= self.burn.out_by_at

    @property
    def lit_for(self) -> timedelta:
        return max(self.now - self.burn.lit_at, timedelta(0))

    @property
    def clock_is_behind(self) -> bool:
        return clock_is_behind(self.burn.lit_at, self.now)

    @property
    def limit_h(self) -> float:
        return hours_between(self.burn.lit_at, self.burn.out_by_at)

    @property
    def check_due_at(self) -> datetime:
        """An hour after it was lit or looked at last."""
        return (self.last_check_at or self.burn.lit_at) + CHECK_EVERY

    @property
    def check_is_due(self) -> bool:
        return self.now >= self.check_due_at


def lit_now(now: datetime) -> tuple[Lit, ...]:
    """What burns, the first to be put out first."""
    return _as_lit(Burn.objects.filter(out_at=None), now)


def shown_as_lit(burns: Iterable[int], now: datetime) -> tuple[Lit, ...]:
    """What a page showed as lit; some of it may be out meanwhile."""
    return _as_lit(Burn.objects.filter(pk__in=burns), now)


def _as_lit(found: QuerySet[Burn], now: datetime) -> tuple[Lit, ...]:
    rows = (
        found.select_related(
            "candle__combination__vessel",
            "candle__combination__candidate__trial",
            "candle__combination__candidate__oil",
            "room",
            "handed_to",
        )
        .annotate(last_check_at=Max("checks__at"), last_photo_at=Max("photos__at"))
        .order_by("out_by_at", "candle__code")
    )
    return tuple(Lit(burn=row, now=now, last_check_at=row.last_check_at) for row in rows)
