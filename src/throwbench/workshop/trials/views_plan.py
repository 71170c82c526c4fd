"""The plan of a trial: oils, wicks and bands are added one line each; then it is fixed."""

from typing import Any

from django.db import transaction
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_POST

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.web import done, today_of
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.forms_plan import BandForm, CandidateForm, WickForm
from throwbench.workshop.trials.in_passing import (
    By,
    fixing_named,
    oil_named,
    oils_like,
    vessel_named,
    wax_named,
    wick_named,
)
from throwbench.workshop.trials.models import Candidate, Combination, Trial
from throwbench.workshop.trials.selectors.line_told import line_told
from throwbench.workshop.trials.selectors.plan_page import plan_page
from throwbench.workshop.trials.services import plan
from throwbench.workshop.trials.views_trials import by_of


@require_GET
def trial(request: HttpRequest, pk: int) -> HttpResponse:
    """The question, what is planned, and a line for the next oil, wick or band."""
    return _page(request, get_object_or_404(Trial, pk=pk))


@require_POST
def add_oil(request: HttpRequest, pk: int) -> HttpResponse:
    trial = get_object_or_404(Trial, pk=pk)
    form = CandidateForm(request.POST)
    meant, is_new = _meant(request.POST.get("meant", "")), "new" in request.POST
    unsure = form.is_valid() and not is_new and meant is None
    if unsure and (likely := oils_like(form.cleaned_data["oil"])):
        return _page(request, trial, oil_form=form, likely=likely)
    if done(form, lambda: _add_oil(trial, form.cleaned_data, by_of(request), meant)):
        return redirect(f"/trials/{pk}/#oils")
    return _page(request, trial, oil_form=form)


@require_POST
def take_out(request: HttpRequest, pk: int, candidate: int) -> HttpResponse:
    there = get_object_or_404(Candidate, pk=candidate, trial_id=pk)
    form = Form(request.POST)
    if done(form, lambda: plan.take_out(there, **by_of(request))):
        return redirect(f"/trials/{pk}/#oils")
    return _page(request, there.trial, fix_form=form)


@require_POST
def add_wick(request: HttpRequest, pk: int) -> HttpResponse:
    trial = get_object_or_404(Trial, pk=pk)
    form = WickForm(trial, request.POST)
    if done(form, lambda: _add_wick(trial, form.cleaned_data, by_of(request))):
        return redirect(f"/trials/{pk}/#oils")
    return _page(request, trial, wick_form=form)


@require_POST
def add_band(request: HttpRequest, pk: int) -> HttpResponse:
    trial = get_object_or_404(Trial, pk=pk)
    form = BandForm(request.POST)
    if done(form, lambda: plan.set_band(trial, **form.cleaned_data, **by_of(request))):
        return redirect(f"/trials/{pk}/#bands")
    return _page(request, trial, band_form=form)


@require_POST
def one_more(request: HttpRequest, pk: int, combination: int) -> HttpResponse:
    """One more test candle of a combination."""
    made = get_object_or_404(Combination, pk=combination, candidate__trial_id=pk)
    form = Form(request.POST)
    if done(form, lambda: plan.make_candle(made, **by_of(request))):
        return redirect(
            f"/trials/{pk}/pour/" if "to_pour" in request.POST else f"/trials/{pk}/#oils"
        )
    return _page(request, made.candidate.trial, fix_form=form)


@require_POST
def fix(request: HttpRequest, pk: int) -> HttpResponse:
    """The test candles get their codes."""
    trial = get_object_or_404(Trial, pk=pk)
    form = Form(request.POST)
    if done(form, lambda: plan.fix_plan(trial, **by_of(request))):
        return redirect("trials:pour", pk)
    return _page(request, trial, fix_form=form)


def _page(request: HttpRequest, trial: Trial, **forms: Any) -> HttpResponse:
    told = line_told(trial)
    shown: dict[str, Any] = {
        "trial": trial,
        "line_told": told,
        "page": plan_page(trial, today_of(request)),
        "oil_form": CandidateForm(),
        "wick_form": WickForm(trial, initial=told.initial if told else {}),
        "band_form": BandForm(),
        **forms,
    }
    return render(request, "trials/trial.html", shown)


def _meant(told: str) -> Oil | None:
    """The oil that a button of the question names."""
    return Oil.objects.filter(pk=int(told)).first() if told.isdecimal() else None


@transaction.atomic
def _add_oil(trial: Trial, told: dict[str, Any], by: By, meant: Oil | None) -> None:
    oil = meant or oil_named(told["oil"], by)
    plan.add_candidate(trial, oil=oil, role=told["role"], group=told["group"], **by)


@transaction.atomic
def _add_wick(trial: Trial, told: dict[str, Any], by: By) -> None:
    """For one oil, or for all that have none; a wick, wax or vessel is made in passing."""
    facts = {
        "wax": wax_named(told["wax"], by),
        "vessel": vessel_named(told["vessel"], by),
        "wick": wick_named(told["wick"], by),
        "fixing": fixing_named(told["fixing"], by),
        "load_percent": told["load_percent"],
        "fill_mg": trial.fill_mg,
    }
    for candidate in [told["candidate"]] if told["candidate"] else _without_wick(trial):
        made = plan.add_combination(candidate, **facts, **by)
        if trial.fixed_at is not None:  # a fixed plan has a test candle of everything in it
            plan.make_candle(made, **by)


def _without_wick(trial: Trial) -> list[Candidate]:
    found = list(trial.candidates.filter(combinations__isnull=True))
    if not found:
        raise UnclearError(
            "Every oil has a wick already.",
            "A second wick is added for one oil at a time.",
            "Choose the oil under “For”.",
        )
    return found
