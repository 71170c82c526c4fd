"""Before a square code goes on paper: does its address lead to this workshop?"""

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from throwbench.workshop.house.address import Standing, check_address, standing_of
from throwbench.workshop.house.address_words import said_of
from throwbench.workshop.house.alive import Heard
from throwbench.workshop.house.web import now_of, workshop_of

P = ParamSpec("P")
View = Callable[Concatenate[HttpRequest, P], HttpResponse]
ANYWAY, FOR_SHOW_SEEN = "anyway", "address for show seen"
NO_ADDRESS = (
    "This workshop has no address, so that a square code has nowhere to lead.",
    "Set it first. Or print without square codes: what stands on a tag can be typed in instead.",
)
FOR_SHOW = (
    "The demo’s address is for show: names that end in .example lead nowhere.",
    "A workshop of your own has one that leads to it. The tags print all the same.",
)
NEVER_REACHED = (
    "{address} answers, but no other device has opened a page there yet.",
    "This machine can find itself where a phone cannot. Let a phone in once, and see that it gets "
    "here, before paper leads there for months.",
)


def with_square_codes(view: View[P]) -> View[P]:
    """Print at once where the address is good; else say what is wrong with it, and ask."""

    @wraps(view)
    def handle(request: HttpRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        if ANYWAY in request.GET:
            request.session[FOR_SHOW_SEEN] = True
            return view(request, *args, **kwargs)
        said = _in_the_way(request)
        if said is None:
            return view(request, *args, **kwargs)
        shown = {"said": said, "standing": _standing(request), "anyway": f"?{ANYWAY}=yes"}
        return render(request, "house/before_paper.html", shown, status=409)

    return handle


def _in_the_way(request: HttpRequest) -> tuple[str, str] | None:
    """What speaks against printing now: two sentences; None where nothing does."""
    standing = _standing(request)
    if not standing.address:
        return NO_ADDRESS
    if standing.is_for_show:
        return None if FOR_SHOW_SEEN in request.session else FOR_SHOW
    if not standing.is_fresh:
        heard = check_address(workshop_of(request), now=now_of(request))
        if heard is not None and heard != Heard.THIS:
            return said_of(heard, standing.address)
    if standing.reached_at is None:
        what, do = NEVER_REACHED
        return what.format(address=standing.address), do
    return None


def _standing(request: HttpRequest) -> Standing:
    return standing_of(workshop_of(request), now=now_of(request))
