"""The verdict of a trial: shown as it was kept, asked for by a button, and on paper."""

from collections.abc import Callable
from datetime import date
from functools import wraps
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_POST

from throwbench.documents.nameless import assessors
from throwbench.science.errors import SaidError
from throwbench.science.words import plain
from throwbench.verdict.speech import BEFORE_NEXT
from throwbench.workshop.house.web import now_of, who_of
from throwbench.workshop.line import services
from throwbench.workshop.line.because import because
from throwbench.workshop.line.beside import with_the_shelf
from throwbench.workshop.line.drawings import strips_of
from throwbench.workshop.line.findings import findings_of, noses_of
from throwbench.workshop.line.missing import missing_of
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.page import page_of
from throwbench.workshop.line.pick import decisions_of
from throwbench.workshop.line.plain_problems import plainly
from throwbench.workshop.line.selectors import last_decisions, last_judgement, local_day
from throwbench.workshop.line.since import changed_since
from throwbench.workshop.trials.models import Trial

View = Callable[..., HttpResponse]


def opened(view: View) -> View:
    """The trial of the address; one that is sealed shows no names, so it has no verdict yet."""

    @wraps(view)
    def handle(request: HttpRequest, pk: int, **more: Any) -> HttpResponse:
        trial = get_object_or_404(Trial, pk=pk)
        if trial.is_sealed:
            return render(request, "line/sealed.html", {"trial": trial}, status=403)
        return view(request, trial, **more)

    return handle


@require_GET
@opened
def verdict(request: HttpRequest, trial: Trial) -> HttpResponse:
    """The last judgement; nothing is judged here."""
    return _page(request, trial)


@require_POST
@opened
def ask(request: HttpRequest, trial: Trial) -> HttpResponse:
    """Judge the notes as they are now, and draw the chart."""
    try:
        _draw(services.ask_verdict(trial, who=who_of(request), now=now_of(request)))
    except SaidError as error:
        return _page(request, trial, refused=str(error), status=422)
    return redirect("line:verdict", pk=trial.pk)


def _draw(judgement: Judgement) -> None:
    """Ahead of the page, which then only reads what is kept."""
    strips_of(judgement)
    because(judgement, plainly(judgement))


def _page(
    request: HttpRequest, trial: Trial, *, refused: str = "", status: int = 200
) -> HttpResponse:
    judgement = last_judgement(trial)
    told: dict[str, Any] = {"trial": trial, "refused": refused, "before_next": BEFORE_NEXT}
    if judgement is None:
        told["missing"] = missing_of(trial)
        return render(request, "line/no_verdict.html", told, status=status)
    found = with_the_shelf(plainly(judgement), trial, today=local_day(now_of(request)))
    history = list(decisions_of(trial))
    told["page"] = page_of(
        judgement,
        found,
        strips_of(judgement),
        candidates=list(trial.candidates.select_related("oil")),
        decisions=list(last_decisions(history)),
        reader=who_of(request),
    )
    told["tried_with"] = tried_with(trial)
    told["history"], told["since"] = history, changed_since(judgement)
    names = sorted(assessors(found, noses_of(trial)))
    told["archive_name"] = _name(judgement, ".zip")
    told["findings"] = findings_of(found, trial, reader=who_of(request), assessors=names)
    told["themes"] = _themes(trial)
    return render(request, "line/verdict.html", told, status=status)


def tried_with(trial: Trial) -> str:
    """'8 % of wax, R-36, stoneware cup': what the plan sets for all."""
    load = f"{plain(trial.load_percent)} % of wax" if trial.load_percent else ""
    return ", ".join(str(one) for one in (load, trial.wax, trial.vessel) if one)


def _themes(trial: Trial) -> list[str]:
    groups = list(trial.candidates.exclude(group="").values_list("group", flat=True))
    return sorted({group for group in groups if groups.count(group) > 1})


def paper(kind: str, make: Callable[[Judgement, date], bytes], name: str) -> View:
    """A view that hands out one paper of the last judgement."""

    @require_GET
    @opened
    def handle(request: HttpRequest, trial: Trial) -> HttpResponse:
        judgement = last_judgement(trial)
        if judgement is None:
            return redirect("line:verdict", pk=trial.pk)
        return _file(
            make(judgement, local_day(now_of(request))), kind=kind, name=_name(judgement, name)
        )

    return handle


@require_GET
@opened
def archive(request: HttpRequest, trial: Trial, judgement: int) -> HttpResponse:
    """The notes that one judgement rests on, for as long as the folder is kept."""
    kept = get_object_or_404(Judgement, pk=judgement, trial=trial)
    return _file(bytes(kept.archive), kind="application/zip", name=_name(kept, ".zip"))


def _file(content: bytes, *, kind: str, name: str) -> HttpResponse:
    inline = kind in ("application/pdf", "image/png")
    response = HttpResponse(content, content_type=kind)
    response["Content-Disposition"] = f'{"inline" if inline else "attachment"}; filename="{name}"'
    return response


def _name(judgement: Judgement, end: str) -> str:
    return f"{_plain(judgement.trial.name)}-{judgement.day}{end}"


def _plain(name: str) -> str:
    """A name that every machine takes for a file's."""
    kept = "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in name)
    return "-".join(filter(None, kept.casefold().split("-"))) or "trial"
