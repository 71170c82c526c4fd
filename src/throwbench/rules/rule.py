"""One rule as it stands in limits.yaml, and the strict reading of that file."""

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Any, Literal, get_args

from throwbench.records import Burn, Check, columns
from throwbench.rules.strict_yaml import load
from throwbench.science.errors import UnclearError

Kind = Literal["candle rule", "handling rule", "hint", "laboratory"]
Known = Literal["by eye", "measured", "not in the log", "laboratory"]
Compare = Literal["at most", "at least", "more than", "below", "never"]
Decides = Literal[
    "any burn", "mean of judged burns", "mean of all burns", "more than half of the judged burns"
]
Bars = Literal["combination", "fixing", "combination and vessel", "nothing"]

WORDS = {
    "kind": get_args(Kind),
    "known": get_args(Known),
    "compare": get_args(Compare),
    "decides": get_args(Decides),
    "bars": get_args(Bars),
    "house_limit": (True, False),
}
READABLE = tuple(column.name for record in (Burn, Check) for column in columns(record))
"""What a burn log has columns for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A limit and the first day it holds; without a day it has always held."""

    limit: float
    since: date = date.min


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """What is looked for, how it is known, and what it bars.

    `allowance` is added to the figure before anything is marked; `look` is what a person looks at;
    `counts` is the word seen that counts against it; `reads` names the columns of a burn log that
    show it, and `worded` is the figure that their words name ("up to 10 s"), in the rule's unit;
    `sight` says what a person sees over the limit, with "{figure}" where that stands; `sheet` how
    the burn sheet says it, with figures by their rule: "flame {flame-height} mm".
    `house_limit`: the figure's own text was not read, or it never stood in one.
    """

    id: str
    words: str
    kind: Kind
    known: Known
    compare: Compare
    decides: Decides
    bars: Bars
    source: str
    article: str
    read: str
    house_limit: bool
    look: str = ""
    reads: tuple[str, ...] = ()
    sight: str = ""
    sheet: str = ""
    unit: str = ""
    counts: str = ""
    figures: tuple[Figure, ...] = ()
    worded: float | None = None
    allowance: float = 0.0

    def figure_on(self, day: date) -> float | None:
        """The figure in force on a day; None before the first, or where there is no figure."""
        in_force = [figure for figure in self.figures if figure.since <= day]
        return max(in_force, key=lambda figure: figure.since).limit if in_force else None


@cache
def rules() -> tuple[Rule, ...]:
    """All rules, in the order of the file."""
    text = files("throwbench.rules").joinpath("limits.yaml").read_text(encoding="utf-8")
    return rules_from(text)


def newest_figure(rule_id: str, house: Mapping[str, float]) -> float:
    """The maker's own figure, else the newest with its allowance: beyond it a file is asked about.

    Checked against: definition.
    """
    if rule_id in house:
        return house[rule_id]
    rule = next(rule for rule in rules() if rule.id == rule_id)
    figure = rule.figure_on(date.max)
    assert figure is not None, f"{rule_id} has no figure"
    return figure + rule.allowance


def rules_from(text: str) -> tuple[Rule, ...]:
    """The rules that a YAML text holds.

    Raises
    ------
    UnclearError
        A key that is unknown, missing or stands twice; a word that is not one of those allowed;
        two rules of one name.

    Checked against: definition.
    """
    found = tuple(_rule(entry) for entry in load(text))
    names = [rule.id for rule in found]
    for name in names:
        if names.count(name) > 1:
            raise UnclearError(
                f"The rule '{name}' stands twice.", "A rule has its own id.", "Rename one."
            )
    return found


def _rule(entry: Mapping[str, Any]) -> Rule:
    _check_keys(entry, Rule)
    for key, words in WORDS.items():
        if entry[key] not in words:
            raise UnclearError(
                f"'{entry['id']}' has {key} '{entry[key]}'.",
                f"Allowed: {', '.join(str(word) for word in words)}.",
                "Use one of these.",
            )
    reads = tuple(entry.get("reads", ()))
    _check_reads(entry["id"], reads)
    figures = entry.get("figures", ())
    for figure in figures:
        _check_keys(figure, Figure)
    kept = tuple(Figure(**figure) for figure in figures)
    return Rule(**{**entry, "reads": reads, "figures": kept})


def _check_reads(rule_id: str, reads: tuple[str, ...]) -> None:
    unknown = [name for name in reads if name not in READABLE]
    if unknown:
        raise UnclearError(
            f"'{rule_id}' reads {unknown}.",
            f"Columns of a burn log: {', '.join(READABLE)}.",
            "Check the spelling.",
        )


def _check_keys(entry: Mapping[str, Any], record: type) -> None:
    known = {item.name: item.default is MISSING for item in fields(record)}
    unknown = sorted(set(entry) - set(known))
    missing = [name for name, required in known.items() if required and name not in entry]
    if unknown or missing:
        raise UnclearError(
            f"'{entry.get('id', entry)}' has unknown keys {unknown} and misses {missing}.",
            f"Known are: {', '.join(known)}.",
            "Check the spelling.",
        )
