"""The calendar file of the put-out times."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from throwbench.web.alarm.calendar import calendar_file, put_outs
from throwbench.web.alarm.deadlines import open_deadlines
from throwbench.web.entry.keys import workshop_mark
from throwbench.workshop.house.alarms import note_calendar
from throwbench.workshop.house.web import now_of

NONE = {
    "what": "No candle is lit, so there is no time to put in a calendar.",
    "do": "Light one first; then the file stands on the burn round.",
}


@require_GET
def put_out(request: HttpRequest) -> HttpResponse:
    """One event for each put-out time. That the file was made is noted: the ladder says so."""
    now = now_of(request)
    lit = [one for one in open_deadlines(now) if one.is_burn]
    if not lit:
        return render(request, "said.html", NONE, status=404)
    is_demo = settings.DEMO_OFFSET_S is not None
    file = calendar_file(put_outs(lit), now=now, mark=workshop_mark(), demo=is_demo)
    note_calendar([(one.id, one.due) for one in lit], now=now)
    return HttpResponse(
        file,
        content_type="text/calendar; charset=utf-8",
        headers={"Content-Disposition": 'attachment; filename="put-out.ics"'},
    )
