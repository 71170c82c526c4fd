"""Pages for what is not there, not allowed, not understood or broken."""

from django.conf import settings
from django.core.exceptions import DisallowedHost
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string

from throwbench import __version__
from throwbench.web.entry.answer import NEW_KEY
from throwbench.workshop.house.press import current_press

LONGEST_NAME = 100
"""Characters of a name in a header that are said again."""


def not_there(request: HttpRequest, exception: Exception) -> HttpResponse:
    return _page(request, 404, "There is no such page.", "Perhaps the address has a slip.")


def not_allowed(request: HttpRequest, exception: Exception) -> HttpResponse:
    return _page(request, 403, "This page is not open to you.", "Ask the owner of the workshop.")


def not_understood(request: HttpRequest, exception: Exception) -> HttpResponse:
    if isinstance(exception, DisallowedHost):
        return _at_another_name(request)
    return _page(request, 400, "That was not understood.", "Go back and try once more.")


def not_sent(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form without its own key: an old page, or one that is not ours."""
    press = current_press()
    if press is not None:
        press.refused = NEW_KEY
    return _page(
        request,
        403,
        "This page was open too long, so nothing was noted.",
        "Go back, load the page anew, and send it once more.",
    )


def broke(request: HttpRequest) -> HttpResponse:
    """Without the frame: whatever broke may be in it."""
    return HttpResponse(render_to_string("broke.html"), status=500)


def _at_another_name(request: HttpRequest) -> HttpResponse:
    """Without the frame: its links would lead to the same name. A closed server is asked from its
    own machine only."""
    asked = request.META.get("HTTP_HOST", "")
    addresses = settings.NETWORK_ADDRESSES or [f"http://127.0.0.1:{request.get_port()}"]
    shown = {
        "name": asked if len(asked) <= LONGEST_NAME else f"{asked[:LONGEST_NAME]}…",
        "addresses": addresses,
        "version": __version__,
        "path": request.get_full_path() if request.method == "GET" else "/",
    }
    return HttpResponse(render_to_string("other_name.html", shown), status=400)


def _page(request: HttpRequest, status: int, what: str, do: str) -> HttpResponse:
    """On the road of a nose it leads back to it; elsewhere to the maker's page."""
    frame = "said_to_a_nose.html" if request.path.startswith("/nose/") else "said.html"
    return render(request, frame, {"what": what, "do": do}, status=status)
