"""How the shelf writes days, amounts and figures."""

from datetime import date

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString

from throwbench.science.words import plain
from throwbench.workshop.shelf.models import Lot
from throwbench.workshop.shelf.selectors.words import NARROW, with_year

register = template.Library()


@register.filter
def on_day(value: date | None, otherwise: str = "not known") -> str:
    """31 Jan 2027."""
    return otherwise if value is None else with_year(value)


@register.filter
def day_month(value: date) -> str:
    """31 Jan."""
    return f"{value.day}{NARROW}{value:%b}"


@register.filter
def how_much(lot: Lot) -> str:
    """200 g, 10 kg or 60 pieces."""
    if lot.count is not None:
        return f"{lot.count}{NARROW}piece{'' if lot.count == 1 else 's'}"
    if lot.amount_mg is None:
        return "not known"
    grams = lot.amount_mg / 1000
    return f"{plain(grams)}{NARROW}g" if grams < 1000 else f"{plain(grams / 1000)}{NARROW}kg"


@register.filter
def euros(cents: int | None) -> str:
    """18.40 €."""
    return "not known" if cents is None else f"{cents / 100:,.2f}{NARROW}€"


@register.simple_tag
def figure(value: float | None, unit: str) -> SafeString:
    """A large figure with its unit in the words' face; "not known" in words."""
    if value is None:
        return SafeString('<span class="unknown">not known</span>')
    return format_html(
        '<span class="fig">{}<span class="unit">{}</span></span>', plain(value), unit
    )
