"""The first page of an empty workshop, and the light of its pages."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from throwbench.workshop.house import services
from throwbench.workshop.house.forms_house import BeginForm
from throwbench.workshop.house.theme import CHOICES, COOKIE, YEAR_S
from throwbench.workshop.house.web import done, now_of, who_of


@require_http_methods(["GET", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    """Name, zone, units, a first room; then today's page."""
    if getattr(request, "workshop", None) is not None:
        return redirect("/")
    form = BeginForm(request.POST or None)
    if request.method == "POST" and done(
        form,
        lambda: services.begin(**form.cleaned_data, owner=who_of(request), now=now_of(request)),
    ):
        return redirect("/")
    return render(request, "house/begin.html", {"form": form})


@require_POST
def theme(request: HttpRequest) -> HttpResponse:
    """Light, dark, or as the device has it; kept in a cookie of this browser."""
    chosen = request.POST.get("theme", "")
    response = redirect("house:index")
    if chosen in CHOICES:
        response.set_cookie(COOKIE, chosen, max_age=YEAR_S, samesite="Lax", httponly=True)
    else:
        response.delete_cookie(COOKIE, samesite="Lax")
    return response
