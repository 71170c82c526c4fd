"""A number as people write it, with a point or a comma."""

import re

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)
_COULD_BE_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}", re.ASCII)


def plain_number(text: str) -> float | None:
    """The number that a text means, or None if it means none; "6,5" is 6.5."""
    text = text.replace("\N{MINUS SIGN}", "-")
    if not _NUMBER.fullmatch(text):
        return None
    value = float(text.replace(",", "."))
    return value if abs(value) < float("inf") else None


def could_be_thousands(text: str) -> bool:
    """Whether a comma may part thousands: "1,234" is 1.234 to one maker and 1234 to another."""
    return _COULD_BE_THOUSANDS.fullmatch(text) is not None


def said(value: float) -> str:
    """A number as a sentence says it, without a tail of digits."""
    return f"{value:.10g}"
