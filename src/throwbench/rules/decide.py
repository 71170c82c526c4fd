"""From what was looked at to findings: any burn, a mean, or more than half decides."""

from collections.abc import Sequence
from statistics import fmean
from typing import Literal

from throwbench.rules.limit import Limit
from throwbench.rules.look import READERS, Look
from throwbench.rules.result import Finding
from throwbench.rules.turn import Turn
from throwbench.science.words import plain

Outcome = Literal["broken", "mark", "within", "not seen"]
How = Literal["measured", "seen", "not seen"]


def looks(limit: Limit, turn: Turn, *, end_mm: float) -> tuple[Look, ...]:
    """All that one burn shows on one rule; nothing if nobody looked."""
    return tuple(READERS[limit.rule.id](turn, limit, end_mm))


def how_known(found: Sequence[Look]) -> How:
    """The best evidence among looks: measured before seen before not seen."""
    if any(look.how == "measured" for look in found):
        return "measured"
    return "seen" if found else "not seen"


def findings(limit: Limit, turns: Sequence[Turn], *, end_mm: float) -> tuple[Finding, ...]:
    """What one rule says of one candle.

    Parameters
    ----------
    limit : a rule that a log can tell (one with a reader)
    turns : the candle's burns in order
    end_mm : end line [mm]

    Returns
    -------
    Where any burn decides, one finding per burn; else one for all, dated by the last burn that
    was looked at, and none where there is nothing to judge.
    """
    if limit.rule.decides == "any burn":
        return tuple(_one_burn(limit, turn, looks(limit, turn, end_mm=end_mm)) for turn in turns)
    all_count = limit.rule.decides == "mean of all burns"
    judged = [turn for turn in turns if turn.judged or all_count]
    found = [(turn, looks(limit, turn, end_mm=end_mm)) for turn in judged]
    seen = [(turn, those) for turn, those in found if those]
    if not seen:
        return ()
    if limit.rule.decides == "more than half of the judged burns":
        return (_by_half(limit, seen, judged=len(judged)),)
    return (_by_mean(limit, seen),)


def _one_burn(limit: Limit, turn: Turn, found: Sequence[Look]) -> Finding:
    if not found:
        return _finding(limit, turn, over=None, how="not seen", value="not looked at")
    over = [look for look in found if look.over]
    measured = [look for look in found if look.how == "measured"]
    shown = (over or measured or found)[0]
    return _finding(
        limit, turn, over=bool(over), how=shown.how, value=shown.value, check_h=shown.check_h
    )


def _by_mean(limit: Limit, seen: Sequence[tuple[Turn, Sequence[Look]]]) -> Finding:
    numbers = [look.number for _, found in seen for look in found if look.number is not None]
    mean = fmean(numbers)
    count = "1 burn" if len(numbers) == 1 else f"{len(numbers)} burns"
    value = f"{plain(mean)} {limit.rule.unit} as the mean of {count}"
    over = not limit.allows(mean)
    return _finding(limit, seen[-1][0], over=over, how="measured", value=value)


def _by_half(limit: Limit, seen: Sequence[tuple[Turn, Sequence[Look]]], *, judged: int) -> Finding:
    heavy = sum(any(look.over for look in found) for _, found in seen)
    value = f"heavy in {heavy} of {judged} judged burns"
    return _finding(limit, seen[-1][0], over=heavy > judged / 2, how="seen", value=value)


def _finding(
    limit: Limit,
    turn: Turn,
    *,
    over: bool | None,
    how: How,
    value: str,
    check_h: float | None = None,
) -> Finding:
    rule = limit.rule
    return Finding(
        rule=rule.id,
        words=rule.words,
        outcome=_outcome(limit, over),
        evidence=how,
        candle=turn.burn.candle,
        burn=turn.burn.burn,
        check_h=check_h,
        value=value,
        limit=limit.sentence(),
        because=_because(limit, turn, value=value, check_h=check_h),
        source=limit.source(),
        house_limit=rule.house_limit or limit.set_by_maker,
        bars=limit.bars,
    )


def _outcome(limit: Limit, over: bool | None) -> Outcome:
    if over is None:
        return "not seen"
    if not over:
        return "within"
    return "broken" if limit.breaks_candles else "mark"


def _because(limit: Limit, turn: Turn, *, value: str, check_h: float | None) -> str:
    when = "" if check_h is None else f" at {plain(check_h)} h"
    where = f"{turn.burn.candle}, burn {turn.burn.burn}{when}"
    return (
        f"{where}: {limit.rule.words}: {value}. "
        f"Limit: {limit.sentence()}. Source: {limit.source()}."
    )
