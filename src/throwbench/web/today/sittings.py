"""Panels that are open: whose nose is still to come, and when it may go on."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from throwbench.verdict.words import listed, number
from throwbench.workshop.panel.selectors.sittings import OpenSitting, open_sittings


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One nose that has tags before it, in its own order."""

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
    found = groupby(open_sittings(now), key=lambda row: row.sitting.panel_id)
    return tuple(_panel(list(rows), now) for _, rows in found)


def _panel(rows: Sequence[OpenSitting], now: datetime) -> OpenPanel:
    panel = rows[0].sitting.panel
    waiting = (_waiting(row, now) for row in rows if row.comes)
    return OpenPanel(
        pk=panel.pk,
        trial_pk=panel.trial_id,
        trial=panel.trial.name,
        waiting=tuple(sorted(waiting, key=lambda row: (row.at, row.name))),
        noses=sum(not row.sits_out for row in rows),
    )


def _waiting(row: OpenSitting, now: datetime) -> Waiting:
    return Waiting(
        name=row.name,
        at=row.free_at or now,
        rooms=listed(list(dict.fromkeys(seat.room.name for seat in row.ahead))),
        tags=tuple(seat.tag for seat in row.ahead),
        answered=len(row.given),
        rests=row.free_at is not None,
    )


def noses_to_come(panels: Sequence[OpenPanel]) -> str:
    """'three noses are still to come'; empty where none is."""
    count = sum(len(panel.waiting) for panel in panels)
    if not count:
        return ""
    return f"{number(count)} nose{' is' if count == 1 else 's are'} still to come"
