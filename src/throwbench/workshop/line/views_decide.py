"""Deciding: the whole pick in one press, or one oil by itself."""

from collections.abc import Sequence
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render

from throwbench.documents.words import keep_names_whole
from throwbench.verdict.words import listed, number
from throwbench.workshop.house.models import Entry
from throwbench.workshop.house.web import done, now_of, today_of, who_of
from throwbench.workshop.line import services
from throwbench.workshop.line.forms import DecideForm, JoinForm
from throwbench.workshop.line.joining import tried
from throwbench.workshop.line.pick import Waiting, decisions_of, wait_for, waiting
from throwbench.workshop.line.selectors import last_judgement, verdict_of
from throwbench.workshop.line.views_verdict import opened
from throwbench.workshop.trials.models import Candidate, Trial


@opened
def join(request: HttpRequest, trial: Trial) -> HttpResponse:
    """Each oil of the pick with what holds it, and one button for all of them."""
    judgement = last_judgement(trial)
    if judgement is None:
        return redirect("line:verdict", pk=trial.pk)
    pick = waiting(judgement, verdict_of(judgement), day=today_of(request))
    form = JoinForm(request.POST or None, pick=pick, judgement=judgement)
    if _pressed_before(form) or (form.is_bound and done(form, lambda: _join(request, trial, form))):
        return redirect("line:verdict", pk=trial.pk)
    told = {"trial": trial, "judgement": judgement, "pick": pick, "form": form}
    return render(request, "line/join.html", told | _words(form, pick), status=_status(form))


def _pressed_before(form: JoinForm) -> bool:
    """A second press of the same page finds the pick joined already."""
    if not form.is_bound:
        return False
    form.full_clean()
    entry = form.cleaned_data.get("entry")
    return entry is not None and Entry.objects.filter(pk=entry).exists()


def _words(form: JoinForm, pick: Sequence[Waiting]) -> dict[str, str]:
    """What the page says first, and what its button says will have happened."""
    count = len(form.pick)
    held = [one for one in pick if one.hold]
    cannot = len(pick) - count
    told = f"{number(cannot).capitalize()} cannot join." if cannot else ""
    if not pick:
        return {"sentence": "All of the pick is decided.", "risk": "", "press": ""}
    if count == 0:
        return {"sentence": "None of the pick can join now.", "risk": told, "press": ""}
    oils = [str(one.candidate) for one in form.pick]
    names = keep_names_whole(listed(oils), oils)
    joins = "joins" if count == 1 else "join"
    if held:
        told = f"{told} {number(len(held)).capitalize()} may not be sold yet.".strip()
    press = f"{names} joins the line" if count == 1 else f"These {number(count)} join the line"
    return {"sentence": f"{names} {joins} the line.", "risk": told, "press": press}


def _join(request: HttpRequest, trial: Trial, form: JoinForm) -> None:
    services.join_the_line(
        trial,
        chosen=form.chosen,
        why=form.cleaned_data["why"],
        who=who_of(request),
        now=now_of(request),
        entry=form.cleaned_data["entry"],
    )


@opened
def decide(request: HttpRequest, trial: Trial, candidate: int) -> HttpResponse:
    """One oil: joins the line, is tested again, or is dropped."""
    one = get_object_or_404(
        Candidate.objects.select_related("oil", "trial"), pk=candidate, trial=trial
    )
    its = tried(trial, day=today_of(request)).get(one.pk, ())
    wait = wait_for(one, its)
    form = DecideForm(request.POST or None, its=wait)
    if form.is_bound and done(form, lambda: _decide(request, one, form)):
        return redirect("line:verdict", pk=trial.pk)
    told: dict[str, Any] = {"trial": trial, "candidate": one, "its": its, "wait": wait}
    told["form"], told["judgement"] = form, last_judgement(trial)
    told["history"] = [made for made in decisions_of(trial) if made.candidate_id == one.pk]
    return render(request, "line/decide.html", told, status=_status(form))


def _decide(request: HttpRequest, candidate: Candidate, form: DecideForm) -> None:
    services.decide(
        candidate,
        outcome=form.cleaned_data["outcome"],
        combination=form.named,
        why=form.cleaned_data["why"],
        who=who_of(request),
        now=now_of(request),
        entry=form.cleaned_data["entry"],
    )


def _status(form: DecideForm | JoinForm) -> int:
    return 422 if form.errors else 200
