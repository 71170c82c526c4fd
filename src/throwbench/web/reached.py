"""Another device that opens a page at the workshop's address proves that it leads here."""

import errno
import socket
from collections.abc import Callable

from django.core.exceptions import DisallowedHost
from django.http import HttpRequest, HttpResponse

from throwbench.workshop.house.address import is_noted, note_reached
from throwbench.workshop.house.machine import netloc_of
from throwbench.workshop.house.press import current_press
from throwbench.workshop.house.selectors import workshop
from throwbench.workshop.house.web import now_of, workshop_of

Handler = Callable[[HttpRequest], HttpResponse]


def reached(get_response: Handler) -> Handler:
    """Note it once a day, of a browser that is let in: a name in a header is easily made up, but
    a browser that holds our cookie for a name went there by this name."""

    def handle(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        if _is_news(request) and _came_from_elsewhere(request):
            note_reached(workshop_of(request), now=now_of(request))
        return response

    return handle


def _is_news(request: HttpRequest) -> bool:
    here = workshop_of(request)
    if not here or not here.address or is_noted(here, now=now_of(request)):
        return False
    if not request.user.is_authenticated or current_press() is not None:
        return False
    try:
        return request.get_host().lower() in _names(here.address)
    except DisallowedHost:
        return False


def _names(address: str) -> tuple[str, ...]:
    """As a request names the address: browsers leave the usual port out, others say it."""
    name = netloc_of(address)
    return name, f"{name}:80", f"{name}:443"


def _came_from_elsewhere(request: HttpRequest) -> bool:
    """An address that this machine could listen at is its own; all others are of other devices."""
    came_from = request.META.get("REMOTE_ADDR", "")
    family = socket.AF_INET6 if ":" in came_from else socket.AF_INET
    try:
        with socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.bind((came_from.removeprefix("::ffff:"), 0))
    except OSError as error:
        return error.errno == errno.EADDRNOTAVAIL
    return False


def own_address() -> str:
    """The address that the maker gave the workshop; empty where there is none."""
    here = workshop()
    return here.address if here else ""
