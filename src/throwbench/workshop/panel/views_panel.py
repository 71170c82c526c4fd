"""The maker's pages of panels: open one, its page, hand round, links, slips to print, close."""

from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.records.attribute import KINDS
from throwbench.science.errors import SaidError
from throwbench.workshop.house.doors import address_for_a_guest
from throwbench.workshop.house.selectors import people, rooms
from throwbench.workshop.house.square_code import square_code
from throwbench.workshop.house.typed_code import in_groups
from throwbench.workshop.house.web import done, now_of, today_of, who_of, workshop_of
from throwbench.workshop.panel import services
from throwbench.workshop.panel.forms_panel import PanelForm
from throwbench.workshop.panel.handing import hand_round as handed_on
from throwbench.workshop.panel.models import Asks, Panel, Sitting
from throwbench.workshop.panel.papers import front_tags_of, slips_of
from throwbench.workshop.panel.selectors.lit_words import lit_words
from throwbench.workshop.panel.selectors.panel_list import panels_of
from throwbench.workshop.panel.selectors.panel_page import panel_page
from throwbench.workshop.panel.selectors.places import blotter_places, candle_places
from throwbench.workshop.panel.services.noses import must_be_open
from throwbench.workshop.trials.models import Trial


@require_GET
def index(request: HttpRequest, trial: int) -> HttpResponse:
    """The panels of a trial."""
    of = get_object_or_404(Trial, pk=trial)
    panels = panels_of(of, page=request.GET.get("page", "1"))
    return render(request, "panel/index.html", {"trial": of, "panels": panels})


@require_http_methods(["GET", "POST"])
def new(request: HttpRequest, trial: int) -> HttpResponse:
    """Day, what is asked, which candles in which rooms, who sits."""
    of = get_object_or_404(Trial, pk=trial)
    blotter = (request.GET.get("from") or request.POST.get("asks")) == Asks.BLOTTER
    places = blotter_places(of) if blotter else candle_places(of, today_of(request))
    form = PanelForm(
        places, list(rooms()), list(people()), request.POST or None,
        blotter=blotter, today=today_of(request),
    )  # fmt: skip
    made: list[Panel] = []
    if request.method == "POST" and done(form, lambda: made.append(_opened(request, of, form))):
        return redirect("panel:panel", of.pk, made[0].pk)
    return render(request, "panel/new.html", {"trial": of, "form": form, "blotter": blotter})


@require_GET
def panel(request: HttpRequest, trial: int, pk: int) -> HttpResponse:
    """Which tag in front of what; who has answered."""
    return _page(request, _panel(trial, pk))


@require_POST
def hand_round(request: HttpRequest, trial: int, pk: int) -> HttpResponse:
    """From here on this browser is a phone that goes round; four digits, shown once, lead back."""
    row = _panel(trial, pk)
    try:
        must_be_open(row, now=now_of(request))
    except SaidError as error:
        return _page(request, row, said=str(error))
    code = handed_on(request, row, who_of(request))
    shown = {"code": code, "lit": lit_words(now_of(request))}
    return render(request, "panel/handed.html", shown)


@require_POST
def close(request: HttpRequest, trial: int, pk: int) -> HttpResponse:
    """No more answers; the last open panel opens the seal."""
    services.close_panel(_panel(trial, pk), who=who_of(request), now=now_of(request))
    return redirect("panel:panel", trial, pk)


@require_POST
def personal_link(request: HttpRequest, trial: int, pk: int, sitting: int) -> HttpResponse:
    """A link for one sitting, on this one answer and nowhere else."""
    row = get_object_or_404(_sittings(trial, pk), pk=sitting)
    address = address_for_a_guest(workshop_of(request))
    try:
        way = services.personal_way_in(row, now=now_of(request)) if address else None
    except SaidError as error:
        return _page(request, row.panel, said=str(error))
    shown = {"sitting": row, "panel": row.panel, "trial": row.panel.trial, "address": address}
    if way is not None:
        link = f"{address}/nose/by/{way.token}/"
        shown |= {"link": link, "code": square_code(link), "typed": in_groups(way.code)}
    return render(request, "panel/link.html", shown)


@require_POST
def sits_out(request: HttpRequest, trial: int, pk: int, sitting: int) -> HttpResponse:
    """An assessor sits out, or takes part after all."""
    row = get_object_or_404(_sittings(trial, pk), pk=sitting)
    services.sit_out(row, out=not row.sits_out, who=who_of(request), now=now_of(request))
    return redirect("panel:panel", trial, pk)


@require_GET
def slips_pdf(request: HttpRequest, trial: int, pk: int) -> HttpResponse:
    """Slips that are not answered yet, to print and cut."""
    row = _panel(trial, pk)
    try:
        return _pdf(slips_of(row, now_of(request)), "slips.pdf")
    except SaidError as error:
        return _page(request, row, said=str(error))


@require_GET
def front_tags_pdf(request: HttpRequest, trial: int, pk: int) -> HttpResponse:
    """Tags for the front of the candles, to print and cut."""
    return _pdf(front_tags_of(_panel(trial, pk)), "front-tags.pdf")


def _panel(trial: int, pk: int) -> Panel:
    return get_object_or_404(Panel.objects.select_related("trial"), pk=pk, trial=trial)


def _sittings(trial: int, pk: int) -> QuerySet[Sitting]:
    found = Sitting.objects.filter(panel=pk, panel__trial=trial)
    return found.select_related("panel__trial", "assessor")


def _page(request: HttpRequest, row: Panel, *, said: str = "") -> HttpResponse:
    page = panel_page(row, now_of(request))
    shown = {"page": page, "panel": row, "trial": row.trial, "said": said}
    shown["lit"] = lit_words(now_of(request))
    has_slips = KINDS[row.asks].has_slip
    return render(request, "panel/panel.html", {**shown, "has_slips": has_slips})


def _pdf(made: bytes, name: str) -> HttpResponse:
    answer = HttpResponse(made, content_type="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{name}"'
    return answer


def _opened(request: HttpRequest, trial: Trial, form: PanelForm) -> Panel:
    told = form.cleaned_data
    return services.open_panel(
        trial,
        day=told["day"],
        asks=told["asks"],
        seats=form.seats(),
        assessors=form.assessors(),
        clean_air_min=round(told["clean_air_min"]),
        who=who_of(request),
        now=now_of(request),
        entry=told["entry"],
    )
