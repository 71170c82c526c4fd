"""The rules in force on a day, with the maker's own figures."""

import operator
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from math import isfinite

from throwbench.rules.rule import Bars, Rule, rules
from throwbench.science.errors import UnclearError
from throwbench.science.words import measured

HOLDS = {
    "at most": operator.le,
    "at least": operator.ge,
    "more than": operator.gt,
    "below": operator.lt,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A rule with the figure that holds; `figure` is None where the rule is 'never'."""

    rule: Rule
    figure: float | None
    set_by_maker: bool = False

    @property
    def breaks_candles(self) -> bool:
        """Whether it can break a candle: a candle rule, or a hint that the maker made a limit."""
        return self.rule.kind == "candle rule" or (self.rule.kind == "hint" and self.set_by_maker)

    @property
    def bars(self) -> Bars:
        made_a_limit = self.rule.kind == "hint" and self.set_by_maker
        return "combination" if made_a_limit else self.rule.bars

    @property
    def asked_for(self) -> bool:
        """Whether a candle is clean only if this was looked at.

        Everything a person can see is asked for; a measured rule only if the maker has set it.
        """
        return self.breaks_candles and (self.rule.known == "by eye" or self.set_by_maker)

    def allows(self, number: float) -> bool:
        """Whether a reading keeps the limit; one exactly on it is decided by the rule's words."""
        assert self.figure is not None, f"{self.rule.id} has no figure"
        holds: bool = HOLDS[self.rule.compare](number, self.figure + self.allowance)
        return holds

    @property
    def allowance(self) -> float:
        """What is let pass beyond the figure: nothing beyond one that the maker set."""
        return 0.0 if self.set_by_maker else self.rule.allowance

    def sentence(self) -> str:
        """'at most 75 mm (house limit)', or 'never'; an allowance is said."""
        if self.set_by_maker:
            return f"{self.allowed()} (house limit, set by the maker)"
        return f"{self.allowed()} (house limit)" if self.rule.house_limit else self.allowed()

    def allowed(self) -> str:
        """'at most 75 mm', with its allowance; or what else the rule allows."""
        if self.rule.decides == "more than half of the judged burns":
            return "in at most half of the judged burns"
        if self.figure is None:
            return self.rule.compare
        said = f"{self.rule.compare} {measured(self.figure, self.rule.unit)}"
        spare = f" with an allowance of {measured(self.allowance, self.rule.unit)}"
        return f"{said}{spare}" if self.allowance else said

    def source(self) -> str:
        """Who says so, with the article; how much of it was read stands in the reference."""
        if self.rule.article == "none":
            return self.rule.source
        if self.rule.article == "not read":
            return f"{self.rule.source} (the standard itself was not read)"
        return f"{self.rule.source}, {self.rule.article}"


def limits_on(day: date, *, house: Mapping[str, float] | None = None) -> tuple[Limit, ...]:
    """The limits in force on a day.

    Parameters
    ----------
    day : of the judgement
    house : the maker's own figures by rule id, in the rule's unit; they stand above the defaults

    Returns
    -------
    In the order of the file. A rule whose figure is not yet in force, or that only the maker can
    set and did not, is left out: it is not judged.

    Raises
    ------
    UnclearError
        A rule that is not known, that has no figure to set, or a figure that is not a number
        above zero.

    Checked against: definition.
    """
    own = dict(house or {})
    for name, value in own.items():
        _check_own(name, value)
    found = (_limit(rule, day=day, own=own.get(rule.id)) for rule in rules())
    return tuple(
        limit for limit in found if limit.figure is not None or limit.rule.compare == "never"
    )


def columns_that_break(house: Mapping[str, float]) -> frozenset[str]:
    """The columns of a burn log that can show a broken candle, with the maker's own figures.

    Checked against: definition.
    """
    limits = (Limit(rule=rule, figure=None, set_by_maker=rule.id in house) for rule in rules())
    return frozenset(
        name
        for limit in limits
        if limit.breaks_candles
        and (limit.rule.compare == "never" or limit.rule.figures or limit.set_by_maker)
        for name in limit.rule.reads
    )


def figure_of(rule_id: str, limits: tuple[Limit, ...]) -> float:
    """The figure of one rule among those in force."""
    figures = {limit.rule.id: limit.figure for limit in limits}
    figure = figures[rule_id]
    assert figure is not None, f"{rule_id} has no figure"
    return figure


def not_tried(limits: tuple[Limit, ...]) -> tuple[str, ...]:
    """What needs a laboratory, each with its source."""
    return tuple(
        f"{limit.rule.words} ({limit.rule.source})"
        for limit in limits
        if limit.rule.kind == "laboratory"
    )


def _limit(rule: Rule, *, day: date, own: float | None) -> Limit:
    if own is None:
        return Limit(rule=rule, figure=rule.figure_on(day))
    return Limit(rule=rule, figure=own, set_by_maker=True)


def _check_own(name: str, value: float) -> None:
    can_set = [rule.id for rule in rules() if rule.compare != "never" and rule.kind != "laboratory"]
    if name not in can_set:
        raise UnclearError(
            f"'{name}' is no limit that can be set.",
            f"House limits: {', '.join(can_set)}.",
            "Use one of these names.",
        )
    if not (isfinite(value) and value > 0):
        raise UnclearError(
            f"The house limit '{name}' is {value:g}.",
            "A limit is a number above zero.",
            "Give one, or leave the limit out.",
        )
