"""Pages for what is not there, not allowed, not understood or broken."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string

from throwbench.web.entry.answer import NEW_KEY
from throwbench.workshop.house.press import current_press


def not_there(request: HttpRequest, exception: Exception) -> HttpResponse:
    return _page(request, 404, "There is no such page.", "Perhaps the address has a slip.")


def not_allowed(request: HttpRequest, exception: Exception) -> HttpResponse:
    return _page(request, 403, "This page is not open to you.", "Ask the owner of the workshop.")


def not_understood(request: HttpRequest, exception: Exception) -> HttpResponse:
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


def _page(request: HttpRequest, status: int, what: str, do: str) -> HttpResponse:
    return render(request, "said.html", {"what": what, "do": do}, status=status)
