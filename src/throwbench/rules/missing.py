"""What is missing before a candle's limits are known: the one check that would settle it."""

from collections.abc import Sequence
from dataclasses import dataclass

from throwbench.rules.turn import Turn, last_wax
from throwbench.science.words import plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Unseen:
    """What nobody looked at: in one burn, or (burn None) in any judged burn.

    `noted` is what was noted of it and does not say enough: "flare-up of up to 10 s, and the limit
    is at most 5 s".
    """

    look: str
    burn: int | None
    noted: str = ""


def not_in_the_log(turns: Sequence[Turn]) -> list[int]:
    """Numbers of burns that must have been, since a later one is in the log."""
    numbers = {turn.burn.burn for turn in turns}
    return sorted(set(range(1, max(numbers, default=0) + 1)) - numbers)


def missing_for(
    candle: str, turns: Sequence[Turn], unseen: Sequence[Unseen], end_mm: float
) -> str | None:
    """The one check that would settle a candle that broke nothing; None if nothing is missing.

    Parameters
    ----------
    candle : its code
    turns : its burns in order
    unseen : what nobody looked at, in the order of the burns
    end_mm : end line [mm]

    Notes
    -----
    What was not looked at in a burn that is over cannot be made up for with this candle, so it
    stands before the end line: burning on would settle nothing.
    """
    gaps = not_in_the_log(turns)
    if gaps:
        return (
            f"Burn {gaps[0]} of {candle} is not in the log: write it down, "
            f"or burn one more test candle {to_the_end(end_mm)}."
        )
    for item in unseen:
        if item.noted:
            return (
                f"Burn {item.burn} of {candle} has a {item.noted}: how long was it? Write the "
                "seconds, or watch for that in one more test candle."
            )
    if unseen:
        return _unseen(candle, unseen)
    return _burned_down(candle, turns, end_mm)


def to_the_end(end_mm: float) -> str:
    """'to 12 mm of wax'."""
    return f"to {plain(end_mm)} mm of wax"


def _unseen(candle: str, unseen: Sequence[Unseen]) -> str:
    first = unseen[0]
    if first.burn is None:
        return (
            f"Nobody measured {first.look} in a judged burn of {candle}: "
            "measure it in one more burn."
        )
    *looks, last = dict.fromkeys(item.look for item in unseen if item.burn is not None)
    what = f"{', '.join(looks)} and {last}" if looks else last
    burns = {item.burn for item in unseen if item.burn is not None}
    where = f"burn {first.burn}" if len(burns) == 1 else f"{len(burns)} burns"
    return f"Watch for {what} in one more test candle: nobody looked in {where} of {candle}."


def _burned_down(candle: str, turns: Sequence[Turn], end_mm: float) -> str | None:
    wax = last_wax(turns)
    if wax is None and turns:
        return (
            f"Measure the wax left in {candle}; if it is more than {plain(end_mm)} mm, "
            "burn it down to that."
        )
    if wax is None or wax.mm > end_mm:
        return f"Burn {candle} {to_the_end(end_mm)}."
    return None
