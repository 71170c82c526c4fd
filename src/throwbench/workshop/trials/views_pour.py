"""Pour day: the pitchers of a trial, and the bench of each one."""

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.science.units import grams_of, mg_of
from throwbench.workshop.house.entries import new_entry_id
from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.house.web import done
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.forms_candle import ReadingSlipForm
from throwbench.workshop.trials.forms_pour import (
    SURE,
    BeginForm,
    PouredForm,
    TemperatureForm,
    WeighForm,
)
from throwbench.workshop.trials.models import Candidate, Pour, Trial
from throwbench.workshop.trials.selectors.bench import Bench, bench_of
from throwbench.workshop.trials.selectors.pour_page import (
    behind_the_seal,
    next_for,
    pitchers,
    pour_said,
    waiting,
)
from throwbench.workshop.trials.selectors.readings import readings_of
from throwbench.workshop.trials.selectors.silent_cards import silent_cards
from throwbench.workshop.trials.services import pour as pouring
from throwbench.workshop.trials.services.readings import put_reading_right
from throwbench.workshop.trials.views_trials import by_of
from throwbench.workshop.trials.windows import AskedError

ASKED = "asked_%s"
"""Ids of the form that comes back: it stands beside others with the same fields."""


@require_GET
def pour_day(request: HttpRequest, pk: int) -> HttpResponse:
    """One card per pitcher, and the oils that wait for one."""
    trial = get_object_or_404(Trial, pk=pk)
    at_work, still = pitchers(trial), waiting(trial)
    shown: dict[str, Any] = {"trial": trial, "said": pour_said(at_work, still)}
    shown |= {"pitchers": at_work, "hidden": behind_the_seal(at_work), "waxes": silent_cards(trial)}
    shown["waiting"] = [(one, new_entry_id()) for one in still]
    return render(request, "trials/pour_day.html", shown)


@require_http_methods(["GET", "POST"])
def begin(request: HttpRequest, pk: int, candidate: int) -> HttpResponse:
    """A pitcher for one oil, with the load as planned."""
    found = Candidate.objects.select_related("trial__wax", "oil")
    member = get_object_or_404(found, pk=candidate, trial_id=pk)
    planned = next_for(member)
    if planned is None:
        return redirect("trials:pour", pk)
    wax, sums = planned
    form = BeginForm(member.oil_id, wax.pk, request.POST or None, initial=BeginForm.of(sums))
    made: list[Pour] = []
    if request.method == "POST" and done(
        form, lambda: made.append(_begin(request, member, wax, form))
    ):
        return redirect("trials:bench", pk, made[0].pk)
    shown = {"trial": member.trial, "candidate": member, "wax": wax, "sums": sums, "form": form}
    return render(request, "trials/begin_pour.html", shown)


@require_GET
def bench(request: HttpRequest, pk: int, pour: int) -> HttpResponse:
    """What to do now at this pitcher."""
    return _bench(request, _pour(pk, pour))


@require_POST
def weigh(request: HttpRequest, pk: int, pour: int, what: str) -> HttpResponse:
    """What the scale shows of wax or oil."""
    there, form = _pour(pk, pour), WeighForm(request.POST, auto_id=ASKED)
    return _asked(
        request,
        there,
        form,
        f"weigh_{what}",
        lambda sure: pouring.weigh(
            there,
            what=what,
            mg=mg_of(form.cleaned_data["grams"]) or 0,
            scale_step_mg=mg_of(form.cleaned_data["step_g"]),
            sure=sure,
            entry=form.cleaned_data["entry"],
            **by_of(request),
        ),
    )


@require_POST
def temperature(request: HttpRequest, pk: int, pour: int) -> HttpResponse:
    """One reading; outside the wax card's window the maker is asked."""
    there, form = _pour(pk, pour), TemperatureForm("", request.POST, auto_id=ASKED)
    return _asked(
        request,
        there,
        form,
        "temperature",
        lambda sure: pouring.read_temperature(
            there,
            step=form.cleaned_data["step"],
            celsius=form.cleaned_data["celsius"],
            instrument=form.cleaned_data["instrument"],
            sure=sure,
            entry=form.cleaned_data["entry"],
            **by_of(request),
        ),
    )


