"""What is unlikely on a shelf, as questions: asked about, never forbidden.

The ends are common practice; what cannot be is refused by the tables.
"""

from collections.abc import Mapping
from math import pi
from typing import Any

from throwbench.science.units import convert
from throwbench.science.words import plain

Told = Mapping[str, Any]
HEATS = {
    "melts_at_c": "Melts at",
    "never_above_c": "Never above",
    "add_oil_low_c": "Add oil from",
    "add_oil_high_c": "Add oil up to",
    "pour_low_c": "Pour from",
    "pour_high_c": "Pour up to",
}
HOT_C, HOT_FLASH_C = 110, 150
"""Above this a figure was probably read in °F."""


def of_wax(told: Told) -> list[str]:
    """Questions about a wax card."""
    hot = [_fahrenheit(words, told.get(name), HOT_C) for name, words in HEATS.items()]
    return [said for said in hot if said] + [said for unlikely, said in _of_card(told) if unlikely]


def _of_card(told: Told) -> list[tuple[bool, str]]:
    return [
        (
            _below(told, "add_oil_low_c", "melts_at_c"),
            "The oil would go in below the melting point. It goes into wax that is all liquid. "
            "Check “add oil from” and “melts at”.",
        ),
        (
            _below(told, "add_oil_high_c", "pour_high_c"),
            "The wax would be poured hotter than the oil goes in. Wax cools from the one to the "
            "other. Check “add oil up to” and “pour up to”.",
        ),
        (
            _below(told, "pour_high_c", "melts_at_c"),
            "The wax would be poured below its melting point. Most waxes are poured above it. "
            "Check “pour up to” and “melts at”.",
        ),
        (
            _below(told, "solid_g_ml", "liquid_g_ml"),
            "Liquid wax would be heavier than solid wax. Wax shrinks as it sets, so it is the "
            "other way round. Check the two densities.",
        ),
        (
            _above(told, "max_load_percent", 15),
            f"The maximum load is {_figure(told, 'max_load_percent')} % of wax. Wax cards rarely "
            "go above 12 % of wax. Check the figure.",
        ),
        (
            _above(told, "cure_days", 60),
            f"The cure is {_figure(told, 'cure_days')} days. Cards name 1 to 21 days. "
            "Check that the figure is in days.",
        ),
    ]


def of_oil(told: Told) -> list[str]:
    """Questions about an oil's facts."""
    hot = _fahrenheit("Flash point", told.get("flash_c"), HOT_FLASH_C)
    asked = [
        (
            _above(told, "density_g_ml", 1.25) or _under(told, "density_g_ml", 0.8),
            f"The density is {_figure(told, 'density_g_ml')} g/ml. Fragrance oils have 0.8 to "
            "1.25 g/ml. Check the figure and its unit.",
        ),
        (
            _above(told, "vanillin_percent", 25),
            f"Vanillin is {_figure(told, 'vanillin_percent')} % of the oil. More than 25 % is "
            "rare. Check the figure.",
        ),
    ]
    return ([hot] if hot else []) + [said for unlikely, said in asked if unlikely]


def of_vessel(told: Told) -> list[str]:
    """Questions about a vessel's measures."""
    wide, high, brim = (told.get(name) for name in ("inside_mm", "height_mm", "brim_ml"))
    if wide is None or high is None or brim is None:
        return []
    straight = straight_volume_ml(inside_mm=wide, height_mm=high)
    if 0.4 * straight <= brim <= 1.1 * straight:
        return []
    return [
        f"{plain(brim)} ml to the brim does not fit {plain(wide)} mm across and {plain(high)} mm "
        f"high: a straight vessel of that size holds {straight:.0f} ml. Check the three figures "
        "and their units."
    ]


def straight_volume_ml(*, inside_mm: float, height_mm: float) -> float:
    """Volume [ml] of a straight round vessel."""
    return pi / 4 * inside_mm**2 * height_mm / 1000


def _fahrenheit(words: str, value: float | None, hot: float) -> str:
    if value is None or value <= hot:
        return ""
    meant = plain(convert(value, unit="°F", to="°C"))
    return (
        f"{words} is {plain(value)} °C, which is rare. If {plain(value)} °F is meant, that is "
        f"{meant} °C: write “{plain(value)}F”."
    )


def _figure(told: Told, name: str) -> str:
    value = told.get(name)
    return "not known" if value is None else plain(value)


def _above(told: Told, name: str, end: float) -> bool:
    value = told.get(name)
    return value is not None and value > end


def _under(told: Told, name: str, end: float) -> bool:
    value = told.get(name)
    return value is not None and value < end


def _below(told: Told, lower: str, upper: str) -> bool:
    """Whether both are known and the first lies under the second."""
    first, second = told.get(lower), told.get(upper)
    return first is not None and second is not None and first < second
