"""A guest who is not on the list types a name; one that is known already is asked about."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from throwbench.workshop.house.models import Person
from throwbench.workshop.house.web import done, now_of
from throwbench.workshop.panel import handing, services
from throwbench.workshop.panel.forms_score import SomeoneElseForm
from throwbench.workshop.panel.models import Panel, Sitting
from throwbench.workshop.panel.road import NOSE, PANEL, Road
from throwbench.workshop.panel.views_nose import on_the_road


@require_http_methods(["GET", "POST"])
@on_the_road
def someone_else(request: HttpRequest, road: Road) -> HttpResponse:
    """A name nobody has sits down; a known one is asked about before anybody becomes it."""
    panel = road.panel
    if panel is None or PANEL not in request.session:
        return redirect("panel:mine")
    form = SomeoneElseForm(request.POST or None)
    known = services.called(form.cleaned_data["name"]) if form.is_valid() else None
    if known is not None:
        return _is_it_you(request, panel, form, known)
    if request.method == "POST" and done(form, lambda: _join(request, panel, form)):
        return redirect("panel:mine")
    return render(request, "panel/someone_else.html", {"form": form})


def _is_it_you(
    request: HttpRequest, panel: Panel, form: SomeoneElseForm, known: Person
) -> HttpResponse:
    """Scores of one nose are booked to no other by a slip; a maker says the four digits."""
    is_the_same, tried = form.cleaned_data["same"], handing.state(request, now_of(request))
    if is_the_same and known.makes:
        tried = handing.maker_is_here(request, form.cleaned_data["code"], now_of(request))
    if is_the_same and (tried.person is not None or not known.makes):
        _sits(request, services.sit_down(panel, known, now=now_of(request)))
        return redirect("panel:mine")
    shown = {"form": form, "known": known, "tried": tried, "was_wrong": is_the_same}
    return render(request, "panel/is_it_you.html", shown)


def _join(request: HttpRequest, panel: Panel, form: SomeoneElseForm) -> None:
    name = form.cleaned_data["name"]
    _sits(request, services.join(panel, name=name, now=now_of(request)))


def _sits(request: HttpRequest, sitting: Sitting) -> None:
    request.session[NOSE] = sitting.assessor_id
