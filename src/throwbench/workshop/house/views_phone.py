"""Let a phone in: a one-time link as a square code, shown once."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_http_methods

from throwbench.workshop.house import sign_in
from throwbench.workshop.house.doors import (
    address_for_a_guest,
    address_for_a_phone,
    network_addresses,
)  # fmt: skip
from throwbench.workshop.house.forms_house import PhoneForm
from throwbench.workshop.house.square_code import square_code
from throwbench.workshop.house.typed_code import in_groups
from throwbench.workshop.house.web import now_of, who_of, workshop_of


@require_http_methods(["GET", "POST"])
def phone(request: HttpRequest) -> HttpResponse:
    """Who comes in, then the code. The link stands on this one answer and nowhere else."""
    address = address_for_a_phone(workshop_of(request))
    who = who_of(request)
    form = PhoneForm(who, request.POST or None, initial={"person": who.pk})
    shown = {"form": form, "address": address, "open": bool(network_addresses())}
    shown |= _trust(address_for_a_guest(workshop_of(request)))
    if address and request.method == "POST" and form.is_valid():
        person = form.cleaned_data["person"]
        way = sign_in.make_way_in(person, now=now_of(request))
        link = f"{address}/sign-in/{way.token}/"
        until = now_of(request) + sign_in.VALID
        shown |= {"person": person, "link": link, "code": square_code(link), "until": until}
        shown["typed"] = in_groups(way.code)
    return render(request, "house/phone.html", shown)


def _trust(plain: str) -> dict[str, object]:
    """What a phone trusts to come over https, and where it is shown how; empty without https."""
    if settings.AUTHORITY is None:
        return {}
    page = f"{plain}/trust/"
    return {"authority": settings.AUTHORITY, "trust": page, "trust_code": square_code(page)}
