"""The line: what is in it, and oils head to head."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from throwbench.workshop.line.compare import head_to_head, of_idea
from throwbench.workshop.line.line_page import line_page
from throwbench.workshop.line.selectors import last_judgement
from throwbench.workshop.line.views_verdict import opened
from throwbench.workshop.trials.models import Trial


@require_GET
def index(request: HttpRequest) -> HttpResponse:
    return render(request, "line/index.html", {"page": line_page()})


@require_GET
@opened
def compare(request: HttpRequest, trial: Trial, theme: str) -> HttpResponse:
    """The oils of one theme of a trial."""
    members = trial.candidates.filter(group=theme).select_related("oil")
    if not members:
        raise Http404
    judgement = last_judgement(trial)
    found = head_to_head(judgement, {str(one) for one in members}) if judgement else None
    told = {"found": [found] if found else [], "what": theme, "trial": trial}
    return render(request, "line/compare.html", told)


@require_GET
def compare_idea(request: HttpRequest) -> HttpResponse:
    """The oils of one idea, trial by trial."""
    idea = request.GET.get("idea", "").strip()
    found = list(of_idea(idea)) if idea else []
    return render(request, "line/compare.html", {"found": found, "what": idea})
