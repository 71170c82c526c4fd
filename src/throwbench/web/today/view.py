"""Today's page."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from throwbench.web.today.page import today
from throwbench.workshop.house.web import now_of


@require_GET
def page(request: HttpRequest) -> HttpResponse:
    """What is due, in the order of the clock."""
    return render(request, "today.html", {"today": today(now_of(request))})
