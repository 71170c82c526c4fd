"""One oil: its page, its facts, its papers."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse

from throwbench.workshop.house.web import today_of
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.forms.oil import LineForm, OilChangeForm, OilForm, PaperForm
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.shelf.selectors import oil as about
from throwbench.workshop.shelf.selectors import papers
from throwbench.workshop.shelf.selectors.words import vanillin_words
from throwbench.workshop.shelf.views_pages import ask, by, either, kept, require_GET, sent

EVIDENCE = ("line/of_oil.html", "shelf/not_tried.html")
"""What a trial found of an oil is shown by whoever knows; the first of these that is there."""


HEAD = ("line/of_oil_head.html", "shelf/oil_head.html")
"""The same of the sentence at the top: what noses found, and below it what the papers say."""


@require_GET
def oil(request: HttpRequest, pk: int) -> HttpResponse:
    """What is known of an oil, what its papers say, and what happened to it."""
    found = get_object_or_404(about.whole_oils(), pk=pk)
    now_held = papers.papers_of(found, today=today_of(request))
    shown = {
        "oil": found,
        "sentence": about.oil_sentence(found, now_held),
        "said_back": about.line_said_back(found),
        "evidence": EVIDENCE,
        "head": HEAD,
        "papers": now_held,
        "older": papers.older_papers(found),
        "blend": about.blend_shown(found),
        "vanillin": vanillin_words(found.vanillin_percent),
        "soap": about.soap_rows(found),
        "soap_known": about.is_soap_known(found),
        "next": next_line(request),
        "history": about.oil_history(found),
    }
    return render(request, "shelf/oil.html", shown)


@either
def new(request: HttpRequest) -> HttpResponse:
    """The whole form."""
    form = OilForm(request.POST or None)
    made: list[Oil] = []
    if kept(request, form, lambda: made.append(services.add_oil(**_facts(form), **by(request)))):
        return redirect("shelf:oil", made[0].pk)
    return ask(
        request,
        form,
        say="Only the name is needed; what is not known stays open.",
        button="Put this oil on the shelf",
    )


@either
def change(request: HttpRequest, pk: int) -> HttpResponse:
    """Facts put right or taken from a new paper."""
    found = get_object_or_404(Oil.objects.select_related("supplier"), pk=pk)
    say, back = f"What is known of {found}.", (reverse("shelf:oil", args=[pk]), str(found))
    form = OilChangeForm.of(found, sent(request))
    if kept(request, form, lambda: services.change_oil(found, **_facts(form), **by(request))):
        return redirect("shelf:oil", pk)
    return ask(
        request,
        form,
        say=say,
        button="Keep these facts",
        back=back,
    )


@either
def paper_new(request: HttpRequest, pk: int) -> HttpResponse:
    """A paper that came, or was asked for."""
    found = get_object_or_404(Oil, pk=pk)
    form = PaperForm(request.POST or None)
    if kept(request, form, lambda: services.add_paper(found, **form.facts(), **by(request))):
        return redirect("shelf:oil", pk)
    return ask(
        request,
        form,
        say=f"A paper of {found}: it came, or was asked for.",
        button="Note this paper",
        back=(reverse("shelf:oil", args=[pk]), str(found)),
    )


def next_line(request: HttpRequest) -> dict[str, Any] | None:
    """The line for the next oil, on the page of one that has just come from its line."""
    if "new" not in request.GET:
        return None
    return {"form": LineForm(), "there": Oil.objects.count()}


def _facts(form: OilForm) -> dict[str, Any]:
    facts = form.facts()
    return {**facts, "supplier": services.supplier_named(facts["supplier"])}
