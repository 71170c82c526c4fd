"""Timers: set one, see what runs, say that it is done."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from throwbench.web.alarm.forms import TimerForm
from throwbench.workshop.house import timers as timing
from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.house.models import Timer
from throwbench.workshop.house.web import done, now_of, who_of

QUICK = (("stir", 3), ("look again", 60))
"""Words and minutes of what is set with one press."""


@require_http_methods(["GET", "POST"])
def timers(request: HttpRequest) -> HttpResponse:
    """What runs and what was done; a new one."""
    now = now_of(request)
    form = TimerForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and done(
        form, lambda: timing.set_timer(**form.cleaned_data, who=who_of(request), now=now)
    ):
        return redirect("alarm:timers")
    shown = {
        "form": form,
        "running": [(one, EntryForm()) for one in timing.running_timers()],
        "done": timing.done_timers(now),
        "quick": [(what, minutes, EntryForm()) for what, minutes in QUICK],
        "now": now,
    }
    return render(request, "alarm/timers.html", shown)


@require_POST
def timer_done(request: HttpRequest, pk: int) -> HttpResponse:
    """It was done."""
    timer = get_object_or_404(Timer, pk=pk)
    form = EntryForm(request.POST)
    done(
        form,
        lambda: timing.timer_done(
            timer, **form.cleaned_data, who=who_of(request), now=now_of(request)
        ),
    )
    return redirect("alarm:timers")
