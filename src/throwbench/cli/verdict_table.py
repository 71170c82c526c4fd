"""A verdict in plain text: the sentence, three columns per oil, reasons, next steps."""

from collections.abc import Iterator, Sequence
from itertools import groupby, zip_longest
from textwrap import wrap

from throwbench.documents.result_columns import ResultColumn, columns_on, shown
from throwbench.documents.words import attribute_words
from throwbench.verdict.places import words_of
from throwbench.verdict.result import AttributeResult, CandidateVerdict, Verdict
from throwbench.verdict.speech import BEFORE_NEXT
from throwbench.verdict.words import in_100

WIDTHS = (22, 34, 22, 34)
HEADS = ("Oil", "Limits", "Burns well", "Scent")
PAGE = sum(WIDTHS) + 2 * (len(WIDTHS) - 1)


def lines_of(found: Verdict) -> Iterator[str]:
    """The whole answer, at most as wide as PAGE."""
    yield from _paragraph(found.sentence())
    yield ""
    yield _row(HEADS)
    yield "=" * PAGE
    for words, members in groupby(found.candidates, key=words_of):
        yield words.sentence()
        for item in members:
            yield "-" * PAGE
            yield from _candidate(item, found)
    yield "=" * PAGE
    yield from _paragraph(f"Scent: {_axis(found)} In brackets: 8 times in 10 it lies there.")
    yield from _section("Next", (*found.next_steps, BEFORE_NEXT))
    yield from _section("Why", (f"Ranked by {found.ranked_by}.", *found.reasons, *_because(found)))
    yield from _section("For the owner only", [f"{n.assessor} {n.words}." for n in found.noses])
    yield from _section("Taken as given", found.defaults)
    yield from _section("Not tried, needs a laboratory", found.not_tried)
    yield from _section("Asked about, held back or refused", found.problems)
    yield ""
    yield found.caution


def _axis(found: Verdict) -> str:
    low, high = found.scale
    bands = "; ".join(
        f"right for hot throw{'' if band.room is None else f' in {band.room}'}: "
        f"{band.low:g} to {band.high:g}"
        for band in found.bands
    )
    return f"the average nose on a scale of {low} to {high}{f', {bands}' if bands else ''}."


def _because(found: Verdict) -> list[str]:
    return [f"{item.candidate}: {words}" for item in found.candidates for words in item.reasons]


def _candidate(item: CandidateVerdict, found: Verdict) -> Iterator[str]:
    oil = [item.candidate, *([] if item.group is None else [f"({item.group})"])]
    limits = [
        f"{one.label} {one.state}: {one.evidence_words().rstrip('.')}" for one in item.limits
    ] or ["not yet known (no burn log)"]
    cells = (oil, limits, list(item.burns_well), _scent(item, found))
    columns = [
        [line for part in parts for line in wrap(part, width, subsequent_indent="  ")]
        for parts, width in zip(cells, WIDTHS, strict=True)
    ]
    for row in zip_longest(*columns, fillvalue=""):
        yield _row(row)


def _scent(item: CandidateVerdict, found: Verdict) -> list[str]:
    said = [_attribute(one) for one in item.scent]
    said += [line for line in (_line(one, item) for one in columns_on("command", found)) if line]
    if item.place == "not ranked":
        said.append("not ranked")
    return said or ["no score counts"]


def _line(column: ResultColumn, item: CandidateVerdict) -> str:
    cell = column.of(item)
    return "" if cell is None else f"{column.head.lower()} {shown(cell)}".strip()


def _attribute(one: AttributeResult) -> str:
    low, high = one.eight_in_ten.low, one.eight_in_ten.high
    inside = "" if one.chance_in_band is None else f", right {in_100(one.chance_in_band)}"
    return f"{attribute_words(one.attribute)} {one.expected:.1f} ({low:.1f} to {high:.1f}){inside}"


def _row(cells: Sequence[str]) -> str:
    return "  ".join(f"{cell:<{w}}" for cell, w in zip(cells, WIDTHS, strict=True)).rstrip()


def _paragraph(text: str) -> list[str]:
    return wrap(text, PAGE)


def _section(head: str, sentences: Sequence[str]) -> Iterator[str]:
    if not sentences:
        return
    yield ""
    yield head
    for sentence in sentences:
        yield from wrap(sentence, PAGE, initial_indent="  ", subsequent_indent="    ")
