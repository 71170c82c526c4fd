"""What every request passes: headers, the clock, and who may see which pages."""

from collections.abc import Callable
from datetime import timedelta

from django.conf import settings
from django.db import connection
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from throwbench.web.entry.answer import broke
from throwbench.web.entry.sent import DOOR
from throwbench.web.errors import not_there
from throwbench.web.own_files import own_files
from throwbench.workshop.house.press import current_press
from throwbench.workshop.house.selectors import workshop
from throwbench.workshop.panel.road import PANEL

Handler = Callable[[HttpRequest], HttpResponse]

POLICY = (
    "default-src 'self'; img-src 'self' data: blob:; style-src 'self'; script-src 'self'; "
    "object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
NOSE = "/nose/"
"""Everything an assessor is sent lies under this address."""
ALARM = "/alarm/"
"""What is asked here is answered here: a script is never sent to another page."""
FOR_EVERYBODY = ("/static/", "/trust/", "/worker.js")
"""Says nothing about anybody."""
NEEDS_NONE = ("/begin/", DOOR, ALARM, *FOR_EVERYBODY, "/sign-in", "/sign-out/")
"""What can be asked for before the workshop has begun."""
READS = ("GET", "HEAD", "OPTIONS")
FREE_FOR_A_HANDED_PHONE = (NOSE, DOOR, ALARM, *FOR_EVERYBODY, "/way-back/")


def headers(get_response: Handler) -> Handler:
    """Nothing from elsewhere runs in a page, and no page is kept by who passes it on."""

    def handle(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        response.headers.setdefault("Content-Security-Policy", POLICY)
        response.headers.setdefault("Permissions-Policy", "geolocation=(), microphone=()")
        if not request.path.startswith("/static/"):
            response.headers.setdefault("Cache-Control", "private, no-store")
        return response

    return handle


def notes_are_here(get_response: Handler) -> Handler:
    """Nothing is sent to where nobody finds it again; an entry stays with who pressed it.

    A thread that has the notes open can still show them, with a word above.
    """

    def handle(request: HttpRequest) -> HttpResponse:
        only_shows = request.method in READS and connection.connection is not None
        trouble = "" if only_shows else own_files.trouble()
        if trouble and request.path == DOOR:
            return broke(None)
        if trouble:
            return render(request, "not_noted.html", {"trouble": trouble}, status=503)
        return get_response(request)

    return handle


def clock(get_response: Handler) -> Handler:
    """Set `request.now`; a demo has a time of its own. Pages speak in the workshop's zone."""

    def handle(request: HttpRequest) -> HttpResponse:
        offset_s = settings.DEMO_OFFSET_S
        now = timezone.now() + timedelta(seconds=offset_s or 0)
        press = current_press()
        request.now = press.pressed_at if press else now  # type: ignore[attr-defined]
        request.workshop = here = workshop()  # type: ignore[attr-defined]
        with timezone.override(here.zone if here else "UTC"):
            return get_response(request)

    return handle


def who_may(get_response: Handler) -> Handler:
    """Assessors see the assessor's road only; a phone handed round sees nothing else either."""

    def handle(request: HttpRequest) -> HttpResponse:
        if PANEL in request.session and not request.path.startswith(FREE_FOR_A_HANDED_PHONE):
            return redirect("panel:whose_nose")
        user = request.user
        if user.is_authenticated and not user.makes and not _for_all(request.path):
            if request.path == "/" and request.method == "GET":
                return redirect("panel:mine")
            return render(request, "not_yours.html", status=403)
        return get_response(request)

    return handle


def begun(get_response: Handler) -> Handler:
    """Before the workshop has begun, its owner meets one page only."""

    def handle(request: HttpRequest) -> HttpResponse:
        is_new = request.workshop is None  # type: ignore[attr-defined]
        if is_new and request.user.is_authenticated and not request.path.startswith(NEEDS_NONE):
            return redirect("house:begin")
        return get_response(request)

    return handle


class Unkeepable:
    """A number that the database cannot hold is no row's: what was asked for is not there."""

    def __init__(self, get_response: Handler) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        too_large = isinstance(error, OverflowError) and "SQLite" in str(error)
        return not_there(request, error) if too_large else None


def _for_all(path: str) -> bool:
    return path.startswith((NOSE, DOOR, *FOR_EVERYBODY, "/sign-in", "/sign-out/"))
