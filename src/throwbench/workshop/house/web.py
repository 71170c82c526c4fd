"""What views of every slice share: the request with its clock, and forms sent to a service."""

from collections.abc import Callable
from datetime import date, datetime
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.http import HttpRequest, QueryDict
from django.utils import timezone

from throwbench.science.errors import SaidError
from throwbench.workshop.house.models import Person, Workshop
from throwbench.workshop.house.press import say_to_the_device


def now_of(request: HttpRequest) -> datetime:
    """The time of the request; in a demo its own."""
    return cast(datetime, request.now)  # type: ignore[attr-defined]


def today_of(request: HttpRequest) -> date:
    """The local day in the workshop's zone."""
    return timezone.localdate(now_of(request))


def workshop_of(request: HttpRequest) -> Workshop:
    return cast(Workshop, request.workshop)  # type: ignore[attr-defined]


def who_of(request: HttpRequest) -> Person:
    """The person signed in."""
    return cast(Person, request.user)


def sent(request: HttpRequest) -> QueryDict | None:
    """What a form of this request says; None where its page is only opened."""
    return request.POST if request.method == "POST" else None


def done(form: forms.Form, write: Callable[[], Any]) -> bool:
    """Call the service if the form is good; its sentence becomes the form's error."""
    if form.is_valid():
        try:
            write()
        except ValidationError as error:
            form.add_error(None, error.messages)
        except SaidError as error:
            form.add_error(None, str(error))
    tell_the_device(form)
    return form.is_valid()


def tell_the_device(*told: forms.Form) -> None:
    """What is wrong in these forms or asked back, for an entry that came without its page.

    Where a page has a form for each candle, `about` of a form is its code, for a sentence alone.
    """
    for form in told:
        said = [str(one) for errors in form.errors.values() for one in errors]
        asked = getattr(form, "questions", ())
        if isinstance(asked, tuple):  # a guest's form has questions of another kind
            said += [one.sentence for one in asked]
        about = getattr(form, "about", "")
        say_to_the_device(*(one if about in one else f"{about}: {one}" for one in said))
