"""Vessels, and single pieces with what is wrong with them."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.forms.things import (
    FlawForm,
    FlawRightForm,
    PieceForm,
    VesselChangeForm,
    VesselForm,
    WashForm,
)
from throwbench.workshop.shelf.models import Piece, Vessel
from throwbench.workshop.shelf.selectors import vessels as about
from throwbench.workshop.shelf.selectors.oil import changes_of
from throwbench.workshop.shelf.views_pages import (
    ask,
    by,
    either,
    kept,
    require_GET,
    require_POST,
    sent,
)


@require_GET
def vessel(request: HttpRequest, pk: int) -> HttpResponse:
    """A kind of vessel, and its named pieces."""
    found = get_object_or_404(Vessel, pk=pk)
    shown = {
        "vessel": found,
        "sentence": about.vessel_sentence(found),
        "pieces": about.piece_rows(found),
        "lots": found.lots.all(),
        "history": changes_of(found),
    }
    return render(request, "shelf/vessel.html", shown)


@either
def new(request: HttpRequest) -> HttpResponse:
    form = VesselForm(request.POST or None)
    made: list[Vessel] = []
    if kept(request, form, lambda: made.append(services.add_vessel(**form.facts(), **by(request)))):
        return redirect("shelf:vessel", made[0].pk)
    return ask(
        request,
        form,
        say="A kind of vessel; its inside diameter says most about its wick.",
        button="Put this vessel on the shelf",
    )


@either
def change(request: HttpRequest, pk: int) -> HttpResponse:
    found = get_object_or_404(Vessel, pk=pk)
    form = VesselChangeForm.of(found, sent(request))
    say, back = f"The measures of {found}.", (reverse("shelf:vessel", args=[pk]), str(found))
    if kept(request, form, lambda: services.change_vessel(found, **form.facts(), **by(request))):
        return redirect("shelf:vessel", pk)
    return ask(request, form, say=say, button="Keep these measures", back=back)


@either
def piece_new(request: HttpRequest, pk: int) -> HttpResponse:
    found = get_object_or_404(Vessel, pk=pk)
    form = PieceForm(request.POST or None)
    if kept(request, form, lambda: services.add_piece(found, **form.facts(), **by(request))):
        return redirect("shelf:vessel", pk)
    return ask(
        request,
        form,
        say=f"One single {found}, with a name of its own, so that a flaw is remembered.",
        button="Name this vessel",
        back=(reverse("shelf:vessel", args=[pk]), str(found)),
    )


@either
def piece(request: HttpRequest, pk: int) -> HttpResponse:
    """One piece: washed, and what was seen on it."""
    found = get_object_or_404(about.pieces(), pk=pk)
    form = FlawForm(found.flaw, request.POST or None)
    if kept(request, form, lambda: services.note_flaw(found, **form.facts(), **by(request))):
        return redirect("shelf:piece", pk)
    found.refresh_from_db()
    shown = {
        "piece": found,
        "sentence": about.piece_sentence(found),
        "washed": about.washed_words(found.times_washed),
        "form": form,
        "wash": WashForm(auto_id="wash_%s"),
        "history": changes_of(found),
    }
    return render(request, "shelf/piece.html", shown)


@require_POST
def wash(request: HttpRequest, pk: int) -> HttpResponse:
    """Washed once more."""
    found = get_object_or_404(Piece, pk=pk)
    form = WashForm(request.POST)
    kept(
        request,
        form,
        lambda: services.wash(found, entry=form.cleaned_data["entry"], **by(request)),
    )
    return redirect("shelf:piece", pk)


@either
def flaw_right(request: HttpRequest, pk: int) -> HttpResponse:
    """A flaw that was noted by mistake."""
    found = get_object_or_404(Piece, pk=pk)
    form = FlawRightForm(request.POST or None)
    if kept(request, form, lambda: services.put_flaw_right(found, **form.facts(), **by(request))):
        return redirect("shelf:piece", pk)
    return ask(
        request,
        form,
        say=f"The flaw of {found} was noted by mistake: say why.",
        lead="A real flaw is never taken back: a chip does not heal.",
        button="Put the flaw right",
        back=(reverse("shelf:piece", args=[pk]), str(found)),
    )
