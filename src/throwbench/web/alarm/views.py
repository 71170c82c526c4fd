"""What the alarm answers: how it stands, and what became of it."""

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET, require_POST

from throwbench.web.alarm.asked import for_makers, noted
from throwbench.web.alarm.deadlines import Deadline
from throwbench.web.alarm.forms import HeardForm, RangForm
from throwbench.web.alarm.here import watch_here
from throwbench.web.alarm.ladder import as_json, ladder
from throwbench.workshop.house import alarms
from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.house.models import Rung
from throwbench.workshop.house.web import done, now_of, who_of


@for_makers
@require_GET
def alarm(request: HttpRequest) -> JsonResponse:
    """What is due, what was missed, and how far the alarm can be trusted."""
    here = ladder(now_of(request))
    return JsonResponse(
        {
            "now": _ms(now_of(request).timestamp()),
            "deadlines": [_deadline(one) for one in here.deadlines],
            "missed": here.missed.sentences,
            "quiet": here.missed.quiet,
            "rungs": list(as_json(here)),
            "not_guaranteed": here.not_guaranteed,
        }
    )


def _deadline(one: Deadline) -> dict[str, object]:
    return {
        "id": one.id,
        "what": one.what,
        "where": one.where,
        "with": one.handed_to,
        "due": _ms(one.due.timestamp()),
        "from": _ms(one.since.timestamp()),
        "rings_from": _ms(one.rings_from.timestamp()),
        "behind": one.behind,
        "first_word": one.first_word and _ms(one.first_word.timestamp()),
        "address": one.address,
    }


def _ms(seconds: float) -> int:
    return round(seconds * 1000)


@for_makers
@require_POST
def heard(request: HttpRequest) -> HttpResponse:
    """Somebody tried a step and says whether it was heard."""
    form = HeardForm(request.POST)
    done(form, lambda: alarms.note_heard(**form.told(), who=who_of(request), now=now_of(request)))
    return noted(request, form, back="trials:round")


@for_makers
@require_POST
def rang(request: HttpRequest) -> HttpResponse:
    """An open page rang."""
    form = RangForm(request.POST)
    done(
        form,
        lambda: alarms.note_page_rang(**form.told(), who=who_of(request), now=now_of(request)),
    )
    return noted(request, form, back="trials:round")


@for_makers
@require_POST
def there(request: HttpRequest) -> HttpResponse:
    """Somebody is there: what is due is silent for a while."""
    form = EntryForm(request.POST)
    done(
        form,
        lambda: alarms.note_there(**form.cleaned_data, who=who_of(request), now=now_of(request)),
    )
    return noted(request, form, back="trials:round")


@for_makers
@require_POST
def ring(request: HttpRequest) -> HttpResponse:
    """This machine tries its own sound or notification now."""
    is_notice = request.POST.get("rung") == Rung.NOTICE
    if is_notice:
        trouble = watch_here.player.notice("Throwbench", "This is how a notification looks.")
    else:
        trouble = watch_here.player.sound()
    shown = {"rung": Rung.NOTICE if is_notice else Rung.MACHINE, "trouble": trouble}
    return render(request, "alarm/tried.html", {**shown, "form": EntryForm()})
