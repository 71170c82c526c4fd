"""Options as they are written: a band, a scale, days of cure, a house limit."""

from collections.abc import Sequence

import click
from click.core import ParameterSource

from throwbench.cli.say import Refusal
from throwbench.formats.numbers import plain_number
from throwbench.verdict.question import MOST_STEPS
from throwbench.verdict.result import Band
from throwbench.verdict.words import listed

HOUSE_LIMIT = "Write for example: --house vessel-temperature=70"


def read_scale(text: str | None) -> tuple[int, int] | None:
    """'1-5' as (1, 5); None where nothing was said."""
    if text is None:
        return None
    low, high = _two_numbers(text, "--scale", "two whole steps, the lower one first, such as 1-5")
    if not (low.is_integer() and high.is_integer()):
        raise Refusal(
            f"--scale {text} is not a scale; it has 2 to {MOST_STEPS} whole steps. "
            "Write for example: 1-5"
        )
    steps = int(high - low) + 1
    if steps > MOST_STEPS:
        raise Refusal(
            f"--scale {text} has {steps} steps; a scale has 2 to {MOST_STEPS} of them. "
            f"Group the scores into at most {MOST_STEPS} steps and name that scale."
        )
    return int(low), int(high)


def read_band(text: str) -> Band:
    """'3.2-4.4' or 'kitchen=3.2-4.4' as a band for hot throw."""
    room, _, span = text.rpartition("=")
    low, high = _two_numbers(span, "--band", "two scores, the lower one first, such as 3.2-4.4")
    return Band(low, high, room.strip() or None)


def read_days(text: str | None) -> float | None:
    """'14' as 14 days of cure; None where nothing was said."""
    if text is None:
        return None
    days = _number(text, f"--cure-days {text}", "a number of days, such as 14")
    if days < 0:
        raise Refusal(f"--cure-days {text} is below 0; it is 0 days or more. Write for example: 14")
    return days


def read_house(entry: str) -> tuple[str, float]:
    """'rule=value' as the id of a rule and the maker's own figure."""
    rule, _, value = entry.partition("=")
    return rule.strip(), _number(
        value, f"--house {entry}", "a rule, =, and a figure", advice=HOUSE_LIMIT
    )


def _two_numbers(text: str, option: str, allowed: str) -> tuple[float, float]:
    parts = text.replace("–", "-").replace(" to ", "-").split("-")
    what = f"{option} {text}"
    if len(parts) != 2:
        raise Refusal(f"{what} is not understood; it is {allowed}. Write it so.")
    low, high = (_number(part, what, allowed) for part in parts)
    if low >= high:
        raise Refusal(f"{what} ends before it begins; it is {allowed}. Turn it round.")
    return low, high


def _number(text: str, what: str, allowed: str, *, advice: str = "Write it so.") -> float:
    value = plain_number(text.strip())
    if value is None:
        raise Refusal(f"{what} is not understood; it is {allowed}. {advice}")
    return value


def refuse_unused(ctx: click.Context, names: Sequence[str], *, belongs_to: str) -> None:
    """An option that would change nothing is said, because the maker meant something by it."""
    spelled = {param.name: param.opts[0] for param in ctx.command.params}
    given = [
        spelled[name]
        for name in names
        if ctx.get_parameter_source(name) is ParameterSource.COMMANDLINE
    ]
    if given:
        it, them, belongs = (
            ("It", "it", "belongs") if len(given) == 1 else ("They", "them", "belong")
        )
        raise Refusal(
            f"{listed(given)} would change nothing here. "
            f"{it} {belongs} to {belongs_to}. Leave {them} out."
        )
