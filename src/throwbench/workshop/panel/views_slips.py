"""Slips on paper: whose, typed in fast, and put right."""

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_http_methods

from throwbench.workshop.house.web import done, now_of, who_of
from throwbench.workshop.panel import services
from throwbench.workshop.panel.asks import asked
from throwbench.workshop.panel.forms_slips import PutRightForm, SlipsForm
from throwbench.workshop.panel.models import Panel, Sitting, Sniff, Way
from throwbench.workshop.panel.selectors import sittings_of


@require_GET
def slips(request: HttpRequest, trial: int, pk: int) -> HttpResponse:
    """Whose slips? The next one first."""
    panel = _panel(trial, pk)
    rows = sittings_of(panel, now_of(request))
    shown = {"panel": panel, "trial": panel.trial, "rows": rows}
    return render(request, "panel/slips.html", shown)


@require_http_methods(["GET", "POST"])
def slips_by(request: HttpRequest, trial: int, pk: int, sitting: int) -> HttpResponse:
    """One assessor's slips, a row for each tag."""
    panel = _panel(trial, pk)
    rows = sittings_of(panel, now_of(request))
    row = next((one for one in rows if one.sitting.pk == sitting), None)
    if row is None:
        raise Http404
    today = {"tired": row.sitting.tired, "perfume": row.sitting.perfume}
    questions = asked(panel.asks, panel.trial)
    form = SlipsForm(questions, row.ahead, request.POST or None, initial=today)
    if request.method == "POST" and done(form, lambda: _typed(request, row.sitting, form)):
        return redirect("panel:slips", trial, pk)
    shown = {"panel": panel, "trial": panel.trial, "row": row, "form": form}
    return render(request, "panel/slips_by.html", shown)


@require_http_methods(["GET", "POST"])
def put_right(request: HttpRequest, trial: int, pk: int, sniff: int) -> HttpResponse:
    """A slip was typed wrong: the first entry stays beside it, with the reason."""
    panel = _panel(trial, pk)
    row = get_object_or_404(_open_to_the_maker(panel), pk=sniff)
    questions = asked(panel.asks, panel.trial)
    form = (
        PutRightForm(questions, request.POST)
        if request.method == "POST"
        else PutRightForm.of(row, questions)
    )
    if request.method == "POST" and done(form, lambda: _put_right(request, row, form)):
        return redirect("panel:panel", trial, pk)
    shown = {"panel": panel, "trial": panel.trial, "sniff": row, "form": form}
    return render(request, "panel/put_right.html", shown)


def _open_to_the_maker(panel: Panel) -> QuerySet[Sniff]:
    """Slips, which the maker has in the hand; all others once the panel is closed and unsealed."""
    found = Sniff.objects.filter(seat__panel=panel)
    found = found.select_related("seat__panel__trial", "sitting__assessor")
    shows = panel.closed_at is not None and not panel.trial.is_sealed
    return found if shows else found.filter(way=Way.SLIP)


def _typed(request: HttpRequest, sitting: Sitting, form: SlipsForm) -> None:
    services.type_slips(
        sitting,
        form.slips(),
        tired=form.cleaned_data["tired"],
        perfume=form.cleaned_data["perfume"],
        who=who_of(request),
        now=now_of(request),
        entry=form.cleaned_data["entry"],
    )


def _put_right(request: HttpRequest, row: Sniff, form: PutRightForm) -> None:
    services.put_slip_right(
        row,
        scores=form.scores(),
        word=form.cleaned_data["word"],
        why=form.cleaned_data["why"],
        who=who_of(request),
        now=now_of(request),
    )


def _panel(trial: int, pk: int) -> Panel:
    return get_object_or_404(Panel.objects.select_related("trial"), pk=pk, trial=trial)
