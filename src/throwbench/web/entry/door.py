"""The one door for entries of phones and benches: each is done as its own page would do it.

`POST /entries/` carries one entry. It is turned into the plain form that it was pressed on and
goes through everything that a plain form goes through; only the answer is another one.
"""

from collections.abc import Callable
from datetime import timedelta
from io import BytesIO

from django.conf import settings
from django.core.exceptions import RequestDataTooBig
from django.core.handlers.wsgi import WSGIRequest
from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse, UnreadablePostError
from django.shortcuts import resolve_url
from django.utils import timezone

from throwbench.science.errors import UnclearError
from throwbench.web.entry import answer
from throwbench.web.entry.keys import handed_panel, is_a_persons, key_of, may_send
from throwbench.web.entry.sent import DOOR, Sent, clock_of, pressed_at, read, skew_ms
from throwbench.web.entry.takes import takes_entries
from throwbench.web.middleware import NOSE
from throwbench.workshop.house.entries import sent_already, sent_otherwise
from throwbench.workshop.house.models import Entry
from throwbench.workshop.house.press import Press, current_press, pressing

Handler = Callable[[HttpRequest], HttpResponse]


def door(get_response: Handler) -> Handler:
    """An entry becomes a plain form inside, and its answer becomes JSON."""

    def handle(request: HttpRequest) -> HttpResponse:
        if request.path != DOOR or request.method != "POST":
            return get_response(request)
        try:
            sent, sent_ms = read(request.body), clock_of(request.headers.get("X-Sent-At", ""))
        except UnclearError as error:
            return answer.unclear(str(error))
        except (RequestDataTooBig, UnreadablePostError):
            return answer.unclear(
                "The entry is too large, or did not arrive whole. "
                f"{settings.DATA_UPLOAD_MAX_MEMORY_SIZE // 2**20} MB are read. It stays here."
            )
        try:
            return _taken(get_response, request, sent, sent_ms)
        except DatabaseError:
            return answer.broke(sent)

    return handle


def whose(get_response: Handler) -> Handler:
    """Inside, once it is known who asks: an entry is handed in by whose it is, or not at all."""

    def handle(request: HttpRequest) -> HttpResponse:
        press = current_press()
        if press is None:
            return get_response(request)
        is_on_the_road = request.path.startswith(NOSE)
        if not may_send(request, press.key) or not (is_on_the_road or is_a_persons(press.key)):
            press.refused = answer.NOT_YOURS if key_of(request) else answer.SIGN_IN
            return HttpResponse(status=401)
        if not takes_entries(request):
            return HttpResponse(status=405)
        first = Entry.objects.filter(id=press.id).first()
        if first is not None and sent_otherwise(first):
            press.conflict = sent_already(first)
            return HttpResponse(status=409)
        return get_response(request)

    return handle


def _taken(get_response: Handler, request: HttpRequest, sent: Sent, sent_ms: int) -> HttpResponse:
    """What was kept is said first, whatever the clocks say meanwhile."""
    first = Entry.objects.filter(id=sent.id).first()
    if first is not None and first.sent_digest == sent.digest:
        return answer.kept(sent, before=True)
    try:
        press = _press(sent, sent_ms)
    except UnclearError as error:
        return answer.asks(sent, [str(error)])
    with pressing(press):
        inner = get_response(_as_form(request, sent))
    answered = _answered(sent, press, inner)
    answered.cookies.update(inner.cookies)
    return answered


def _press(sent: Sent, sent_ms: int) -> Press:
    real_now = timezone.now()
    now = real_now + timedelta(seconds=settings.DEMO_OFFSET_S or 0)
    return Press(
        id=str(sent.id),
        key=sent.key,
        panel=handed_panel(sent.key),
        device=sent.device,
        turn=sent.turn,
        digest=sent.digest,
        pressed_at=pressed_at(sent, sent_ms=sent_ms, now=now),
        arrived_at=now,
        skew_ms=skew_ms(sent_ms, real_now=real_now),
    )


def _as_form(request: HttpRequest, sent: Sent) -> WSGIRequest:
    """The request that the page's own form would have made."""
    body = sent.form()
    return WSGIRequest(
        {
            **request.META,
            "REQUEST_METHOD": "POST",
            "PATH_INFO": sent.path_info,
            "QUERY_STRING": sent.query,
            "CONTENT_TYPE": "application/x-www-form-urlencoded",
            "CONTENT_LENGTH": str(len(body)),
            "wsgi.input": BytesIO(body),
        }
    )


def _answered(sent: Sent, press: Press, inner: HttpResponse) -> HttpResponse:
    """What the page would have done, in words that a device understands.

    Everything inside has ended, its transaction too: a row that is found now is in the database.
    """
    first = Entry.objects.filter(id=sent.id).first()
    then = inner.headers.get("Location", "")
    if first is not None and (first.sent_digest == sent.digest or press.seen):
        return answer.kept(sent, before=press.seen, then=then)
    if first is not None and (press.conflict or inner.status_code == 302):
        return answer.conflict(sent, press.conflict or sent_already(first), first)
    if press.refused:
        return answer.refused(press.refused, sent)
    if then.startswith(resolve_url(settings.LOGIN_URL)):
        return answer.refused(answer.SIGN_IN, sent)
    if inner.status_code >= 500:
        return answer.broke(sent)
    return answer.asks(sent, press.said, status=inner.status_code)
