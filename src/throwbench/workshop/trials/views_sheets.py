"""Sheets and tags as PDF; what is missing for one is said instead."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_GET

from throwbench.documents import pour_sheet as pour_sheets
from throwbench.documents import tags
from throwbench.science.errors import SaidError
from throwbench.workshop.house.before_paper import with_square_codes
from throwbench.workshop.house.web import today_of, workshop_of
from throwbench.workshop.trials import sheets
from throwbench.workshop.trials.models import Trial


@require_GET
def pour_sheet(request: HttpRequest, pk: int) -> HttpResponse:
    """What to weigh into each pitcher, with the gauge card."""
    trial, day = get_object_or_404(Trial, pk=pk), today_of(request)
    return _pdf(
        request,
        trial,
        "pour-sheet",
        lambda: pour_sheets.pour_sheet(
            sheets.pour_sheet_of(trial, here=workshop_of(request), day=day)
        ),
    )


@require_GET
@with_square_codes
def code_tags(request: HttpRequest, pk: int) -> HttpResponse:
    """For under the base; these name the oil."""
    trial, day = get_object_or_404(Trial, pk=pk), today_of(request)
    return _pdf(
        request,
        trial,
        "code-tags",
        lambda: tags.code_tags(sheets.code_tags_of(trial, here=workshop_of(request)), day=day),
    )


@require_GET
@with_square_codes
def shelf_tags(request: HttpRequest, pk: int) -> HttpResponse:
    """For the shelf of cure; these name no oil."""
    trial, day = get_object_or_404(Trial, pk=pk), today_of(request)
    return _pdf(
        request,
        trial,
        "shelf-tags",
        lambda: tags.shelf_tags(sheets.shelf_tags_of(trial, here=workshop_of(request)), day=day),
    )


def _pdf(request: HttpRequest, trial: Trial, name: str, made: Callable[[], bytes]) -> HttpResponse:
    try:
        pdf = made()
    except SaidError as error:
        shown = {"trial": trial, "sentence": str(error)}
        return render(request, "trials/no_sheet.html", shown, status=409)
    answer = HttpResponse(pdf, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{name}-{trial.pk}.pdf"'
    return answer
