"""The assessor's road: whose phone this is, and which tags are open on it.

Three ways lead here: a phone handed round, a personal link, or being signed in. Nothing on the
road, addresses included, holds more of a candle than its tag and its room.
"""

from dataclasses import dataclass
from datetime import datetime

from django.http import HttpRequest

from throwbench.workshop.house.press import current_press
from throwbench.workshop.house.web import now_of
from throwbench.workshop.panel.models import Panel, Seat, Sitting, Way
from throwbench.workshop.panel.selectors import OpenSitting, open_sittings, sittings_of
from throwbench.workshop.panel.selectors.whose_nose import seats_ahead
from throwbench.workshop.panel.services.links import KEPT_AS

PANEL, NOSE, LINK, SENT = "panel", "nose", KEPT_AS, "answered"
"""What a browser keeps: the panel it is handed round at, who holds it, its link, and of the last
answer its nose and tag."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Road:
    """Sittings this browser may answer for; one of them holds the phone, or nobody yet."""

    way: str
    sittings: tuple[OpenSitting, ...]
    nose: int | None
    now: datetime
    """When something is pressed on it."""
    panel: Panel | None = None
    is_by_link: bool = False

    @property
    def is_handed(self) -> bool:
        return self.way == Way.HAND_ROUND

    @property
    def is_closed(self) -> bool:
        """The panel of the round, or of the link, had ended by then."""
        return self.panel is not None and self.panel.is_closed_for(self.now)

    @property
    def seats_ahead(self) -> tuple[Seat, ...]:
        """What who holds the phone has still to sniff, the next one first."""
        return seats_ahead(self.mine)

    @property
    def mine(self) -> tuple[OpenSitting, ...]:
        """The sittings of who holds the phone: first those at which an answer is awaited."""
        return tuple(sorted(self.of(self.nose), key=lambda row: (not row.comes, row.is_done)))

    def of(self, nose: int | None) -> tuple[OpenSitting, ...]:
        return tuple(row for row in self.sittings if row.sitting.assessor_id == nose)

    def seat(self, tag: str, nose: int | None) -> tuple[OpenSitting, Seat] | None:
        """The seat with this tag in a sitting of that nose."""
        for row in self.of(nose):
            for seat in (*row.ahead, *row.given):
                if seat.tag == tag:
                    return row, seat
        return None


def road_of(request: HttpRequest) -> Road | None:
    """The road of this browser; None where there is none."""
    now = now_of(request)
    panel = _panel_round(request)
    if panel is not None:
        return _handed(request, panel, now)
    linked = by_link(request.session.get(LINK, ""), now)
    if linked is not None:
        return linked
    if request.user.is_authenticated:
        nose = request.user.pk
        own = tuple(row for row in open_sittings(now) if row.sitting.assessor_id == nose)
        return Road(way=Way.LINK, sittings=own, nose=nose, now=now)
    return _of_an_ended_link(request.session.get(LINK, ""), now)


def _panel_round(request: HttpRequest) -> int | None:
    """The panel at which this phone goes round, or went when the entry that comes was pressed."""
    press = current_press()
    if press is not None and press.panel is not None:
        return press.panel
    return request.session.get(PANEL)


def _handed(request: HttpRequest, pk: int, now: datetime) -> Road | None:
    panel = Panel.objects.select_related("trial").filter(pk=pk).first()
    if panel is None:
        return None
    open_ones = () if panel.is_closed_for(now) else sittings_of(panel, now)
    nose = request.session.get(NOSE)
    return Road(way=Way.HAND_ROUND, sittings=open_ones, nose=nose, now=now, panel=panel)


def by_link(digest: str, now: datetime) -> Road | None:
    """The road of a personal link; None where it opens nothing any more."""
    found = Sitting.objects.filter(link_hash=digest)
    sitting = found.select_related("panel").first() if digest else None
    if sitting is None or sitting.panel.is_closed_for(now):
        return None
    rows = sittings_of(sitting.panel, now)
    own = tuple(row for row in rows if row.sitting.pk == sitting.pk)
    return Road(way=Way.LINK, sittings=own, nose=sitting.assessor_id, now=now, is_by_link=True)


def _of_an_ended_link(digest: str, now: datetime) -> Road | None:
    """A link whose panel was closed: its guest is thanked, not sent away."""
    found = Sitting.objects.filter(link_hash=digest) if digest else Sitting.objects.none()
    sitting = found.select_related("panel").first()
    if sitting is None:
        return None
    return Road(way=Way.LINK, sittings=(), nose=None, now=now, panel=sitting.panel)
