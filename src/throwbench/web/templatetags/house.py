"""How pages draw marks and states, and how they write figures, days and times."""

from datetime import date, datetime, timedelta
from typing import Any

from django import template
from django.templatetags.static import static
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from throwbench.science.units import grams_of
from throwbench.science.words import duration, plain, to_the_mg

register = template.Library()
NARROW = "\N{NO-BREAK SPACE}"

STATES = {
    "none broken": ("none", "none"),
    "broken": ("broken", "broken"),
    "not yet known": ("unknown", "unknown"),
    "joins the line": ("joins", "joins"),
    "test again": ("again", "again"),
    "dropped": ("dropped", "dropped"),
    "lit": ("lit", "lit"),
    "late": ("late", "late"),
    "seen": ("quiet", "eye"),
    "curing": ("quiet", "cure"),
    "due": ("quiet", "due"),
    "done": ("quiet", "done"),
    "in date": ("settled", "paper"),
    "sniff": ("quiet", "sniff"),
}
"""State to the form of its chip and to its mark: a word and a shape, always both."""


@register.simple_tag
def mark(name: str) -> SafeString:
    """A shape of the sprite, in the colour of its word; not read aloud."""
    return format_html(
        '<svg class="mark" aria-hidden="true"><use href="{}#m-{}"/></svg>',
        static("marks.svg"),
        name,
    )


@register.simple_tag
def chip(state: str, words: str = "") -> SafeString:
    """A state as word and shape; `words` stand in place of the state's own word."""
    form, shape = STATES[state]
    return format_html('<span class="chip chip--{}">{}{}</span>', form, mark(shape), words or state)


@register.simple_tag(takes_context=True)
def here(context: dict[str, Any], prefix: str) -> SafeString:
    """`aria-current` where the page's address begins with the prefix."""
    path: str = context["request"].path
    is_here = path == prefix if prefix == "/" else path.startswith(prefix)
    return SafeString('aria-current="page"' if is_here else "")


@register.filter
def unit(value: float | None, symbol: str) -> str:
    """A figure with its unit, as sentences write it; "not known" where there is none."""
    return "not known" if value is None else f"{plain(value)}{NARROW}{symbol}"


@register.filter
def grams(mg: int | None) -> str:
    """Milligrams as grams, with the unit."""
    return "not known" if mg is None else f"{to_the_mg(grams_of(mg))}{NARROW}g"


@register.filter
def day(value: date | datetime | None) -> str:
    """Monday 24 May 2027."""
    if value is None:
        return "not known"
    local = timezone.localtime(value) if isinstance(value, datetime) else value
    return f"{local:%A} {local.day} {local:%B %Y}"


@register.filter
def short_day(value: date | datetime | None) -> str:
    """24 May."""
    if value is None:
        return "not known"
    local = timezone.localtime(value) if isinstance(value, datetime) else value
    return f"{local.day}{NARROW}{local:%b}"


@register.filter
def clock(value: datetime | None) -> str:
    """11:05, in the workshop's zone."""
    return "not known" if value is None else f"{timezone.localtime(value):%H:%M}"


@register.filter
def other_day(value: datetime, now: datetime) -> str:
    """'24 May, ' before a time of another day; with its year, where that is another one."""
    local, today = timezone.localtime(value), timezone.localtime(now)
    if local.date() == today.date():
        return ""
    year = "" if local.year == today.year else f"{NARROW}{local.year}"
    return f"{short_day(value)}{year}, "


@register.filter
def clock_by(value: datetime, now: datetime) -> str:
    """11:05; 24 May, 11:05 where it is another day."""
    return f"{other_day(value, now)}{clock(value)}"


@register.filter
def lasted(value: timedelta) -> str:
    """1 h 55; under an hour 55 min."""
    return duration(value / timedelta(hours=1)).replace(" ", NARROW)
