"""How pages of the shelf ask: one page for every form."""

from collections.abc import Callable
from typing import Any

from django.db import transaction
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.workshop.house.models import Person
from throwbench.workshop.house.web import done, now_of, sent, who_of

__all__ = ["ask", "by", "either", "kept", "require_GET", "require_POST", "sent"]

either = require_http_methods(["GET", "POST"])


def by(request: HttpRequest) -> dict[str, Any]:
    """Who does it, and when, as every service asks."""
    who: Person = who_of(request)
    return {"who": who, "now": now_of(request)}


def kept(request: HttpRequest, form: Form, write: Callable[[], Any]) -> bool:
    """Whether the form was sent, and what it says is written now, all of it or nothing."""
    return request.method == "POST" and done(form, transaction.atomic(write))


def ask(request: HttpRequest, form: Form, *, say: str, button: str, **words: Any) -> HttpResponse:
    """A page that asks; `words` may hold `lead`, and `back` as address and words."""
    shown = {"form": form, "say": say, "button": button, **words}
    return render(request, "shelf/form_page.html", shown)
