"""Panels that are open: whose nose is still to come, and when it may go on."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from throwbench.verdict.words import listed, number
from throwbench.workshop.panel.models import Panel, Sitting


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One nose that has tags before it."""

    name: str
    at: datetime
    rooms: str
    tags: tuple[str, ...]
    answered: int
    rests: bool

    @property
    def chip(self) -> str:
        """'2 of 6 answered'."""
        return f"{self.answered} of {self.answered + len(self.tags)} answered"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenPanel:
    pk: int
    trial_pk: int
    trial: str
    waiting: tuple[Waiting, ...]
    noses: int

    @property
    def sentence(self) -> str:
        """'3 of 6 noses still to come'."""
        return f"{len(self.waiting)} of {self.noses} noses still to come"


def open_panels(now: datetime) -> tuple[OpenPanel, ...]:
    """Every open panel with who has still to answer; who sits out is not waited for."""
    found = (
        Panel.objects.filter(closed_at=None)
        .select_related("trial")
        .prefetch_related("seats__room", "sittings__assessor", "sittings__sniffs")
        .order_by("day", "id")
    )
    return tuple(_panel(panel, now) for panel in found)


def _panel(panel: Panel, now: datetime) -> OpenPanel:
    sit = [sitting for sitting in panel.sittings.all() if not sitting.sits_out]
    rows = [row for sitting in sit if (row := _waiting(panel, sitting, now))]
    return OpenPanel(
        pk=panel.pk,
        trial_pk=panel.trial_id,
        trial=panel.trial.name,
        waiting=tuple(sorted(rows, key=lambda row: (row.at, row.name))),
        noses=len(sit),
    )


def _waiting(panel: Panel, sitting: Sitting, now: datetime) -> Waiting | None:
    sniffs = list(sitting.sniffs.all())
    done = {sniff.seat_id for sniff in sniffs}
    ahead = [seat for seat in panel.seats.all() if seat.pk not in done]
    if not ahead:
        return None
    clean_air = timedelta(minutes=panel.clean_air_min)
    free_at = max((sniff.at + clean_air for sniff in sniffs), default=now)
    return Waiting(
        name=sitting.assessor.name,
        at=max(now, free_at),
        rooms=listed(list(dict.fromkeys(seat.room.name for seat in ahead))),
        tags=tuple(seat.tag for seat in ahead),
        answered=len(done),
        rests=free_at > now,
    )


def noses_to_come(panels: tuple[OpenPanel, ...]) -> str:
    """'three noses are still to come'; empty where none is."""
    count = sum(len(panel.waiting) for panel in panels)
    if not count:
        return ""
    return f"{number(count)} nose{' is' if count == 1 else 's are'} still to come"
