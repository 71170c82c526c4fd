"""What the door answers: always JSON, never a redirect; the device forgets on an echo only."""

from django.http import JsonResponse

from throwbench.web.entry.sent import Sent
from throwbench.workshop.house.models import Entry

KEPT, KEPT_BEFORE = "kept", "kept before"
CONFLICT, ASKS, SIGN_IN, NOT_YOURS, UNCLEAR, BROKE = (
    "conflict", "asks", "sign in", "not yours", "unclear", "broke",
)  # fmt: skip
STATUS = {
    KEPT: 200, KEPT_BEFORE: 200, SIGN_IN: 401, NOT_YOURS: 401, CONFLICT: 409, ASKS: 422,
    UNCLEAR: 400, BROKE: 503,
}  # fmt: skip


def kept(sent: Sent, *, before: bool = False, then: str = "") -> JsonResponse:
    """The echo: this id with this digest is in the database. `then` is the page that follows."""
    return _answer(KEPT_BEFORE if before else KEPT, sent, then=then)


def conflict(sent: Sent, said: str, first: Entry | None) -> JsonResponse:
    """The id was used for something else, which is kept."""
    at = first and first.at.isoformat()
    return _answer(CONFLICT, sent, said=[said], first={"what": first and first.what, "at": at})


def asks(sent: Sent, said: list[str]) -> JsonResponse:
    """The workshop refuses it or asks about it: it wants the eyes of who pressed it."""
    return _answer(ASKS, sent, said=said)


def sign_in(sent: Sent | None) -> JsonResponse:
    return _answer(SIGN_IN, sent, said=["This browser is not let in any more. Sign in again."])


def not_yours(sent: Sent) -> JsonResponse:
    return _answer(NOT_YOURS, sent, said=["Somebody else pressed it. They send it themselves."])


def unclear(said: str) -> JsonResponse:
    return _answer(UNCLEAR, None, said=[said])


def broke(sent: Sent) -> JsonResponse:
    return _answer(BROKE, sent, said=["The workshop could not note it now. It stays here."])


def _answer(outcome: str, sent: Sent | None, **more: object) -> JsonResponse:
    echo = {"id": str(sent.id), "digest": sent.digest} if sent else {}
    return JsonResponse({"outcome": outcome, **echo, **more}, status=STATUS[outcome])
