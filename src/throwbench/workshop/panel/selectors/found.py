"""Where a typed code leads: a candle's code to its page, a tag in front to its panel."""

from throwbench.workshop.panel.models import Panel, Seat
from throwbench.workshop.trials.models import TestCandle
from throwbench.workshop.trials.selectors import candle_named


def as_printed(typed: str) -> str:
    """Capitals without spaces and dashes, as a tag has them."""
    return "".join(sign for sign in typed.upper() if sign.isalnum())


def candle_of(typed: str) -> TestCandle | None:
    """The test candle with this code under its base."""
    return candle_named(as_printed(typed))


def panel_of(typed: str) -> Panel | None:
    """The panel with this tag in front: the open one; else the last that had it."""
    seats = Seat.objects.filter(tag=as_printed(typed)).select_related("panel")
    now_in_front = seats.filter(panel__closed_at=None).order_by("-panel_id").first()
    seat = now_in_front or seats.order_by("-panel__day", "-panel_id").first()
    return seat.panel if seat else None
