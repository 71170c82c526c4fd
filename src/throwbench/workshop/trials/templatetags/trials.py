"""How the pages of a trial write figures of the scale and windows of a wax card."""

from django import template

from throwbench.science.words import plain, to_the_mg
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.selectors.trial_list import done_of
from throwbench.workshop.trials.windows import window_of

register = template.Library()
NARROW = "\N{NO-BREAK SPACE}"


@register.filter
def on_scale(grams: float | None) -> str:
    """A weight with the digits that the scale of the workshop shows."""
    return "not known" if grams is None else to_the_mg(grams)


@register.filter
def weight(grams: float | None) -> str:
    """The same with its unit."""
    return "not known" if grams is None else f"{to_the_mg(grams)}{NARROW}g"


register.filter("plain", plain)


@register.simple_tag
def steps_done(trial: Trial) -> frozenset[str]:
    """Steps of its road that are behind a trial, for their ticks."""
    return done_of(trial)


@register.filter
def window(wax: Wax, step: str) -> str:
    """56-60 °C as the wax card says, or that it is not known."""
    return window_of(wax, step).words() or "not known"


@register.filter
def stirred(seconds: int) -> str:
    """3:04 min."""
    minutes, rest = divmod(seconds, 60)
    return f"{minutes}:{rest:02d}{NARROW}min"


@register.filter
def degrees(celsius: float) -> str:
    """A temperature to the tenth of a degree at most: 57.8 °C."""
    return f"{plain(round(celsius, 1))}{NARROW}°C"
