"""What pages of other rooms show of the line, loaded by its name."""

from typing import Any

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from throwbench.workshop.line.evidence import evidence_of, said_of_oil
from throwbench.workshop.shelf.models import Oil

register = template.Library()


@register.inclusion_tag("line/oil_evidence.html")
def oil_evidence(oil: Oil) -> dict[str, Any]:
    """Cold and hot: what the last verdicts say of an oil, and what was decided."""
    return {"oil": oil, "found": evidence_of(oil)}


@register.simple_tag
def oil_said(oil: Oil) -> str:
    """What noses found of an oil in one sentence; empty before a verdict speaks of it."""
    return said_of_oil(oil)


@register.simple_tag
def drawing(svg: str) -> SafeString:
    """A drawing that the house made itself; every name in it was escaped when it was drawn."""
    return mark_safe(svg)


@register.filter
def names_first(hold: tuple[str, str]) -> SafeString:
    """A sentence that begins with the name of an oil, the name in bold."""
    name, rest = hold
    return format_html("<strong>{}</strong>{}", name, rest) if name else format_html("{}", rest)
