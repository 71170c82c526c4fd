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
from django.http import HttpRequest, HttpResponse, UnreadablePostError
from django.shortcuts import resolve_url
from django.utils import timezone

from throwbench.science.errors import UnclearError
from throwbench.web.entry import answer
from throwbench.web.entry.keys import key_of, may_send
from throwbench.web.entry.sent import DOOR, Sent, clock_of, pressed_at, read, skew_ms
from throwbench.workshop.house.models import Entry
from throwbench.workshop.house.press import Press, current_press, pressing

Handler = Callable[[HttpRequest], HttpResponse]


def door(get_response: Handler) -> Handler:
    """An entry becomes a plain form inside, and its answer becomes JSON."""

    def handle(request: HttpRequest) -> HttpResponse:
        if request.path != DOOR or request.method != "POST":
            return get_response(request)
        try:
            sent = read(request.body)
            press = _press(sent, clock_of(request.headers.get("X-Sent-At", "")))
        except UnclearError as error:
            return answer.unclear(str(error))
        except (RequestDataTooBig, UnreadablePostError):
            return answer.unclear("The entry did not arrive whole. It stays on this device.")
        first = Entry.objects.filter(id=sent.id).first()
        if first is not None and first.sent_digest == sent.digest:
            return answer.kept(sent, before=True)
        with pressing(press):
            inner = get_response(_as_form(request, sent))
        return _answered(sent, press, inner)

    return handle


def whose(get_response: Handler) -> Handler:
    """Inside, once it is known who asks: an entry is handed in by whose it is, or not at all."""

    def handle(request: HttpRequest) -> HttpResponse:
        press = current_press()
        if press is None or may_send(request, press.key):
            return get_response(request)
        return HttpResponse(answer.NOT_YOURS if key_of(request) else answer.SIGN_IN, status=401)

    return handle


def _press(sent: Sent, sent_ms: int) -> Press:
    now = timezone.now()
    offset = timedelta(seconds=settings.DEMO_OFFSET_S or 0)
    return Press(
        id=str(sent.id),
        key=sent.key,
        device=sent.device,
        turn=sent.turn,
        digest=sent.digest,
        pressed_at=pressed_at(sent, sent_ms=sent_ms, now=now + offset),
        skew_ms=skew_ms(sent_ms, real_now=now),
    )


def _as_form(request: HttpRequest, sent: Sent) -> WSGIRequest:
    """The request that the page's own form would have made."""
    body = sent.form()
    return WSGIRequest(
        {
            **request.META,
            "REQUEST_METHOD": "POST",
            "PATH_INFO": sent.path,
            "QUERY_STRING": sent.query,
            "CONTENT_TYPE": "application/x-www-form-urlencoded",
            "CONTENT_LENGTH": str(len(body)),
            "wsgi.input": BytesIO(body),
        }
    )


def _answered(sent: Sent, press: Press, inner: HttpResponse) -> HttpResponse:
    """What the page would have done, in words that a device understands."""
    first = Entry.objects.filter(id=sent.id).first()
    if press.conflict:
        return answer.conflict(sent, press.conflict, first)
    then = inner.headers.get("Location", "")
    if first is not None and inner.status_code == 302:
        return answer.kept(sent, then=then)
    if inner.status_code == 401:
        others = inner.content == answer.NOT_YOURS.encode()
        return answer.not_yours(sent) if others else answer.sign_in(sent)
    if then.startswith(resolve_url(settings.LOGIN_URL)):
        return answer.sign_in(sent)
    if inner.status_code >= 500:
        return answer.broke(sent)
    return answer.asks(sent, press.said)
