"""The result report: three sheets for the maker's folder, as a PDF."""

from collections.abc import Iterable, Sequence
from typing import Any

from throwbench.documents import sheets
from throwbench.documents.chart import chart, described, legend, parts
from throwbench.documents.draw import svg
from throwbench.documents.heading import Heading
from throwbench.documents.nameless import assessors, nameless, quotes_a_file
from throwbench.documents.readings import burns_table
from throwbench.documents.tokens import PAPER
from throwbench.documents.typeset import typeset
from throwbench.documents.widths import printable
from throwbench.documents.words import keep_names_whole
from throwbench.verdict.burn_reading import BurnReading
from throwbench.verdict.result import Verdict
from throwbench.verdict.speech import BEFORE_NEXT

FIRST_PX, NEXT_PX = 700.0, 1000.0
"""Height of rows [px] that the first sheet and each further one have room for."""


def report(
    verdict: Verdict,
    *,
    heading: Heading,
    readings: Sequence[BurnReading] = (),
    assessor_names: Iterable[str] = (),
) -> bytes:
    """Return the report of a verdict as a PDF.

    Parameters
    ----------
    verdict : what was found
    heading : workshop, trial and day
    readings : of the burn logs, one per test candle, for the table of burns
    assessor_names : names to be struck out beside those in the verdict

    Raises
    ------
    TypesettingError
        The sheets cannot be set as they should be.

    Notes
    -----
    The same arguments give the same bytes. No name of an assessor is printed.
    """
    names = assessors(verdict, assessor_names)
    data = {
        **_head(verdict, heading=heading),
        "charts": _charts(verdict),
        "oils": sheets.oils(verdict),
        "legend": printable(legend(verdict)),
        **_said(verdict, names=names),
        "figures": sheets.figures(verdict),
        "tried": sheets.tried(verdict),
        "not_tried": printable(sheets.not_tried(verdict)),
        "burns": burns_table(readings, verdict=verdict),
        "sign": ["Date", "Joins the line", "Name"],
    }
    return typeset("report.typ", data, form="pdf", day=heading.day)


def _head(verdict: Verdict, *, heading: Heading) -> dict[str, Any]:
    oils = [one.candidate for one in verdict.candidates]
    return {
        "title": heading.title,
        "workshop": printable(heading.workshop),
        "trial_line": heading.trial_line,
        "day": [heading.day.year, heading.day.month, heading.day.day],
        "headline": printable(keep_names_whole(verdict.headline, oils)),
        "risk": printable(keep_names_whole(verdict.risk, oils)),
        "lead": printable(sheets.lead(verdict)),
        "stands_above": printable(verdict.caution),
        "invented": heading.invented_words,
    }


def _charts(verdict: Verdict) -> list[dict[str, str]]:
    runs = parts(verdict, first_px=FIRST_PX, next_px=NEXT_PX)
    said = printable(described(verdict))
    return [
        {
            "svg": svg(chart(verdict, theme=PAPER, first=first, stop=stop)),
            "alt": said if first == 0 else "The chart goes on; its first part says it in words.",
        }
        for first, stop in runs
    ]


def _said(verdict: Verdict, *, names: frozenset[str]) -> dict[str, Any]:
    oils = [one.candidate for one in verdict.candidates]
    return {
        "limits": [
            printable(nameless(said, names, oils=oils) if quotes_a_file(said) else said)
            for said in sheets.limits(verdict)
        ],
        "next": _printable((*verdict.next_steps, BEFORE_NEXT)),
        "reasons": _printable(verdict.reasons),
        "because": [
            {"oil": printable(one.candidate), "said": _printable(sheets.stands_out(one))}
            for one in verdict.candidates
            if sheets.stands_out(one)
        ],
        "sure": _printable(sheets.sure(verdict)),
        "defaults": _printable(verdict.defaults),
        "problems": [printable(nameless(said, names, oils=oils)) for said in verdict.problems],
    }


def _printable(sentences: Iterable[str]) -> list[str]:
    return [printable(said) for said in sentences]
