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
from throwbench.workshop.panel.road import LINK, NOSE, SENT, Road, by_link, road_of
from throwbench.workshop.panel.selectors import OpenSitting
from throwbench.workshop.panel.selectors.flames import flames_of
from throwbench.workshop.panel.selectors.whose_nose import seats_ahead, whose_nose_page

P = ParamSpec("P")
OnRoad = Callable[Concatenate[HttpRequest, Road, P], HttpResponse]
GONE = 410
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
            return render(request, "panel/closed.html", {"road": road})
        return view(request, road, *args, **kwargs)

    handle.__doc__ = view.__doc__
    return handle


@login_not_required
@require_GET
def open_link(request: HttpRequest, token: str) -> HttpResponse:
    """The token leaves the address at once; what is shown next carries none.

    A link that opens nothing any more ends no sitting that runs in this browser.
    """
    digest, now = digest_of(token), now_of(request)
    runs = by_link(request.session.get(LINK, ""), now) is not None
    if runs and by_link(digest, now) is None:
        return render(request, "panel/old_link.html", status=GONE)
    request.session[LINK] = digest
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
    """Somebody pressed the own name: who has nothing to wait for goes straight to the first tag."""
    pressed = _nose_sent(request)
    rows = road.of(pressed)
    if not road.is_handed or not rows:
        return redirect("panel:whose_nose")
    request.session[NOSE] = pressed
    ahead = seats_ahead(rows)
    if not ahead or rows[0].free_at is not None:
        return redirect("panel:mine")
    return redirect("panel:score", ahead[0].tag)


@require_GET
@on_the_road
def mine(request: HttpRequest, road: Road) -> HttpResponse:
    """The tags that are open for this nose, in its own order."""
    if road.is_handed and not road.mine:
        return redirect("panel:whose_nose")
    return render(request, "panel/mine.html", {"road": road})


@require_POST
@on_the_road
def sit_out(request: HttpRequest, road: Road) -> HttpResponse:
    """A nose sits out, or takes that back."""
    out, sent = request.POST.get("out") != "no", _nose_sent(request)
    for row in road.of(road.nose if sent is None else sent):
        services.sit_out(row.sitting, out=out, who=row.sitting.assessor, now=now_of(request))
    return redirect("panel:whose_nose" if out else "panel:mine")


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
        request.session[SENT] = [nose, seat.tag]
        return redirect("panel:thanks")
    seen = {"seat": seat, "row": row, "road": road}
    if seat in row.given:
        return render(request, "panel/given.html", seen)
    flames = flames_of(panel, [seat], now_of(request))
    return render(request, "panel/score.html", {**seen, "form": form, "flames": flames})


@require_GET
@on_the_road
def thanks(request: HttpRequest, road: Road) -> HttpResponse:
    """Thank you, clean air, hand on. What was given is not shown again."""
    nose, tag = request.session.get(SENT, (None, ""))
    rows = road.of(nose)
    if not rows:
        return redirect("panel:whose_nose")
    row = next((one for one in rows if one.has(tag)), rows[0])
    shown = {"tag": tag, "road": road, "row": row, "ahead": seats_ahead(rows)}
    return render(request, "panel/thanks.html", {**shown, "goes_on": nose == road.nose})


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
