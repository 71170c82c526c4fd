"""The workshop's address: shown, set by its owner, and asked at; and the answer that proves it."""

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.workshop.house import address as addresses
from throwbench.workshop.house.address_words import said_of
from throwbench.workshop.house.alive import Heard, answer_to
from throwbench.workshop.house.doors import network_addresses
from throwbench.workshop.house.forms_address import AddressForm
from throwbench.workshop.house.models import Role
from throwbench.workshop.house.web import done, now_of, who_of, workshop_of

LONGEST_NONCE = 64


@login_not_required
@require_GET
def alive(request: HttpRequest, nonce: str) -> HttpResponse:
    """What only this workshop can answer; whoever asks learns nothing else."""
    if len(nonce) > LONGEST_NONCE:
        raise Http404
    return HttpResponse(answer_to(nonce), content_type="text/plain; charset=ascii")


@require_http_methods(["GET", "POST"])
def address(request: HttpRequest) -> HttpResponse:
    """What is known of it; its owner takes one that is served, or types one, and it is asked at."""
    form = AddressForm(request.POST or None, initial={"address": workshop_of(request).address})
    if request.method == "POST" and done(form, lambda: _keep(request, form)):
        return _page(request, AddressForm(initial=form.cleaned_data), heard=_asked(request))
    return _page(request, form)


@require_POST
def check(request: HttpRequest) -> HttpResponse:
    """Ask at the address now."""
    if not workshop_of(request).address:
        return redirect("house:address")
    form = AddressForm(initial={"address": workshop_of(request).address})
    return _page(request, form, heard=_asked(request))


def _keep(request: HttpRequest, form: AddressForm) -> None:
    kept = addresses.keep_address(
        form.cleaned_data["address"], who=who_of(request), now=now_of(request)
    )
    request.workshop = kept  # type: ignore[attr-defined]
    form.cleaned_data["address"] = kept.address


def _asked(request: HttpRequest) -> Heard | None:
    return addresses.check_address(workshop_of(request), now=now_of(request))


def _page(request: HttpRequest, form: AddressForm, *, heard: Heard | None = None) -> HttpResponse:
    here, now = workshop_of(request), now_of(request)
    standing = addresses.standing_of(here, now=now)
    others = [one for one in network_addresses() if one != here.address]
    shown = {
        "form": form,
        "standing": standing,
        "said": said_of(heard, here.address) if heard else None,
        "is_well": heard == Heard.THIS,
        "is_open": bool(network_addresses()),
        "others": others,
        "may_set": who_of(request).role == Role.OWNER,
    }
    return render(request, "house/address.html", shown)
