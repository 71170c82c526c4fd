"""What one burn shows on one rule: by the column it reads, else by a reader of its own."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from throwbench.records import Burn, Check, columns
from throwbench.rules.limit import Limit
from throwbench.rules.rule import Rule, rules
from throwbench.rules.turn import Turn
from throwbench.science.burn import hours_between
from throwbench.science.words import measured, plain

How = Literal["measured", "seen"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One thing measured or seen. `over`: it breaks the limit, as far as one look can say.

    None: what was noted does not say, since its words name another figure than the limit.
    """

    how: How
    over: bool | None
    value: str
    number: float | None = None
    check_h: float | None = None


Reader = Callable[[Turn, Limit, float], Iterator[Look]]
"""From a burn, the limit and the end line [mm] to what was looked at; nothing if nobody looked."""


def flame_height(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    """A measured flame, and the flame against the mark of the gauge card: either one breaks."""
    for check in turn.burn.checks:
        if check.flame_mm is not None:
            yield _measured(check.flame_mm, limit, check)
        if check.flame is not None:
            over = check.flame == "over"
            yield _seen(f"{check.flame} the mark", check, over=over)
        elif check.flame_mm is None:
            yield from _no_change(check)


def secondary_ignition(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    """Something other than the wick burned: by the clock, and as seen.

    The whole pool on fire is the business of another rule; how long it burned is not known. A
    grade is held against a figure only as far as it names one; beyond that the seconds decide.
    """
    for check in turn.burn.checks:
        if check.flare_up_s is not None:
            yield _measured(check.flare_up_s, limit, check)
        if check.flare_up in ("none", "short", "long"):
            yield from _flare_up(check.flare_up, check, limit)
        elif check.flare_up is None and check.flare_up_s is None:
            yield from _no_change(check)


def _flare_up(grade: str, check: Check, limit: Limit) -> Iterator[Look]:
    """'short' is up to the figure that the grades name, 'long' is longer than that."""
    said = undecided_words(grade, limit)
    if not said:
        yield _seen(grade, check, over=grade == "long")
    elif check.flare_up_s is None:
        yield _seen(said, check, over=None)


def undecided_words(grade: str, limit: Limit) -> str:
    """'up to 10 s' where the words of a grade do not tell whether the limit holds; else nothing."""
    assert limit.figure is not None
    assert limit.rule.worded is not None
    figure = f"{plain(limit.rule.worded)} {limit.rule.unit}"
    if grade == "short" and limit.figure < limit.rule.worded:
        return f"up to {figure}"
    if grade == "long" and limit.figure > limit.rule.worded:
        return f"longer than {figure}"
    return ""


def flashover(turn: Turn, _limit: Limit, _end_mm: float) -> Iterator[Look]:
    """The whole pool ignited. A flare-up of 0 s says that nothing did."""
    for check in turn.burn.checks:
        if check.flare_up is not None:
            over = check.flare_up == "pool"
            yield _seen("whole pool ignited" if over else "pool did not ignite", check, over=over)
        elif check.flare_up_s == 0:
            yield _seen("nothing flared up", check, over=False)
        elif check.flare_up_s is None:
            yield from _no_change(check)


def soot(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    for check in turn.burn.checks:
        if check.soot is not None:
            yield _seen(check.soot, check, over=check.soot == limit.rule.counts)
        else:
            yield from _no_change(check)


def relights(turn: Turn, _limit: Limit, _end_mm: float) -> Iterator[Look]:
    yield from _yes_or_no(turn.burn.relit, yes="burned again by itself", no="stayed out")


def wick_stays(turn: Turn, _limit: Limit, _end_mm: float) -> Iterator[Look]:
    yield from _yes_or_no(turn.burn.wick_moved, yes="moved", no="stayed")


def vessel_damage(turn: Turn, _limit: Limit, _end_mm: float) -> Iterator[Look]:
    damage = turn.burn.vessel_damage
    if damage is not None:
        yield Look(how="seen", over=damage != "none", value=damage)


def goes_out(turn: Turn, _limit: Limit, end_mm: float) -> Iterator[Look]:
    """Went out by itself: not judged in the first burn, nor once the end line is reached."""
    if turn.burn.put_out is None:
        return
    at_the_end = turn.wax_after is not None and turn.wax_after.mm <= end_mm
    if turn.burn.put_out != "went out":
        yield Look(how="seen", over=False, value=turn.burn.put_out)
    else:
        over = turn.judged and not at_the_end
        yield Look(how="seen", over=over, value="went out by itself")


def pool_depth(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    """The last reading of the burn."""
    found = [
        (check.check_h or 0.0, check.pool_depth_mm)
        for check in turn.burn.checks
        if check.pool_depth_mm is not None
    ]
    yield from _number(max(found)[1] if found else None, limit)


def burn_length(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    yield from _number(hours_between(turn.burn.lit_at, turn.burn.out_at), limit)


def cooling(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    """From the end of the burn before; the first burn has none.

    A burn that was lit before the one before was out is a slip of the dates, not of the handling.
    """
    if turn.before is not None:
        rest_h = hours_between(turn.before.out_at, turn.burn.lit_at)
        yield from _number(rest_h if rest_h >= 0 else None, limit)


def end_line(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    """Lit again although the wax was down to the end line."""
    yield from _number(turn.wax_when_lit.mm if turn.wax_when_lit else None, limit)


def of_the_burn(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    """The figure of the burn that the rule reads."""
    yield from _number(getattr(turn.burn, limit.rule.reads[0]), limit)


def of_the_checks(turn: Turn, limit: Limit, _end_mm: float) -> Iterator[Look]:
    """Of the figures that the rule reads in the checks of the burn, the worst."""
    read = (getattr(check, limit.rule.reads[0]) for check in turn.burn.checks)
    found = [number for number in read if number is not None]
    worst = min if limit.rule.compare in ("at least", "more than") else max
    yield from _number(worst(found, default=None), limit)


FIGURES: dict[str, Reader] = {
    **{column.name: of_the_burn for column in columns(Burn) if column.unit},
    **{column.name: of_the_checks for column in columns(Check) if column.unit},
}
"""Readers by the column that a rule reads first; one in limits.yaml needs no more."""

OWN: dict[str, Reader] = {
    "flame-height": flame_height,
    "secondary-ignition": secondary_ignition,
    "flashover": flashover,
    "relights": relights,
    "vessel-damage": vessel_damage,
    "goes-out": goes_out,
    "wick-stays": wick_stays,
    "soot": soot,
    "pool-depth": pool_depth,
    "burn-length": burn_length,
    "cooling": cooling,
    "end-line": end_line,
}
"""Readers of rules that words decide, or that work something out."""


def _reader_of(rule: Rule) -> Reader | None:
    return OWN.get(rule.id) or FIGURES.get(next(iter(rule.reads), ""))


READERS: dict[str, Reader] = {
    rule.id: reader for rule in rules() if (reader := _reader_of(rule)) is not None
}
"""Rules without a reader cannot be known from a log: they are listed, never judged."""


def _measured(number: float, limit: Limit, check: Check) -> Look:
    return Look(
        how="measured",
        over=not limit.allows(number),
        value=measured(number, limit.rule.unit),
        number=number,
        check_h=check.check_h,
    )


def _seen(value: str, check: Check, *, over: bool | None) -> Look:
    return Look(how="seen", over=over, value=value, check_h=check.check_h)


def _no_change(check: Check) -> Iterator[Look]:
    """'Seen, no change' on what was left blank: it was looked at, and no figure is copied."""
    if check.no_change:
        yield _seen("no change", check, over=False)


def _yes_or_no(answer: bool | None, *, yes: str, no: str) -> Iterator[Look]:
    if answer is not None:
        yield Look(how="seen", over=answer, value=yes if answer else no)


def _number(number: float | None, limit: Limit) -> Iterator[Look]:
    if number is not None:
        over = not limit.allows(number)
        value = measured(number, limit.rule.unit)
        yield Look(how="measured", over=over, value=value, number=number)
