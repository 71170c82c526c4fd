"""The burns of a candle, for any page about it: `{% candle_burns candle %}`."""

from typing import Any

from django import template

from throwbench.workshop.trials.models import TestCandle
from throwbench.workshop.trials.selectors.burn_pages import logs_of

register = template.Library()


@register.inclusion_tag("trials/burn_logs.html")
def candle_burns(candle: TestCandle) -> dict[str, Any]:
    """Every burn with its checks: measured, seen and not seen told apart, slips visible."""
    return {"candle": candle, "logs": logs_of(candle)}
