"""How the shelf says what it knows, and what it does not."""

from datetime import date

from throwbench.science.words import plain

HARDLY_PERCENT = 0.5
"""Up to this share of vanillin little browning is expected; common practice."""
NARROW = "\N{NO-BREAK SPACE}"


def with_year(day: date | None) -> str:
    """31 Jan 2027."""
    return "a day not known" if day is None else f"{day.day}{NARROW}{day:%b}{NARROW}{day:%Y}"


def vanillin_words(percent: float | None) -> str:
    """What the share of vanillin lets expect."""
    if percent is None:
        return "vanillin: not known, so browning is open"
    if percent == 0:
        return "vanillin: no browning to expect from it"
    if percent <= HARDLY_PERCENT:
        return "vanillin: little browning to expect"
    return "vanillin: browning to expect, look at a candle after two weeks"


def vanillin_said(percent: float | None) -> str:
    """The same with the share: 'vanillin 4 %: browning to expect, …'."""
    words = vanillin_words(percent)
    if not percent:
        return words
    return words.replace("vanillin", f"vanillin {plain(percent)}{NARROW}%", 1)


def is_to_brown(percent: float | None) -> bool:
    """Whether the shelf expects browning; a share that is not known expects nothing."""
    return percent is not None and percent > HARDLY_PERCENT


def yes_or_no(value: bool | None) -> str:
    """A tick of a table as a word."""
    return {None: "not known", True: "yes", False: "no"}[value]


def span(low: float | None, high: float | None, unit: str) -> str:
    """'70 to 74 °C', 'from 70 °C', 'up to 74 °C', 'not known'."""
    if low is None and high is None:
        return "not known"
    if high is None or low is None:
        word, end = ("from", low) if high is None else ("up to", high)
        return f"{word} {plain(end or 0)}{NARROW}{unit}"
    if low == high:
        return f"{plain(low)}{NARROW}{unit}"
    return f"{plain(low)} to {plain(high)}{NARROW}{unit}"
