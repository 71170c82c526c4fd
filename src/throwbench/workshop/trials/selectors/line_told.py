"""What the line of an oil said of load and wick, ready for its trial."""

from dataclasses import dataclass, field
from typing import Any

from throwbench.science.load import load_on_both_bases
from throwbench.science.words import plain
from throwbench.workshop.shelf.models import Wick
from throwbench.workshop.shelf.one_line import LineRead, read_line
from throwbench.workshop.trials.in_passing import listed, wicks_of_size
from throwbench.workshop.trials.models import Candidate, Trial


@dataclass(frozen=True, slots=True, kw_only=True)
class LineTold:
    """What is said above the form of a wick, and what stands ready in it."""

    said: str
    initial: dict[str, Any] = field(default_factory=dict)


def line_told(trial: Trial) -> LineTold | None:
    """Of the oils without a wick; ready in the form only where their lines agree."""
    found = trial.candidates.filter(combinations__isnull=True).exclude(oil__as_typed="")
    read = [(one, read_line(one.oil.as_typed)) for one in found.select_related("oil")]
    told = [_told(one, line) for one, line in read if line.load_percent is not None or line.wick]
    if not told:
        return None
    agreed = all(one.initial == told[0].initial for one in told)
    said = " ".join(one.said for one in told)
    return LineTold(said=said, initial=told[0].initial if agreed else {})


def _told(candidate: Candidate, read: LineRead) -> LineTold:
    initial: dict[str, Any] = {}
    said = []
    if read.load_percent is not None:
        load = load_on_both_bases(percent=read.load_percent, basis=read.load_basis)
        initial["load_percent"] = round(load.of_wax_percent, 2)
        said.append(f"{plain(load.of_wax_percent)} % of wax")
    asked = ""
    if read.wick:
        said.append(f"wick {read.wick}")
        wicks = _wicks(read.wick)
        initial |= {"wick": str(wicks[0])} if len(wicks) == 1 else {}
        asked = _asked(read.wick, wicks)
    return LineTold(
        said=f"The line of {candidate.oil.name} said {' and '.join(said)}.{asked}", initial=initial
    )


def _wicks(text: str) -> list[Wick]:
    """The wicks that a line can mean: by size alone, or by series and size."""
    named = [wick for wick in Wick.objects.all() if str(wick).casefold() == text.casefold()]
    return named or wicks_of_size(text)


def _asked(text: str, wicks: list[Wick]) -> str:
    if len(wicks) == 1:
        return ""
    if wicks:
        return f" Is it {listed(wicks)}?"
    return f" No wick {text} stands on the shelf yet: write its series and its size."
