"""The panels of a trial, newest first, some at a time."""

from dataclasses import dataclass

from django.core.paginator import Page, Paginator
from django.db.models import Count

from throwbench.science.words import counted
from throwbench.workshop.panel.models import Panel, Sniff
from throwbench.workshop.trials.models import Trial

AT_A_TIME = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelRow:
    panel: Panel
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelList:
    rows: tuple[PanelRow, ...]
    page: Page[Panel]


def panels_of(trial: Trial, *, page: str = "1") -> PanelList:
    """One page of panels, each with its counts."""
    found = trial.panels.order_by("-day", "-id").prefetch_related("seats", "sittings")
    shown = Paginator(found, AT_A_TIME).get_page(page)
    sniffs = dict(
        Sniff.objects.filter(sitting__panel__in=[panel.pk for panel in shown])
        .order_by()
        .values_list("sitting__panel")
        .annotate(Count("id"))
    )
    rows = tuple(_row(panel, sniffs.get(panel.pk, 0)) for panel in shown)
    return PanelList(rows=rows, page=shown)


def _row(panel: Panel, sniffs: int) -> PanelRow:
    told = (
        counted(len(panel.seats.all()), "tag"),
        counted(len(panel.sittings.all()), "nose"),
        counted(sniffs, "sniff"),
    )
    return PanelRow(panel=panel, said=", ".join(told))
