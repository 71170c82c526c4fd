"""Waxes whose card does not say how hot they may be."""

from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models import Trial

CARD = ("melts_at_c", "never_above_c", "add_oil_high_c", "stir_min", "pour_high_c")
"""What the bench asks of a wax card."""


def silent_cards(trial: Trial) -> tuple[tuple[Wax, str], ...]:
    """The waxes of a trial's test candles without a highest temperature, each with its sentence."""
    found = Wax.objects.filter(combination__candidate__trial=trial, never_above_c=None)
    return tuple((wax, _said(wax)) for wax in found.distinct().order_by("name"))


def _said(wax: Wax) -> str:
    if all(getattr(wax, name) is None for name in CARD):
        return f"The wax card of {wax} is empty: fill it in."
    return f"The wax card of {wax} does not say how hot it may be: fill it in."
