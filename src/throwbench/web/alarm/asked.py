"""Who may ask for the alarm, and in which form the answer comes."""

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import redirect_to_login
from django.forms import Form
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render

from throwbench.workshop.house.press import current_press
from throwbench.workshop.panel.road import PANEL

SIGN_IN = {"outcome": "sign in", "said": ["This browser is not let in any more. Sign in again."]}
View = Callable[..., HttpResponse]


def for_makers(view: View) -> View:
    """A script that asks is told to sign in; it is never sent to another page."""

    @login_not_required
    @wraps(view)
    def handle(request: HttpRequest, *args: Any, **more: Any) -> HttpResponse:
        if request.user.is_authenticated and request.user.makes and PANEL not in request.session:
            return view(request, *args, **more)
        if _wants_a_page(request):
            return redirect_to_login("/")
        return JsonResponse(SIGN_IN, status=401)

    return handle


def noted(request: HttpRequest, form: Form, *, back: str) -> HttpResponse:
    """A page's own form leads back; a script hears that it was noted, or what is wrong."""
    if form.is_valid():
        if current_press() or _wants_a_page(request):
            return redirect(back)
        return JsonResponse({"outcome": "noted"})
    said = [str(one) for errors in form.errors.values() for one in errors]
    if current_press() or _wants_a_page(request):
        shown = {"what": "That was not noted.", "do": " ".join(said)}
        return render(request, "said.html", shown, status=422)
    return JsonResponse({"outcome": "asks", "said": said}, status=422)


def _wants_a_page(request: HttpRequest) -> bool:
    """Whether a browser sent a plain form, not a script."""
    return request.method == "POST" and "text/html" in request.headers.get("Accept", "")
