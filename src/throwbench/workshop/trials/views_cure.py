"""The cure of a trial."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_GET

from throwbench.workshop.house.web import today_of
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.selectors.cure_page import cure_page


@require_GET
def cure(request: HttpRequest, pk: int) -> HttpResponse:
    """Day n of m per candle, the first to be ready first."""
    trial = get_object_or_404(Trial, pk=pk)
    return render(
        request, "trials/cure.html", {"trial": trial, "page": cure_page(trial, today_of(request))}
    )
