"""The words that documents share: counts, places, days."""

from collections.abc import Iterable
from datetime import date

from throwbench.records.attribute import LIT
from throwbench.science.words import counted
from throwbench.verdict.result import Band, CandidateVerdict, Verdict
from throwbench.verdict.words import in_100, number

_WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


def in_words(count: int, thing: str) -> str:
    """'no suppliers', 'one oil', 'four oils'; figures above ten."""
    return counted(count, thing).replace(str(count), number(count), 1)


def of_100(chance: float) -> str:
    """'58', to stand where 'in 100' is said once for all; its ends as in a sentence."""
    return in_100(chance).removesuffix(" in 100")


def compared(verdict: Verdict) -> bool:
    """Whether chances mean anything: one candidate alone belongs with every draw."""
    return sum(one.chance_to_belong is not None for one in verdict.candidates) > 1


def figure(value: float) -> str:
    """Return a score on the maker's scale, to a tenth of a step."""
    return f"{value:.1f}"


def attribute_words(attribute: str) -> str:
    return attribute.replace("_", " ")


def day_words(day: date) -> str:
    """'Monday 24 May 2027', whatever language the machine speaks."""
    return f"{_WEEKDAYS[day.weekday()]} {date_words(day)}"


def date_words(day: date) -> str:
    """'24 May 2027', where the weekday has no room."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def attributes(verdict: Verdict) -> tuple[str, ...]:
    """Return the attributes that any candidate was scored on, in order of first mention."""
    named = (item.attribute for candidate in verdict.candidates for item in candidate.scent)
    return tuple(dict.fromkeys(named))


def charted(verdict: Verdict) -> str:
    """Return the attribute on the chart: hot throw where a band is set, else what ranked."""
    present = attributes(verdict)
    order = tuple(reversed(LIT)) if verdict.bands else LIT
    return next((name for name in order if name in present), next(iter(present), order[0]))


def drawn_band(verdict: Verdict) -> Band | None:
    """Return the band on the chart: the first one, and only under hot throw."""
    if charted(verdict) != "hot_throw":
        return None
    return next(iter(verdict.bands), None)


def pick_words(verdict: Verdict) -> str:
    """'the four', 'the pick': how a column names the pick."""
    return "the pick" if verdict.choose < 2 else f"the {number(verdict.choose)}"


def keep_names_whole(text: str, names: Iterable[str]) -> str:
    """Return `text` with unbreakable spaces inside the names of oils that fit on a line."""
    for name in sorted(names, key=len, reverse=True):
        if len(name) <= 32:
            text = text.replace(name, name.replace(" ", "\N{NO-BREAK SPACE}"))
    return text


def shown_scores(candidate: CandidateVerdict, attribute: str) -> tuple[tuple[int, ...], ...]:
    """Return the scores that count and those that are only shown."""
    result = candidate.of(attribute)
    if result is not None:
        return result.counted, result.not_counted
    return (), dict(candidate.only_shown).get(attribute, ())
