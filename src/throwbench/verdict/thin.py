"""How little a verdict rests on: said in its first sentence where it is very little."""

from collections import Counter
from collections.abc import Collection, Sequence

from throwbench.records import Score
from throwbench.records.attribute import LIT
from throwbench.verdict.words import number

FEW_NOSES = 2
"""Noses on whom a verdict rests: so few are said in its first sentence (common practice)."""
FEW_SNIFFS = 2
"""Sniffs of an oil by all noses together that are so few that it is said (common practice)."""


def rests_on(scores: Sequence[Score], names: Collection[str]) -> str:
    """'two noses, one sniff each', where that is little; else nothing.

    scores : those that count. names : the candidates that are compared.
    """
    met = _met(scores, names)
    noses = {nose for nose, _ in met}
    of_oil: Counter[str] = Counter()
    for (_, oil), sniffs in met.items():
        of_oil[oil] += sniffs
    if not met:
        return ""
    if len(noses) <= FEW_NOSES:
        each = " each" if len(noses) > 1 else ""
        return f"{_some(len(noses), 'nose')}, {_range(met.values())}{each}"
    if max(of_oil.values()) <= FEW_SNIFFS:
        return f"{_some(len(noses), 'nose')}, {_range(of_oil.values())} of an oil"
    return ""


def _met(scores: Sequence[Score], names: Collection[str]) -> Counter[tuple[str, str]]:
    """How often each nose sniffed each candidate, on the attribute that has most scores."""
    by: dict[str, Counter[tuple[str, str]]] = {attribute: Counter() for attribute in LIT}
    for row in scores:
        if row.attribute in by and row.candidate in names and row.score is not None:
            by[row.attribute][row.assessor, row.candidate] += 1
    return max(by.values(), key=lambda met: met.total())


def _range(sniffs: Collection[int]) -> str:
    low, high = min(sniffs), max(sniffs)
    said = _some(high, "sniff")
    return said if low == high else f"{number(low)} to {said}"


def _some(count: int, what: str) -> str:
    return f"{number(count)} {what}{'' if count == 1 else 's'}"


def other_evening(rests: str) -> tuple[str, ...]:
    """The next step where a verdict rests on little."""
    if not rests:
        return ()
    return (f"This rests on {rests}: sniff again on another evening, with other noses too.",)
