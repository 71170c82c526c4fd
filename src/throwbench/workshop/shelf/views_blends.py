"""Blends: made of oils; a used version gets a next one."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.forms.blend import HOW, BlendForm, PartsForm
from throwbench.workshop.shelf.models import Blend, Oil
from throwbench.workshop.shelf.selectors.blends import is_used
from throwbench.workshop.shelf.views_pages import ask, by, either, kept


@either
def new(request: HttpRequest) -> HttpResponse:
    """A blend of oils, dosed as one."""
    form = BlendForm(request.POST or None)
    made: list[Oil] = []
    if kept(
        request,
        form,
        lambda: made.append(
            services.add_blend(name=form.cleaned_data["name"], parts=form.parts, **by(request))
        ),
    ):
        return redirect("shelf:oil", made[0].pk)
    return ask(
        request,
        form,
        say="A blend is mixed by weight, and then dosed as one oil.",
        lead=HOW,
        button="Put this blend on the shelf",
    )


@either
def change(request: HttpRequest, pk: int) -> HttpResponse:
    """Other parts: in place, or as the next version of a used one."""
    blend = get_object_or_404(Blend.objects.select_related("oil"), oil=pk)
    form = PartsForm(request.POST) if request.method == "POST" else PartsForm.of(blend)
    made: list[Oil] = []
    if kept(request, form, lambda: made.append(_changed(request, blend, form))):
        return redirect("shelf:oil", made[0].pk)
    used = is_used(blend)
    return ask(
        request,
        form,
        say=f"{blend} is in use and stays as it is; other parts make the next version."
        if used
        else f"The parts of {blend}.",
        lead=HOW,
        button="Keep as the next version" if used else "Keep these parts",
        back=(reverse("shelf:oil", args=[pk]), str(blend)),
    )


def _changed(request: HttpRequest, blend: Blend, form: PartsForm) -> Oil:
    entry = form.cleaned_data["entry"]
    return services.change_parts(blend, parts=form.parts, entry=entry, **by(request))
