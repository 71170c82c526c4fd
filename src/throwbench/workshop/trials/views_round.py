"""The burn round: every lit candle in one form, and the way out of the door."""

import re
from datetime import datetime
from typing import Any

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from throwbench.science.errors import SaidError
from throwbench.workshop.house.entries import EntryConflictError
from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.house.web import done, now_of, tell_the_device, who_of
from throwbench.workshop.trials.asking import QuestionsError
from throwbench.workshop.trials.forms_asked import with_guess
from throwbench.workshop.trials.forms_round import GoingForm, HandedForm, LookForm
from throwbench.workshop.trials.selectors.burns import shown_as_lit
from throwbench.workshop.trials.selectors.round_page import round_of
from throwbench.workshop.trials.services import burn as burning
from throwbench.workshop.trials.services.together import RoundError, go_round

NO_CANDLE = (
    "No candle of this workshop stands in what was sent. A round notes what is seen of those that "
    "are lit. Open the round anew."
)
_OF_BURN = re.compile(r"b(\d+)-answer")


@require_http_methods(["GET", "POST"])
def round_(request: HttpRequest) -> HttpResponse:
    """What is lit, when it has to be out, and what is seen of it."""
    now = now_of(request)
    data = with_guess(request.POST) if request.method == "POST" else None
    entry = EntryForm(data)
    looks = _sent(data, now) if data is not None else {}
    if data is not None and _noted(request, entry, list(looks.values())):
        return redirect("trials:round")
    page = round_of(now)
    lit = {"burns": [one.lit.burn.pk for one in page.candles]}
    shown = {
        "page": page,
        "entry": entry,
        "candles": [
            (one, looks.get(one.lit.burn.pk) or LookForm(one.lit, now)) for one in page.candles
        ],
        "going": GoingForm(initial=lit),
        "handed": HandedForm(initial=lit),
    }
    return render(request, "trials/round.html", shown)


def _sent(data: QueryDict, now: datetime) -> dict[int, LookForm]:
    """The forms that were sent, by their burn; one may be out meanwhile."""
    sent = [int(found[1]) for name in data if (found := _OF_BURN.fullmatch(name))]
    return {one.burn.pk: LookForm(one, now, data) for one in shown_as_lit(sent, now)}


def _noted(request: HttpRequest, entry: EntryForm, forms: list[LookForm]) -> bool:
    """Whether the round was noted; what is wrong or asked stands in the forms."""
    good = [form.is_valid() for form in (entry, *forms)]
    if not forms:
        entry.add_error(None, NO_CANDLE)
    if not forms or not all(good):
        tell_the_device(entry, *forms)
        return False
    looks = [look for form in forms if (look := form.look()) is not None]
    now = now_of(request)
    try:
        go_round(looks, at=now, who=who_of(request), now=now, entry=entry.cleaned_data["entry"])
    except RoundError as error:
        for form in forms:
            _say(entry, form, error.errors.get(form.lit.burn.pk))
        tell_the_device(entry, *forms)
        return False
    except EntryConflictError as error:
        entry.add_error(None, str(error))
        return False
    return True


def _say(entry: EntryForm, form: LookForm, error: SaidError | None) -> None:
    """A question or a sentence beside its candle; above all where the candle is out meanwhile."""
    if isinstance(error, QuestionsError):
        form.questions = error.questions
    elif error is not None:
        (entry if form.lit.burn.out_at else form).add_error(None, str(error))


@require_POST
def all_out(request: HttpRequest) -> HttpResponse:
    """The maker goes out: every candle that the page showed is out."""
    form = GoingForm(request.POST)
    if done(form, lambda: burning.all_out(at=now_of(request), **_told(request, form))):
        return redirect("trials:round")
    return render(request, "trials/going.html", {"form": form})


@require_POST
def hand_over(request: HttpRequest) -> HttpResponse:
    """The maker goes out: an adult who is in the room watches from now on."""
    form = HandedForm(request.POST)
    if done(form, lambda: burning.hand_over(**_told(request, form))):
        return redirect("trials:round")
    return render(request, "trials/going.html", {"form": form})


def _told(request: HttpRequest, form: GoingForm) -> dict[str, Any]:
    told = {**form.cleaned_data, "burns": list(form.cleaned_data["burns"])}
    return {**told, "who": who_of(request), "now": now_of(request)}
