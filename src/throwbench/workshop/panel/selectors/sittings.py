"""Who sits at open panels: what is still to sniff, in each nose's own order, and from when."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Max, Q, QuerySet

from throwbench.science.sniff_order import walk
from throwbench.workshop.house.press import current_press
from throwbench.workshop.panel.models import Panel, Seat, Sitting, Sniff

LOOK_BACK = timedelta(hours=24)
AN_HOUR = timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenSitting:
    """One nose at an open panel. `walk`, and so `ahead`, is in the order of this nose."""

    sitting: Sitting
    walk: tuple[Seat, ...]
    ahead: tuple[Seat, ...]
    given: tuple[Seat, ...]
    free_at: datetime | None
    """The end of its clean air; None where that is over, or was never needed."""
    air: timedelta | None
    """How long it has been in clean air; None where it has not sniffed within the hour."""

    @property
    def name(self) -> str:
        return self.sitting.assessor.name

    @property
    def sits_out(self) -> bool:
        return self.sitting.sits_out

    def has(self, tag: str) -> bool:
        """Whether this nose sniffs, or has sniffed, at a tag here."""
        return any(seat.tag == tag for seat in self.walk)

    def place_of(self, seat: Seat) -> int:
        """Which tag of its walk this is; the first is 1."""
        return self.walk.index(seat) + 1

    @property
    def is_done(self) -> bool:
        return not self.ahead

    @property
    def comes(self) -> bool:
        """Whether an answer is still awaited."""
        return bool(self.ahead) and not self.sits_out


def open_sittings(now: datetime) -> tuple[OpenSitting, ...]:
    """Every sitting of every open panel, panel by panel in the order of their days.

    For an entry that comes late: of every panel that was open when it was pressed.
    """
    still = Q(closed_at=None)
    if current_press() is not None:
        still |= Q(closed_at__gt=now)
    panels = _whole(Panel.objects.filter(still)).order_by("day", "id")
    return _sittings(panels, now)


def sittings_of(panel: Panel, now: datetime) -> tuple[OpenSitting, ...]:
    """Every sitting of one panel."""
    return _sittings(_whole(Panel.objects.filter(pk=panel.pk)), now)


def in_order_of(sitting: Sitting, seats: Sequence[Seat], place: int) -> tuple[Seat, ...]:
    """The walk of one nose: who sits down later gets the next row of a balanced square."""
    return tuple(seats[which] for which in walk(len(seats), place))


def _whole(panels: QuerySet[Panel]) -> QuerySet[Panel]:
    return panels.select_related("trial").prefetch_related(
        "seats__room", "sittings__assessor", "sittings__sniffs"
    )


def _sittings(panels: Iterable[Panel], now: datetime) -> tuple[OpenSitting, ...]:
    found = list(panels)
    assessors = {row.assessor_id for panel in found for row in panel.sittings.all()}
    last = _last_sniffs(assessors, now)
    return tuple(
        _sitting(panel, row, place, last.get(row.assessor_id), now)
        for panel in found
        for place, row in enumerate(panel.sittings.all())
    )


def _sitting(
    panel: Panel, row: Sitting, place: int, last: datetime | None, now: datetime
) -> OpenSitting:
    walk = tuple(in_order_of(row, list(panel.seats.all()), place))
    given = {sniff.seat_id for sniff in row.sniffs.all()}
    free_at = None if last is None else last + timedelta(minutes=panel.clean_air_min)
    return OpenSitting(
        sitting=row,
        walk=walk,
        ahead=tuple(seat for seat in walk if seat.pk not in given),
        given=tuple(seat for seat in walk if seat.pk in given),
        free_at=free_at if free_at is not None and free_at > now else None,
        air=now - last if last is not None and now - last <= AN_HOUR else None,
    )


def _last_sniffs(assessors: set[int], now: datetime) -> dict[int, datetime]:
    """When each nose sniffed last; a slip without its time does not tell."""
    since = now - LOOK_BACK
    rows = (
        Sniff.objects.filter(sitting__assessor__in=assessors, at__gte=since, is_timed=True)
        .order_by()
        .values_list("sitting__assessor")
        .annotate(last=Max("at"))
    )
    return dict(rows)
