"""One box for what stands on a tag, for a hand without a camera."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from throwbench.workshop.panel.road import Road
from throwbench.workshop.panel.selectors.found import as_printed, candle_of, panel_of
from throwbench.workshop.panel.views_nose import on_the_road

MISSING = 404


@require_GET
def find(request: HttpRequest) -> HttpResponse:
    """The maker types a code: a candle's leads to its page, a tag in front to its panel."""
    typed = request.GET.get("code", "").strip()
    candle = candle_of(typed)
    if candle is not None:
        return redirect("trials:candle", candle.code)
    panel = panel_of(typed)
    if panel is not None:
        return redirect("panel:panel", panel.trial_id, panel.pk)
    return render(request, "panel/find.html", {"typed": typed}, status=MISSING if typed else 200)


@require_GET
@on_the_road
def find_tag(request: HttpRequest, road: Road) -> HttpResponse:
    """A nose types the three digits in front of a candle, and scores it if it is one of its own."""
    if road.is_handed and not road.mine:
        return redirect("panel:whose_nose")
    typed = request.GET.get("tag", "").strip()
    found = road.seat(as_printed(typed), road.nose)
    if found is not None:
        return redirect("panel:score", found[1].tag)
    status = MISSING if typed else 200
    return render(request, "panel/find_tag.html", {"typed": typed, "road": road}, status=status)
