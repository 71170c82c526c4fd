"""Pages whose forms no device keeps for later: signing in is for now, by the workshop's clock."""

from collections.abc import Callable
from functools import wraps

from django.http import HttpRequest, HttpResponse

from throwbench.workshop.house.press import current_press

View = Callable[[HttpRequest], HttpResponse]
SAID = (
    "Signing in is not kept for later. It is done while the workshop can be reached. Open the "
    "page and press there."
)


def never_kept(view: View) -> View:
    """Refuse an entry, whose clock is the device's: an old link would hold by it, and tries of
    codes would not be counted together."""

    @wraps(view)
    def handle(request: HttpRequest) -> HttpResponse:
        press = current_press()
        if press is None:
            return view(request)
        press.said.append(SAID)
        return HttpResponse(SAID, status=409)

    return handle
