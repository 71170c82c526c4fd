"""What the door answers: always JSON, never a redirect; the device forgets on an echo only."""

from django.http import JsonResponse

from throwbench.web.entry.sent import Sent
from throwbench.workshop.house.models import Entry

KEPT, KEPT_BEFORE = "kept", "kept before"
CONFLICT, ASKS, SIGN_IN, NOT_YOURS, NEW_KEY, UNCLEAR, BROKE = (
    "conflict", "asks", "sign in", "not yours", "new key", "unclear", "broke",
)  # fmt: skip
STATUS = {
    KEPT: 200, KEPT_BEFORE: 200, SIGN_IN: 401, NOT_YOURS: 401, NEW_KEY: 401, CONFLICT: 409,
    ASKS: 422, UNCLEAR: 400, BROKE: 503,
}  # fmt: skip
REFUSED = {
    SIGN_IN: "This browser is not let in any more. Sign in again.",
    NOT_YOURS: "Somebody else pressed it. They send it themselves.",
    NEW_KEY: "The form's own key has changed. The page asks for the new one and sends it again.",
}
"""Nothing behind the door looked at the entry: who it is, or the key of forms, comes first."""
NO_SENTENCE = {
    400: "The page could not read it: it is too large, or its parts are not those of a form. "
    "Open the page and note it anew.",
    403: "This page is not open to who pressed it. Makers note on their own pages, assessors on "
    "theirs. Note it on one of yours.",
    404: "What it was pressed on is not there. An entry belongs to a page of this workshop. "
    "Open today's page and note it anew.",
    405: "This page takes no entries. A page with a form does. Open it and note it anew.",
}
"""Of pages that answer without a form to say it in."""
LEFT = "The page did not note it, and did not say why. Open it, and note it anew."


def kept(sent: Sent, *, before: bool = False, then: str = "") -> JsonResponse:
    """The echo: this id with this digest is in the database. `then` is the page that follows."""
    return _answer(KEPT_BEFORE if before else KEPT, sent, then=then)


def conflict(sent: Sent, said: str, first: Entry | None) -> JsonResponse:
    """The id was used for something else, which is kept."""
    at = first and (first.pressed_at or first.at).isoformat()
    return _answer(CONFLICT, sent, said=[said], first={"what": first and first.what, "at": at})


def asks(sent: Sent, said: list[str], *, status: int = 200) -> JsonResponse:
    """The workshop refuses it or asks about it: it wants the eyes of who pressed it."""
    return _answer(ASKS, sent, said=said or [NO_SENTENCE.get(status, LEFT)])


def refused(outcome: str, sent: Sent | None) -> JsonResponse:
    return _answer(outcome, sent, said=[REFUSED[outcome]])


def unclear(said: str) -> JsonResponse:
    return _answer(UNCLEAR, None, said=[said])


def broke(sent: Sent | None) -> JsonResponse:
    return _answer(BROKE, sent, said=["The workshop could not note it now. It stays here."])


def _answer(outcome: str, sent: Sent | None, **more: object) -> JsonResponse:
    echo = {"id": str(sent.id), "digest": sent.digest} if sent else {}
    return JsonResponse({"outcome": outcome, **echo, **more}, status=STATUS[outcome])
