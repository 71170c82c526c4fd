"""The shelf: its sentence, its sections, and the line that puts an oil on it."""

from datetime import timedelta
from typing import Any

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from throwbench.workshop.house.web import today_of
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.forms.oil import LineForm
from throwbench.workshop.shelf.models import Fixing
from throwbench.workshop.shelf.selectors import blends, lots, shelf, vessels, wax
from throwbench.workshop.shelf.services.oils import OilFromLine
from throwbench.workshop.shelf.views_pages import by, either, kept, require_GET

LATELY = timedelta(days=30)
NEWEST_LOTS, LOTS_A_PAGE, OILS_A_PAGE = 8, 100, 100


@either
def index(request: HttpRequest) -> HttpResponse:
    """Everything on the shelf; one line puts an oil on it."""
    form = LineForm(request.POST or None)
    made: list[OilFromLine] = []
    if kept(
        request,
        form,
        lambda: made.append(services.oil_from_line(form.cleaned_data["line"], **by(request))),
    ):
        return redirect(f"{reverse('shelf:oil', args=[made[0].oil.pk])}?new=1")
    return render(request, "shelf/index.html", _shown(request, form))


def _shown(request: HttpRequest, form: LineForm) -> dict[str, Any]:
    """What stands on the shelf; of a long list of oils one page."""
    today = today_of(request)
    page = Paginator(shelf.oils(), OILS_A_PAGE).get_page(request.GET.get("page"))
    return {
        "form": form,
        "sentence": shelf.overview(today),
        "news": shelf.news(today, since=today - LATELY),
        "page": page,
        "oils": shelf.oil_rows(today, page.object_list),
        "blends": blends.blend_rows(),
        "waxes": wax.wax_rows(),
        "wicks": shelf.wicks(),
        "vessels": vessels.vessels(),
        "fixings": Fixing.objects.all(),
        "lots": lots.lots()[:NEWEST_LOTS],
    }


@require_GET
def all_lots(request: HttpRequest) -> HttpResponse:
    """Every delivery, the newest first."""
    page = Paginator(lots.lots(), LOTS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "shelf/lots.html", {"page": page})
