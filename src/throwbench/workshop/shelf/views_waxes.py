"""Waxes and their cards."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse

from throwbench.science.words import FIRE_LINE
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.forms.wax import WaxChangeForm, WaxForm
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.shelf.selectors import wax as about
from throwbench.workshop.shelf.selectors.oil import changes_of
from throwbench.workshop.shelf.views_pages import ask, by, either, kept, require_GET, sent

LEAD = (
    "The card comes with the wax. What it does not say stays empty, and is asked for when a "
    "pour needs it."
)


@require_GET
def wax(request: HttpRequest, pk: int) -> HttpResponse:
    """The wax card as one table."""
    found = get_object_or_404(Wax.objects.select_related("supplier"), pk=pk)
    shown = {
        "wax": found,
        "sentence": about.wax_sentence(found),
        "card": about.card_rows(found),
        "lots": found.lots.all(),
        "history": changes_of(found),
        "fire_line": FIRE_LINE,
    }
    return render(request, "shelf/wax.html", shown)


@either
def new(request: HttpRequest) -> HttpResponse:
    """A wax with what is known of its card."""
    form = WaxForm(request.POST or None)
    made: list[Wax] = []
    if kept(request, form, lambda: made.append(services.add_wax(**_card(form), **by(request)))):
        return redirect("shelf:wax", made[0].pk)
    return ask(
        request, form, say="A wax, as its card says.", lead=LEAD, button="Put this wax on the shelf"
    )


@either
def change(request: HttpRequest, pk: int) -> HttpResponse:
    """A new card, or a slip put right."""
    found = get_object_or_404(Wax.objects.select_related("supplier"), pk=pk)
    form = WaxChangeForm.of(found, sent(request))
    say, back = f"The card of {found}.", (reverse("shelf:wax", args=[pk]), str(found))
    if kept(request, form, lambda: services.change_wax(found, **_card(form), **by(request))):
        return redirect("shelf:wax", pk)
    return ask(
        request,
        form,
        say=say,
        lead=LEAD,
        button="Keep this card",
        back=back,
    )


def _card(form: WaxForm) -> dict[str, Any]:
    card = form.facts()
    return {**card, "supplier": services.supplier_named(card["supplier"])}
