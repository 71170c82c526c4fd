"""Wicks, fixings and lots."""

from typing import Any

from django.db.models import Model
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.forms.things import FixingForm, LotForm, WickForm
from throwbench.workshop.shelf.models import Oil, Vessel, Wax, Wick
from throwbench.workshop.shelf.views_pages import ask, by, either, kept, require_GET

MATERIALS: dict[str, type[Model]] = {"wax": Wax, "oil": Oil, "wick": Wick, "vessel": Vessel}
COUNTED = ("wick", "vessel")


@require_GET
def wick(request: HttpRequest, pk: int) -> HttpResponse:
    """A wick and its lots."""
    found = get_object_or_404(Wick.objects.select_related("supplier"), pk=pk)
    return render(request, "shelf/wick.html", {"wick": found, "lots": found.lots.all()})


@either
def wick_new(request: HttpRequest) -> HttpResponse:
    form = WickForm(request.POST or None)
    if kept(request, form, lambda: services.add_wick(**_wick(form), **by(request))):
        return redirect("shelf:index")
    return ask(
        request,
        form,
        say="A wick is a series and a size.",
        lead="Each size is a wick of its own, since each burns its own way.",
        button="Put this wick on the shelf",
    )


def _wick(form: WickForm) -> dict[str, Any]:
    facts = form.facts()
    return {**facts, "supplier": services.supplier_named(facts["supplier"])}


@either
def fixing_new(request: HttpRequest) -> HttpResponse:
    form = FixingForm(request.POST or None)
    if kept(request, form, lambda: services.add_fixing(**form.facts(), **by(request))):
        return redirect("shelf:index")
    return ask(
        request,
        form,
        say="A fixing holds the wick to the bottom, to the end.",
        button="Put this fixing on the shelf",
    )


@either
def lot_new(request: HttpRequest, material: str, pk: int) -> HttpResponse:
    """A delivery of one material."""
    if material not in MATERIALS:
        raise Http404
    found: Any = get_object_or_404(MATERIALS[material], pk=pk)
    form = LotForm(request.POST or None, is_counted=material in COUNTED)
    if kept(request, form, lambda: services.add_lot(found, **form.facts(), **by(request))):
        return redirect(f"shelf:{material}", pk)
    return ask(
        request,
        form,
        say=f"A lot of {found} came.",
        lead="A change of lot is the first thing to look at when a candle burns otherwise.",
        button="Note this lot",
        back=(reverse(f"shelf:{material}", args=[pk]), str(found)),
    )
