"""The table: one row per oil, for a spreadsheet."""

import csv
import io

from throwbench.documents.result_columns import Cell, columns_on
from throwbench.formats.formula import guarded
from throwbench.verdict.result import Verdict


def table(verdict: Verdict) -> str:
    """Return the verdict as CSV text: a head and one row per oil, each with the caution.

    Notes
    -----
    A text that a spreadsheet would take for a formula gets a leading apostrophe. An empty cell
    means that there is no such value: an oil that is not ranked, or alone, has no chances.
    """
    columns = columns_on("table", verdict)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([column.name for column in columns])
    for one in verdict.candidates:
        writer.writerow([_cell(column.of(one)) for column in columns])
    return out.getvalue()


def _cell(value: Cell) -> str:
    """A number stays one, also below nothing."""
    if value is None:
        return ""
    if isinstance(value, str):
        return guarded(value)
    return f"{value:.3f}" if isinstance(value, float) else str(value)
