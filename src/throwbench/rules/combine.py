"""From candles to combinations: what is barred, what is open, and what each is called."""

from collections.abc import Sequence
from itertools import groupby
from typing import Literal

from throwbench.rules.limit import Limit, figure_of, not_tried
from throwbench.rules.missing import to_the_end
from throwbench.rules.result import CandleLimits, CombinationLimits, Finding, State
from throwbench.science.words import plain, wick_words

NOT_WRITTEN = "not written down"

Part = Literal["fixing", "vessel"]
Key = tuple[str, ...]
"""Oil, wick, load, vessel, wax, and the candle itself where nothing says what it is made of."""


def combine(
    candles: Sequence[CandleLimits], *, limits: tuple[Limit, ...]
) -> tuple[CombinationLimits, ...]:
    """The candles of each oil x load x wax x wick x vessel, judged together.

    Parameters
    ----------
    candles : judged one by one, in any order
    limits : in force

    Returns
    -------
    By oil, wick, load, vessel and wax. Unknown is a value like any other: two candles whose wick
    nobody wrote down are one combination.

    Checked against: definition.
    """
    ordered = sorted(candles, key=lambda item: (_key(item), item.candle))
    groups = {key: tuple(found) for key, found in groupby(ordered, key=_key)}
    return tuple(
        _combination(found, label=_label(key, tuple(groups)), limits=limits)
        for key, found in groups.items()
    )


def _key(candle: CandleLimits) -> Key:
    made_of = candle.combination
    if made_of is None:
        return ("", "", "", "", "", candle.candle)
    return (
        made_of.oil,
        made_of.wick or "",
        "" if made_of.load_percent is None else f"{made_of.load_percent:010.4f}",
        made_of.vessel or "",
        made_of.wax or "",
        "",
    )


def _label(key: Key, keys: Sequence[Key]) -> str:
    """The wick, and whatever else tells it from the oil's other combinations."""
    oil, wick, load, vessel, wax, candle = key
    if candle:
        return candle
    others = [other for other in keys if other[0] == oil and not other[5]]
    words = (
        wick_words(wick) or "unknown wick",
        f"{plain(float(load))} % of wax" if load else "unknown load",
        vessel or "unknown vessel",
        wax or "unknown wax",
    )
    differ = [len({other[place] for other in others}) > 1 for place in range(1, 5)]
    return ", ".join(word for place, word in enumerate(words) if differ[place] or place == 0)


def _combination(
    candles: tuple[CandleLimits, ...], *, label: str, limits: tuple[Limit, ...]
) -> CombinationLimits:
    made_of = candles[0].combination
    broken = tuple(item for candle in candles for item in candle.broken if item.bars != "fixing")
    state = _state(candles, broken)
    return CombinationLimits(
        oil=made_of.oil if made_of else "",
        label=label,
        wick=made_of.wick if made_of else None,
        state=state,
        candles=candles,
        broken=broken,
        missing=_missing(candles, limits) if state == "not yet known" else None,
        not_tried=not_tried(limits),
        barred_fixing=_barred(candles, "fixing"),
        barred_vessel=_barred(candles, "vessel"),
    )


def _state(candles: Sequence[CandleLimits], broken: Sequence[Finding]) -> State:
    if broken:
        return "broken"
    clean = any(candle.state == "none broken" for candle in candles)
    unread = any(candle.unread for candle in candles)
    return "none broken" if clean and not unread else "not yet known"


def _missing(candles: Sequence[CandleLimits], limits: tuple[Limit, ...]) -> str:
    """The check that settles it soonest: a log to put right, else the candle nearest its end."""
    open_ones = [candle for candle in candles if candle.missing is not None]
    if open_ones:
        best = min(
            open_ones,
            key=lambda item: (
                not item.unread,
                item.evidence.not_seen > 0,
                -item.burns,
                item.candle,
            ),
        )
        return str(best.missing)
    moved = candles[0]
    fixing = _named(moved, "fixing") or f"fixing {NOT_WRITTEN}"
    return (
        f"The wick moved in {moved.candle} ({fixing}): burn one more test candle with another "
        f"fixing {to_the_end(figure_of('end-line', limits))}."
    )


def _barred(candles: Sequence[CandleLimits], part: Part) -> str | None:
    """The fixing or the vessel that is barred, by name where it is known."""
    what = "fixing" if part == "fixing" else "combination and vessel"
    for candle in candles:
        if any(item.bars == what for item in candle.broken):
            named = _named(candle, part)
            return named or f"the {part} of {candle.candle} ({NOT_WRITTEN})"
    return None


def _named(candle: CandleLimits, part: Part) -> str | None:
    made_of = candle.combination
    if made_of is None:
        return None
    return made_of.fixing if part == "fixing" else made_of.vessel
