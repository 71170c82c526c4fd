"""One step of the ladder: whether it is live now, and in which words."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RungNow:
    """How one rung stands now."""

    rung: str
    live: bool
    words: str
    """'on, heard at 10:58'."""
    trouble: str = ""
    """Why it did not ring when it should have; empty where it did."""
