"""The panels of a trial, newest first."""

from dataclasses import dataclass

from django.db.models import Count

from throwbench.science.words import counted
from throwbench.workshop.panel.models import Panel
from throwbench.workshop.trials.models import Trial


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelRow:
    panel: Panel
    said: str


def panels_of(trial: Trial) -> tuple[PanelRow, ...]:
    """Each panel with its counts, in one query."""
    found = trial.panels.order_by("-day", "-id").annotate(
        tags=Count("seats", distinct=True),
        noses=Count("sittings", distinct=True),
        sniffs=Count("sittings__sniffs", distinct=True),
    )
    return tuple(
        PanelRow(
            panel=panel,
            said=f"{counted(panel.tags, 'tag')}, {counted(panel.noses, 'nose')}, "
            f"{counted(panel.sniffs, 'sniff')}",
        )
        for panel in found
    )
