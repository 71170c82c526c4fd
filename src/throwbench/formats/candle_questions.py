"""What is asked about the burns of one candle, one beside the next."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from throwbench.formats.numbers import said
from throwbench.formats.problem import Note
from throwbench.formats.questions import moment, note
from throwbench.records import Burn
from throwbench.rules import newest_figure
from throwbench.science.burn import hours_between
from throwbench.science.words import duration

BETWEEN_BURNS_G = 2.0


def questions_of_candle(
    burns: Iterable[Burn], *, house: Mapping[str, float] | None = None
) -> list[Note]:
    """All that is asked about the burns of one candle, whatever their order.

    `house` has the maker's own limits by rule id.
    """
    cooling_h = newest_figure("cooling", house or {})
    ordered = sorted(burns, key=lambda burn: burn.burn)
    numbers = [0, *(burn.burn for burn in ordered)]
    return [
        *(
            _gap(burn, last)
            for last, burn in zip(numbers, ordered, strict=False)
            if burn.burn > last + 1
        ),
        *(item for last, burn in pairwise(ordered) for item in _pause(last, burn, cooling_h)),
        *(item for last, burn in pairwise(ordered) for item in _mass(last, burn)),
    ]


def _gap(burn: Burn, last: int) -> Note:
    missing = (
        f"burn {last + 1} is"
        if burn.burn == last + 2
        else f"burns {last + 1} to {burn.burn - 1} are"
    )
    return note(
        burn.line,
        "burn",
        burn.burn,
        "asked",
        f"burn {burn.burn} of candle {burn.candle} is asked about, {missing} not among the "
        "burns read; burns are numbered 1, 2, ... without gaps: add what is missing, or "
        "correct the number.",
    )


def _pause(last: Burn, burn: Burn, cooling_h: float) -> Iterator[Note]:
    hours = hours_between(last.out_at, burn.lit_at)
    if hours < cooling_h:
        words = (
            f"{duration(hours)} after burn {last.burn} was out"
            if hours >= 0
            else f"before burn {last.burn} was out ({moment(last.out_at)})"
        )
        yield note(
            burn.line,
            "lit_at",
            moment(burn.lit_at),
            "asked",
            f"{moment(burn.lit_at)} is asked about, it is {words}; usual is {duration(cooling_h)} "
            "to cool, or more: check the times and the number, they are used as written.",
        )


def _mass(last: Burn, burn: Burn) -> Iterator[Note]:
    after, before = last.mass_after_g, burn.mass_before_g
    if after is None or before is None or last.burn + 1 != burn.burn:
        return
    if abs(before - after) > BETWEEN_BURNS_G:
        yield note(
            burn.line,
            "mass_before_g",
            said(before),
            "asked",
            f"{said(before)} g is asked about, after burn {last.burn} it was {said(after)} g; "
            f"usual is a difference of at most {said(BETWEEN_BURNS_G)} g: check both, and "
            "whether two candles were swapped; they are used as written.",
        )
