"""Tells a browser's worker whose a page is, and whether it may be kept for when nobody answers."""

import re
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

from throwbench.web.entry.keys import key_of
from throwbench.workshop.panel.road import PANEL

Handler = Callable[[HttpRequest], HttpResponse]

KEY, KEEP = "X-Entry-Key", "X-Keep"
KEPT = re.compile(r"/|/round/|/waiting/|/nose/(?!by/).*|/trials/\d+/pour/\d+/")
"""Today, the burn round, what waits, a guest's road, and each bench."""
FOR_A_MAKER = ("/", "/round/", "/waiting/")
FOR_A_NOSE = ("/nose/mine/", "/waiting/")


def whose_page(get_response: Handler) -> Handler:
    """Say in each page's headers whose it is; empty where nobody is let in."""

    def handle(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        if request.method == "GET" and _is_page(response):
            response.headers[KEY] = key_of(request)
            if response.status_code == 200 and KEPT.fullmatch(request.path):
                response.headers[KEEP] = "yes"
        return response

    return handle


def worth_keeping(request: HttpRequest) -> tuple[str, ...]:
    """Pages that a browser fetches ahead, so that they open offline without a visit before."""
    if not key_of(request):
        return ()
    user = request.user
    if user.is_authenticated and user.makes and PANEL not in request.session:
        return FOR_A_MAKER
    return FOR_A_NOSE


def _is_page(response: HttpResponse) -> bool:
    kind = response.headers.get("Content-Type", "")
    redirects = 300 <= response.status_code < 400
    return kind.startswith("text/html") and not redirects and response.status_code < 500
