"""The papers of a judgement: report, picture, table, and the archive that was judged."""

from datetime import date

from throwbench.documents.heading import Heading
from throwbench.documents.picture import picture
from throwbench.documents.report import report
from throwbench.documents.table import table
from throwbench.formats.archive import trial_of
from throwbench.formats.judged import readings_of
from throwbench.verdict.question import Question
from throwbench.workshop.line.drawings import kept
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.plain_problems import plainly
from throwbench.workshop.line.selectors import kept_archive, verdict_of


def report_of(judgement: Judgement) -> bytes:
    """The report as a PDF; no name of an assessor is printed."""
    return kept(judgement, "report.pdf", lambda: _report(judgement))


def picture_of(judgement: Judgement) -> bytes:
    """Sentence, chart and caution as a PNG."""

    def make() -> bytes:
        heading = _heading(kept_archive(judgement).question)
        return picture(verdict_of(judgement), heading=heading)

    return kept(judgement, "picture.png", make)


def table_of(judgement: Judgement) -> bytes:
    """One row an oil, as CSV in UTF-8."""
    return table(verdict_of(judgement)).encode()


def archive_bytes(judgement: Judgement) -> bytes:
    """The notes that were judged, as the .zip that was kept."""
    return bytes(judgement.archive)


def _report(judgement: Judgement) -> bytes:
    archive = kept_archive(judgement)
    notes = trial_of(archive)
    return report(
        plainly(judgement),
        heading=_heading(archive.question),
        readings=readings_of(notes, archive.question),
        assessor_names=sorted({score.assessor for score in notes.scores}),
    )


def _heading(question: Question) -> Heading:
    day: date = question.day
    return Heading(
        workshop=question.workshop, trial=question.trial, day=day, invented=question.invented
    )
