"""The trials, a new one, and what is set once for one."""

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_http_methods

from throwbench.workshop.house.web import done, now_of, sent, who_of
from throwbench.workshop.trials.forms_plan import TrialForm, WhyForm
from throwbench.workshop.trials.in_passing import By, vessel_named, wax_named
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.selectors.trial_list import trials
from throwbench.workshop.trials.services import plan

either = require_http_methods(["GET", "POST"])


@require_GET
def index(request: HttpRequest) -> HttpResponse:
    """All trials, or why to begin one."""
    return render(request, "trials/index.html", {"trials": trials()})


@either
def new(request: HttpRequest) -> HttpResponse:
    """A question, a number, a date."""
    form = TrialForm(request.POST or None)
    made: list[Trial] = []
    if request.method == "POST" and done(form, lambda: made.append(_planned(request, form))):
        return redirect("trials:trial", made[0].pk)
    return render(request, "trials/new.html", {"form": form})


@either
def change(request: HttpRequest, pk: int) -> HttpResponse:
    """The same for a trial that is there."""
    trial = get_object_or_404(Trial, pk=pk)
    form = TrialForm.of(trial, sent(request))
    if request.method == "POST" and done(form, lambda: _planned(request, form, trial)):
        return redirect("trials:trial", pk)
    return render(request, "trials/change.html", {"form": form, "trial": trial})


@either
def seal(request: HttpRequest, pk: int) -> HttpResponse:
    """Open the seal, with a reason that stays."""
    trial = get_object_or_404(Trial, pk=pk)
    form = WhyForm(request.POST or None)
    if request.method == "POST" and done(
        form,
        lambda: plan.break_seal(
            trial, why=form.cleaned_data["why"], who=who_of(request), now=now_of(request)
        ),
    ):
        return redirect("trials:trial", pk)
    return render(request, "trials/seal.html", {"form": form, "trial": trial})


def by_of(request: HttpRequest) -> By:
    return {"who": who_of(request), "now": now_of(request)}


@transaction.atomic
def _planned(request: HttpRequest, form: TrialForm, trial: Trial | None = None) -> Trial:
    """Make or change the trial; wax and vessel by their names."""
    by, told = by_of(request), form.cleaned_data
    facts = {
        **form.facts(),
        "wax": wax_named(told["wax"], by) if told["wax"] else None,
        "vessel": vessel_named(told["vessel"], by) if told["vessel"] else None,
    }
    if trial is None:
        return plan.plan_trial(**facts, **by)
    return plan.change_plan(trial, **facts, **by)
