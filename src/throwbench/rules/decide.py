"""From what was looked at to findings: any burn, a mean, or more than half decides."""

from collections.abc import Sequence
from statistics import fmean
from typing import Literal

from throwbench.rules.limit import Limit
from throwbench.rules.look import READERS, Look
from throwbench.rules.result import Finding
from throwbench.rules.turn import Turn
from throwbench.science.words import counted, duration, plain

Outcome = Literal["broken", "mark", "within", "not seen"]
How = Literal["measured", "seen", "not seen"]


def looks(limit: Limit, turn: Turn, *, end_mm: float) -> tuple[Look, ...]:
    """All that one burn shows on one rule; nothing if nobody looked."""
    return tuple(READERS[limit.rule.id](turn, limit, end_mm))


def undecided(found: Sequence[Look]) -> Look | None:
    """The first look that may break the limit and does not say, where none surely does."""
    if any(look.over for look in found):
        return None
    return next((look for look in found if look.over is None), None)


def how_known(found: Sequence[Look]) -> How:
    """The best evidence among looks: measured before seen before not seen."""
    if undecided(found):
        return "not seen"
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
    where = f"{turn.burn.candle}, burn {turn.burn.burn}"
    if not found:
        return _finding(limit, turn, where=where, over=None, how="not seen", value="not looked at")
    open_ = undecided(found)
    if open_ is not None:
        value = f"{open_.value}, without the seconds"
        return _finding(limit, turn, where=where, over=None, how="not seen", value=value)
    over = [look for look in found if look.over]
    measured = [look for look in found if look.how == "measured"]
    shown = (over or measured or found)[0]
    at_h = shown.check_h
    where = where if at_h is None else f"{where} at {duration(at_h)}"
    return _finding(
        limit,
        turn,
        where=where,
        over=bool(over),
        how=shown.how,
        value=shown.value,
        check_h=at_h,
    )


def _by_mean(limit: Limit, seen: Sequence[tuple[Turn, Sequence[Look]]]) -> Finding:
    numbers = [look.number for _, found in seen for look in found if look.number is not None]
    mean = fmean(numbers)
    last = seen[-1][0]
    return _finding(
        limit,
        last,
        where=last.burn.candle,
        over=not limit.allows(mean),
        how="measured",
        value=f"{plain(mean)} {limit.rule.unit}, mean of {counted(len(numbers), 'burn')}",
    )


def _by_half(limit: Limit, seen: Sequence[tuple[Turn, Sequence[Look]]], *, judged: int) -> Finding:
    over = sum(any(look.over for look in found) for _, found in seen)
    last = seen[-1][0]
    return _finding(
        limit,
        last,
        where=last.burn.candle,
        over=over > judged / 2,
        how="seen",
        value=f"{limit.rule.counts} in {over} of {counted(judged, 'judged burn')}",
    )


def _finding(
    limit: Limit,
    turn: Turn,
    *,
    where: str,
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
        because=(
            f"{where}: {rule.words}: {value}. Limit: {limit.sentence()}. Source: {limit.source()}."
        ),
        source=limit.source(),
        house_limit=rule.house_limit or limit.set_by_maker,
        bars=limit.bars,
        where=where,
    )


def _outcome(limit: Limit, over: bool | None) -> Outcome:
    if over is None:
        return "not seen"
    if not over:
        return "within"
    return "broken" if limit.breaks_candles else "mark"
