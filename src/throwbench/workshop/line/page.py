"""The verdict page: the kept verdict with what was decided, ready to be shown."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from throwbench.documents import sheets
from throwbench.documents.chart import finding
from throwbench.documents.result_columns import ResultColumn, columns_on, shown
from throwbench.documents.rows import LimitWords, Row, rows
from throwbench.documents.strips import Strips, said
from throwbench.documents.words import keep_names_whole
from throwbench.verdict.result import CandidateVerdict, Verdict
from throwbench.verdict.words import number
from throwbench.workshop.house.models import Person
from throwbench.workshop.line.because import Because, because
from throwbench.workshop.line.decided import decided_words, undecided
from throwbench.workshop.line.models import Decision, Judgement
from throwbench.workshop.trials.models import Candidate

DRAWN = {"chance": "v-fig", "limits": "v-limits", "burns_well": "v-well"}
"""Columns whose cells are drawn by a template of their own, and their class; others are plain."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageColumn:
    """One column between the chart and the decision."""

    head: str
    css: str
    cell: str
    """The template of its cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageCell:
    column: PageColumn
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OilRow:
    """One row of the chart. `candidate` is None where the oil was taken out of the trial since."""

    oil: str
    group: str
    anchor: str
    candidate: Candidate | None
    cut: str
    strip: str
    said: str
    chance: str
    limits: tuple[LimitWords, ...]
    burns_well: tuple[str, ...]
    place: str
    decision: Decision | None
    cells: tuple[PageCell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictPage:
    """Everything that the page says of one judgement."""

    judgement: Judgement
    verdict: Verdict
    headline: str
    risk: str
    decided: tuple[str, ...]
    """What joined, and what was decided otherwise than the verdict says."""
    holds: tuple[tuple[str, str], ...]
    """Name of the oil where the sentence begins with it, and the rest of the sentence."""
    oils: str
    lead: str
    finding: str
    rooms: str
    strips: Strips
    rows: tuple[OilRow, ...]
    columns: tuple[PageColumn, ...]
    width: int
    """All columns: these, and before and after them oil, chart and decision."""
    adds_up: str
    because: tuple[Because, ...]
    none_broken: str
    not_tried: str
    press: str
    """What the one button says; empty where all of the pick is decided, or there is none."""


def page_of(
    judgement: Judgement,
    verdict: Verdict,
    drawn: Strips,
    *,
    candidates: Sequence[Candidate],
    decisions: Sequence[Decision],
    reader: Person,
) -> VerdictPage:
    """Put the kept verdict beside the trial's candidates and what was decided of them."""
    names = [one.candidate for one in verdict.candidates]
    decided = {str(decision.candidate): decision for decision in decisions}
    by_name = {str(candidate): candidate for candidate in candidates}
    reasons = because(judgement, verdict)
    columns = columns_on("page", verdict)
    anchors = {one.oil: one.anchor for one in reasons}
    return VerdictPage(
        judgement=judgement,
        verdict=verdict,
        headline=keep_names_whole(verdict.headline, names),
        risk=keep_names_whole(verdict.risk, names),
        decided=decided_words(verdict, judgement, decided, reader=reader),
        holds=tuple(_hold(sentence, names) for sentence in verdict.holds),
        oils=sheets.oils(verdict),
        lead=sheets.lead(verdict),
        finding=finding(verdict),
        rooms=_rooms(verdict),
        strips=drawn,
        rows=tuple(_rows(verdict, drawn, by_name, decided, anchors)),
        columns=tuple(_column(one) for one in columns),
        width=len(columns) + 3,
        adds_up=sheets.places_note(verdict),
        because=reasons,
        none_broken=sheets.none_broken(),
        not_tried=sheets.not_tried(verdict),
        press=_press(verdict, undecided(verdict, judgement, decided), by_name),
    )


def _hold(sentence: str, names: Sequence[str]) -> tuple[str, str]:
    name = next((name for name in names if sentence.startswith(name)), "")
    return name, sentence.removeprefix(name)


def _rooms(verdict: Verdict) -> str:
    """Where else another strength is right; the chart shows the first band."""
    others = [band for band in verdict.bands[1:] if band.room]
    told = [f"{band.low:g} to {band.high:g} in the {band.room}" for band in others]
    return f"Right elsewhere: {', '.join(told)}." if told else ""


def _rows(
    verdict: Verdict,
    drawn: Strips,
    by_name: dict[str, Candidate],
    decided: dict[str, Decision],
    anchors: dict[str, str],
) -> Iterator[OilRow]:
    told = zip(verdict.candidates, rows(verdict), drawn.oils, said(verdict), strict=True)
    for index, (one, row, strip, words) in enumerate(told):
        candidate = by_name.get(one.candidate)
        yield OilRow(
            oil=one.candidate,
            group=one.group or "",
            anchor=anchors.get(one.candidate, ""),
            candidate=candidate,
            cut=_cut(row, first=index == 0, choose=verdict.choose),
            strip=strip,
            said=words,
            chance=row.chance,
            limits=row.limits,
            burns_well=one.burns_well,
            place=row.place,
            decision=decided.get(one.candidate),
            cells=tuple(_cell(column, one) for column in columns_on("page", verdict)),
        )


def _column(column: ResultColumn) -> PageColumn:
    cell = column.name if column.name in DRAWN else "plain"
    css = DRAWN.get(column.name, "v-fig")
    return PageColumn(head=column.head, css=css, cell=f"line/cells/{cell}.html")


def _cell(column: ResultColumn, one: CandidateVerdict) -> PageCell:
    return PageCell(column=_column(column), text=shown(column.of(one)))


def _cut(row: Row, *, first: bool, choose: int) -> str:
    """The line between groups as one sentence; the first group is the pick."""
    if row.cut is None:
        return ("The pick" if choose > 1 else "Ahead") if first else ""
    left, right = row.cut
    words = f"{left[:1].upper()}{left[1:]}"
    if right.startswith("it is "):
        return f"{words}, and {right}"
    return f"{words}: {right}" if right else words


def _press(verdict: Verdict, still: Sequence[str], by_name: dict[str, Candidate]) -> str:
    """What the one button says, as long as somebody of the pick is not decided."""
    waiting = [name for name in still if name in by_name]
    if not waiting:
        return ""
    if len(waiting) == 1:
        return f"{keep_names_whole(waiting[0], waiting)} joins the line"
    these = "These" if len(waiting) == len(verdict.pick) else "The other"
    return f"{these} {number(len(waiting))} join the line"
