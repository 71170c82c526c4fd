"""Signing in: the link shows a button, and only the POST spends it."""

from django.contrib.auth import login, logout
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.workshop.house import sign_in
from throwbench.workshop.house.web import now_of

BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"
LINK = "sign-in link"
"""The digest of the link that was opened; the token itself is kept nowhere."""


@login_not_required
@require_GET
def how(request: HttpRequest) -> HttpResponse:
    """How to get in, for who has no link."""
    return render(request, "house/sign_in.html")


@login_not_required
@require_GET
def link(request: HttpRequest, token: str) -> HttpResponse:
    """The token leaves the address at once; what is shown next carries none."""
    request.session[LINK] = sign_in.digest_of(token)
    return redirect("house:enter")


@login_not_required
@require_http_methods(["GET", "POST"])
def enter(request: HttpRequest) -> HttpResponse:
    """A button; pressing it spends the link."""
    digest = request.session.get(LINK, "")
    if request.method == "POST":
        person = sign_in.spend(digest, now=now_of(request))
        if person is not None:
            del request.session[LINK]
            login(request, person, backend=BACKEND)
            return redirect("/")
    invited = sign_in.invited(digest, now=now_of(request))
    return render(request, "house/enter.html", {"invited": invited}, status=200 if invited else 410)


@require_POST
def leave(request: HttpRequest) -> HttpResponse:
    """This browser forgets who it let in."""
    logout(request)
    return redirect("house:sign_in")