@require_POST
def poured(request: HttpRequest, pk: int, pour: int) -> HttpResponse:
    """These candles were poured, now."""
    there = _pour(pk, pour)
    form = PouredForm(there, request.POST, auto_id=ASKED)
    if there.poured_at is not None:  # pressed twice: the first press poured them
        return redirect("trials:bench", pk, pour)
    return _asked(
        request,
        there,
        form,
        "poured",
        lambda sure: pouring.pour_candles(
            there,
            candles=list(form.cleaned_data["candles"]),
            stirred_s=form.stirred_s,
            note=form.cleaned_data["note"],
            poured_on=form.cleaned_data["poured_on"],
            sure=sure,
            entry=form.cleaned_data["entry"],
            **by_of(request),
        ),
    )


@require_http_methods(["GET", "POST"])
def reading_slip(request: HttpRequest, pk: int, pour: int, reading: int) -> HttpResponse:
    """A temperature that was typed wrongly: the first figure stays visible."""
    there = _pour(pk, pour)
    wrong = get_object_or_404(there.temperatures.exclude(pk__in=_put_right(there)), pk=reading)
    form = ReadingSlipForm(request.POST or None)
    if request.method == "POST" and done(
        form, lambda: put_reading_right(wrong, **form.cleaned_data, **by_of(request))
    ):
        return redirect("trials:bench", pk, pour)
    shown = {"trial": there.candidate.trial, "pour": there, "reading": wrong, "form": form}
    return render(request, "trials/slip_reading.html", shown)


def _put_right(pour: Pour) -> list[int]:
    return [row.reading.pk for row in readings_of(pour) if row.wrong is not None]


def _asked(
    request: HttpRequest, pour: Pour, form: EntryForm, name: str, write: Callable[[bool], Any]
) -> HttpResponse:
    """Write; an unlikely figure comes back as a question with its guess ready to press."""
    asked: list[AskedError] = []

    def written() -> None:
        try:
            write(request.POST.get(SURE) == "typed")
        except AskedError as error:
            asked.append(error)
            raise

    if done(form, written):
        return redirect("trials:bench", pour.candidate.trial_id, pour.pk)
    return _bench(request, pour, {"form": form, "name": name, "question": asked and asked[0]})


def _begin(request: HttpRequest, member: Candidate, wax: Wax, form: BeginForm) -> Pour:
    told = form.cleaned_data
    return pouring.begin_pour(
        member,
        wax=wax,
        load_percent=told["load_percent"],
        basis=told["basis"],
        wax_mg=mg_of(told["wax_g"]),
        wax_lot=told["wax_lot"],
        oil_lot=told["oil_lot"],
        entry=told["entry"],
        **by_of(request),
    )


def _bench(request: HttpRequest, pour: Pour, asked: dict[str, Any] | None = None) -> HttpResponse:
    shown: Bench = bench_of(pour)
    wax, oil = ({"step_g": grams_of(shown.pitcher.steps.of(what))} for what in ("wax", "oil"))
    forms: dict[str, Any] = {
        "weigh": WeighForm(initial=shown.weigh_initial),
        "other_weigh": WeighForm(initial=oil if shown.weigh == "oil" else wax, auto_id="other_%s"),
        "again_weigh": WeighForm(initial=wax if shown.weigh else oil, auto_id="again_%s"),
        "wax_weigh": WeighForm(initial=wax, auto_id="wax_%s"),
        "temperature": TemperatureForm(shown.last, initial=shown.temperature_initial),
        "poured": PouredForm(pour),
    }
    context = {"trial": pour.candidate.trial, "bench": shown, **forms, "asked": asked}
    context["shows"] = [(celsius, new_entry_id()) for celsius in shown.shows]
    return render(request, "trials/bench.html", context)


def _pour(pk: int, pour: int) -> Pour:
    found = Pour.objects.select_related("candidate__trial", "candidate__oil", "wax")
    return get_object_or_404(found, pk=pour, candidate__trial_id=pk)
