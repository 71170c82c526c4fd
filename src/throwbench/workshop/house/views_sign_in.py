"""Signing in: a link or a typed code shows a button, and only the POST spends it."""

from django.contrib.auth import login, logout
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.workshop.house import sign_in
from throwbench.workshop.house.forms_code import TypedCodeForm
from throwbench.workshop.house.opened_by_code import Tried, state, try_code
from throwbench.workshop.house.sign_in import KEPT_AS
from throwbench.workshop.house.web import now_of

BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"
TOO_MANY = 429


@login_not_required
@require_http_methods(["GET", "POST"])
def how(request: HttpRequest) -> HttpResponse:
    """How to get in, and the box for a code: a right one leads where its link leads."""
    form = TypedCodeForm(request.POST or None)
    tried = state(now_of(request))
    if request.method == "POST" and form.is_valid():
        tried = try_code(form.cleaned_data["code"], now=now_of(request))
        if tried.opened is not None:
            request.session[tried.opened.kept_as] = tried.opened.digest
            return redirect(tried.opened.then)
        form.add_error("code", _wrong(tried))
    status = TOO_MANY if tried.wait_until else 200
    shown = {"form": form, "tried": tried}
    return render(request, "house/sign_in.html", shown, status=status)


@login_not_required
@require_GET
def link(request: HttpRequest, token: str) -> HttpResponse:
    """The token leaves the address at once; what is shown next carries none."""
    request.session[KEPT_AS] = sign_in.digest_of(token)
    return redirect("house:enter")


@login_not_required
@require_http_methods(["GET", "POST"])
def enter(request: HttpRequest) -> HttpResponse:
    """A button; pressing it spends the link."""
    digest = request.session.get(KEPT_AS, "")
    if request.method == "POST":
        person = sign_in.spend(digest, now=now_of(request))
        if person is not None:
            del request.session[KEPT_AS]
            login(request, person, backend=BACKEND)
            return redirect("/")
    invited = sign_in.invited(digest, now=now_of(request))
    return render(request, "house/enter.html", {"invited": invited}, status=200 if invited else 410)


@require_POST
def leave(request: HttpRequest) -> HttpResponse:
    """This browser forgets who it let in."""
    logout(request)
    return redirect("house:sign_in")


def _wrong(tried: Tried) -> str:
    if tried.wait_until is not None:
        return "Too many wrong codes came to this workshop. Wait, or read the square code instead."
    return (
        "No code that holds now reads like this. A code is for one browser, and soon ends. "
        "Compare it with the laptop, or make a new one there."
    )
