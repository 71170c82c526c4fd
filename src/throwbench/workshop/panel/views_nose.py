"""The assessor's road: whose nose, the open tags, one page a tag, thank you."""

from collections.abc import Callable
from typing import Concatenate, ParamSpec

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.workshop.house.press import say_to_the_device
from throwbench.workshop.house.sign_in import digest_of
from throwbench.workshop.house.web import done, now_of
from throwbench.workshop.panel import services
from throwbench.workshop.panel.asks import asked
from throwbench.workshop.panel.forms_score import ScoreForm
from throwbench.workshop.panel.models import Seat
from throwbench.workshop.panel.road import LINK, NOSE, SENT, Road, road_of
from throwbench.workshop.panel.selectors import OpenSitting
from throwbench.workshop.panel.selectors.whose_nose import first_seat, whose_nose_page

P = ParamSpec("P")
OnRoad = Callable[Concatenate[HttpRequest, Road, P], HttpResponse]
CLOSED = (
    "This panel was closed before that was pressed. Answers are taken while it is open. "
    "Write them on a slip, or tell the maker."
)
NO_ROAD = (
    "No open panel awaits this nose here. Answers are taken while a panel is open, from who sits "
    "at it. Tell the maker, who can type them in."
)


def on_the_road(view: OnRoad[P]) -> Callable[Concatenate[HttpRequest, P], HttpResponse]:
    """For a handed phone, a personal link, or who is signed in; others are told how to get here."""

    @login_not_required
    def handle(request: HttpRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        road = road_of(request)
        if road is None:
            say_to_the_device(NO_ROAD)
            return render(request, "panel/no_road.html", status=403)
        if road.is_closed:
            say_to_the_device(CLOSED)
            return render(request, "panel/closed.html")
        return view(request, road, *args, **kwargs)

    handle.__doc__ = view.__doc__
    return handle


@login_not_required
@require_GET
def by_link(request: HttpRequest, token: str) -> HttpResponse:
    """The token leaves the address at once; what is shown next carries none."""
    request.session[LINK] = digest_of(token)
    return redirect("panel:mine")


@login_not_required
@require_POST
def not_me(request: HttpRequest) -> HttpResponse:
    """This browser forgets the personal link."""
    request.session.pop(LINK, None)
    return redirect("panel:whose_nose")


@require_GET
@on_the_road
def whose_nose(request: HttpRequest, road: Road) -> HttpResponse:
    """Names first; whoever had the phone before has handed it on."""
    if not road.is_handed:
        return redirect("panel:mine")
    request.session.pop(NOSE, None)
    return render(request, "panel/whose_nose.html", {"page": whose_nose_page(road.sittings)})


@require_POST
@on_the_road
def this_is(request: HttpRequest, road: Road) -> HttpResponse:
    """Somebody pressed the own name."""
    pressed = _nose_sent(request)
    if road.is_handed and road.of(pressed):
        request.session[NOSE] = pressed
        return redirect("panel:mine")
    return redirect("panel:whose_nose")


@require_GET
@on_the_road
def mine(request: HttpRequest, road: Road) -> HttpResponse:
    """The tags that are open for this nose, in its own order."""
    if road.is_handed and not road.mine:
        return redirect("panel:whose_nose")
    return render(request, "panel/mine.html", {"road": road, "first": first_seat(road.mine)})


@require_POST
@on_the_road
def sit_out(request: HttpRequest, road: Road) -> HttpResponse:
    """A nose sits out, or takes that back."""
    out = request.POST.get("out") != "no"
    for row in road.mine:
        services.sit_out(row.sitting, out=out, who=row.sitting.assessor, now=now_of(request))
    return redirect("panel:whose_nose")


@require_POST
@on_the_road
def my_nose(request: HttpRequest, road: Road) -> HttpResponse:
    """How the nose is today."""
    told = {name: name in request.POST for name in ("tired", "perfume")}
    for row in road.mine:
        services.note_nose(row.sitting, **told, now=now_of(request))
    return redirect("panel:mine")


@require_http_methods(["GET", "POST"])
@on_the_road
def score(request: HttpRequest, road: Road, tag: int) -> HttpResponse:
    """One page a tag. It answers for the nose it was opened for, whoever holds the phone now."""
    sent = _nose_sent(request)
    nose = road.nose if sent is None else sent
    if not road.of(nose):
        say_to_the_device(NO_ROAD)
        return redirect("panel:whose_nose")
    found = road.seat(str(tag), nose)
    if found is None:
        raise Http404
    row, seat = found
    panel = row.sitting.panel
    form = ScoreForm(asked(panel.asks, panel.trial), request.POST or None, initial={"nose": nose})
    if request.method == "POST" and done(form, lambda: _send(request, road, row, seat, form)):
        request.session[SENT] = seat.tag
        return redirect("panel:thanks")
    seen = {"seat": seat, "row": row, "road": road}
    if seat in row.given:
        return render(request, "panel/given.html", seen)
    return render(request, "panel/score.html", {**seen, "form": form})


@require_GET
@on_the_road
def thanks(request: HttpRequest, road: Road) -> HttpResponse:
    """Thank you, clean air, hand on. What was given is not shown again."""
    if SENT not in request.session or not road.mine:
        return redirect("panel:whose_nose")
    shown = {"tag": request.session[SENT], "road": road, "first": first_seat(road.mine)}
    return render(request, "panel/thanks.html", shown)


def _nose_sent(request: HttpRequest) -> int | None:
    """Whom the page was for; None where it does not say so in a number that a person can have."""
    sent = request.POST.get("nose", "")
    return int(sent) if sent.isdecimal() and len(sent) < 16 else None


def _send(request: HttpRequest, road: Road, row: OpenSitting, seat: Seat, form: ScoreForm) -> None:
    told = form.cleaned_data
    services.answer(
        row.sitting,
        seat,
        scores=form.scores(),
        word=told["word"],
        recognised=True if told["known"] else None,
        at=now_of(request),
        way=road.way,
        now=now_of(request),
        entry=told["entry"],
    )
