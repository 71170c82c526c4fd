"""The alarm in pages: the ladder on the round, the strip on every page of a maker."""

from typing import Any

from django import template

from throwbench.web.alarm.behind import clock_behind
from throwbench.web.alarm.deadlines import THERE_FOR
from throwbench.web.alarm.ladder import ladder
from throwbench.workshop.house.forms import EntryForm

register = template.Library()


@register.inclusion_tag("alarm/ladder.html", takes_context=True)
def alarm_ladder(context: dict[str, Any]) -> dict[str, Any]:
    """How far the alarm can be trusted. Its buttons belong to the forms of `alarm_forms`."""
    return {"ladder": ladder(context["now"])}


@register.inclusion_tag("alarm/forms.html", takes_context=True)
def alarm_forms(context: dict[str, Any]) -> dict[str, Any]:
    """The forms of the ladder, outside the form in which it stands."""
    return {"csrf_token": context.get("csrf_token"), "entry": EntryForm()}


@register.inclusion_tag("alarm/strip.html", takes_context=True)
def alarm_strip(context: dict[str, Any]) -> dict[str, Any]:
    """What a script shows when something is due: lit here, or meanwhile on another device."""
    return {
        "csrf_token": context.get("csrf_token"),
        "entry": EntryForm(auto_id=False),  # the page's own form has its ids
        "behind": clock_behind(context["now"]),
        "pause_s": round(THERE_FOR.total_seconds()),
    }
