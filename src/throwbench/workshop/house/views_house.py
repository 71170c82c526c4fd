"""The house: an overview, people, rooms, settings, limits, and the door for a phone."""

from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_http_methods

from throwbench.workshop.house import selectors, services
from throwbench.workshop.house.forms_house import LimitForm, PersonForm, RoomForm, SettingsForm
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.house.theme import theme_of
from throwbench.workshop.house.web import done, now_of, sent, today_of, who_of, workshop_of

either = require_http_methods(["GET", "POST"])


@require_GET
def index(request: HttpRequest) -> HttpResponse:
    """The house in one sentence."""
    limits = selectors.limits_shown(today_of(request))
    shown = {
        "sentence": selectors.overview(today_of(request)),
        "people": selectors.people(),
        "rooms": selectors.rooms(),
        "own_limits": [limit for limit in limits if limit.own is not None],
        "chosen": theme_of(request),
    }
    return render(request, "house/index.html", shown)


@either
def people(request: HttpRequest) -> HttpResponse:
    """Who is here, and a line for the next one."""
    form = PersonForm(request.POST or None)
    if request.method == "POST" and done(
        form,
        lambda: services.add_person(**form.cleaned_data, who=who_of(request), now=now_of(request)),
    ):
        return redirect("house:people")
    return render(request, "house/people.html", {"form": form, "people": selectors.people()})


@either
def blank(request: HttpRequest, pk: int) -> HttpResponse:
    """Asks once more, since a name does not come back."""
    person = get_object_or_404(Person, pk=pk, blanked_at=None)
    form = Form(request.POST if request.method == "POST" else None)
    if request.method == "POST" and done(
        form, lambda: services.blank_person(person, who=who_of(request), now=now_of(request))
    ):
        return redirect("house:people")
    return render(request, "house/blank.html", {"form": form, "person": person})


@either
def rooms(request: HttpRequest) -> HttpResponse:
    """The rooms, and a line for the next one."""
    form = RoomForm(request.POST or None)
    if request.method == "POST" and done(
        form,
        lambda: services.add_room(**form.cleaned_data, who=who_of(request), now=now_of(request)),
    ):
        return redirect("house:rooms")
    return render(request, "house/rooms.html", {"form": form, "rooms": selectors.rooms()})


@either
def room(request: HttpRequest, pk: int) -> HttpResponse:
    """What is known of one room."""
    room = get_object_or_404(Room, pk=pk)
    form = RoomForm.of(room, sent(request))
    if request.method == "POST" and done(
        form,
        lambda: services.change_room(
            room, **form.cleaned_data, who=who_of(request), now=now_of(request)
        ),
    ):
        return redirect("house:rooms")
    return render(request, "house/room.html", {"form": form, "room_pk": pk})


@either
def settings(request: HttpRequest) -> HttpResponse:
    """Name, clock, units, burn limit, trim."""
    here = workshop_of(request)
    form = SettingsForm.of(here, sent(request))
    if request.method == "POST" and done(
        form,
        lambda: services.change_settings(
            **form.cleaned_data, who=who_of(request), now=now_of(request)
        ),
    ):
        return redirect("house:index")
    return render(request, "house/settings.html", {"form": form})


@require_GET
def limits(request: HttpRequest) -> HttpResponse:
    """Every limit with its source; the maker's own figure beside the shipped one."""
    return render(
        request, "house/limits.html", {"limits": selectors.limits_shown(today_of(request))}
    )


@either
def limit(request: HttpRequest, rule: str) -> HttpResponse:
    """One limit: the shipped figure, and the box for an own one."""
    shown = selectors.limit_shown(rule, day=today_of(request))
    if shown is None or not shown.can_be_set:
        raise Http404
    form = LimitForm(shown, sent(request))
    if request.method == "POST" and done(
        form,
        lambda: services.set_house_limit(
            rule=rule, **form.cleaned_data, who=who_of(request), now=now_of(request)
        ),
    ):
        return redirect("house:limits")
    return render(request, "house/limit.html", {"form": form, "limit": shown})
