"""Whose a page is: entries and kept pages belong to a person, a handed phone or a link."""

import re
from functools import cache

from django.conf import settings
from django.http import HttpRequest
from django.utils.crypto import salted_hmac

from throwbench.workshop.panel.road import LINK, PANEL

PERSON, HANDED, BY_LINK = "person", "panel", "link"


def key_of(request: HttpRequest) -> str:
    """Whose the pages of this browser are now; empty where nobody was let in."""
    if PANEL in request.session:
        return f"{workshop_mark()}-{HANDED}-{request.session[PANEL]}"
    if LINK in request.session and not request.user.is_authenticated:
        return f"{workshop_mark()}-{BY_LINK}-{request.session[LINK][:12]}"
    return f"{workshop_mark()}-{PERSON}-{request.user.pk}" if request.user.is_authenticated else ""


def may_send(request: HttpRequest, key: str) -> bool:
    """Whether this browser may hand in what was kept under a key.

    What guests pressed on a phone that went round may be handed in by its maker, who has it back.
    """
    if key == key_of(request):
        return True
    user = request.user
    return bool(handed_panel(key) is not None and user.is_authenticated and user.makes)


def handed_panel(key: str) -> int | None:
    """The panel at which the phone went round; None for any other key."""
    found = re.fullmatch(rf"{workshop_mark()}-{HANDED}-([0-9]{{1,15}})", key)
    return int(found[1]) if found else None


def is_a_persons(key: str) -> bool:
    """Whether such entries may come of any page; all others come of the assessor's road alone."""
    return key.startswith(f"{workshop_mark()}-{PERSON}-")


@cache
def workshop_mark() -> str:
    """Tells this workshop from another that is served at the same address on another day."""
    return salted_hmac("throwbench.entry", settings.SECRET_KEY, algorithm="sha256").hexdigest()[:8]
