"""The papers of a judgement: report, picture, table, and the archive that was judged."""

from datetime import date
from hashlib import sha256

from throwbench.documents.heading import Heading
from throwbench.documents.nameless import assessors
from throwbench.documents.picture import picture
from throwbench.documents.report import report
from throwbench.documents.table import table
from throwbench.formats.archive import trial_of
from throwbench.formats.judged import readings_of
from throwbench.verdict.question import Question
from throwbench.workshop.line.beside import with_the_shelf
from throwbench.workshop.line.drawings import kept
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.plain_problems import plainly
from throwbench.workshop.line.selectors import kept_archive, verdict_of


def report_of(judgement: Judgement, today: date) -> bytes:
    """The report as a PDF, with what the shelf says today; no name of an assessor is printed."""
    archive = kept_archive(judgement)
    notes = trial_of(archive)
    names = sorted({score.assessor for score in notes.scores})
    found = plainly(judgement)
    shown = with_the_shelf(found, judgement.trial, today=today, hide=assessors(found, names))
    return kept(
        judgement,
        f"report-{sha256(repr(shown).encode()).hexdigest()[:16]}.pdf",
        lambda: report(
            shown,
            heading=_heading(archive.question),
            readings=readings_of(notes, archive.question),
            assessor_names=names,
        ),
    )


def picture_of(judgement: Judgement, _today: date) -> bytes:
    """Sentence, chart and caution as a PNG."""

    def make() -> bytes:
        heading = _heading(kept_archive(judgement).question)
        return picture(verdict_of(judgement), heading=heading)

    return kept(judgement, "picture.png", make)


def table_of(judgement: Judgement, _today: date) -> bytes:
    """One row an oil, as CSV in UTF-8."""
    return table(verdict_of(judgement)).encode()


def archive_bytes(judgement: Judgement, _today: date) -> bytes:
    """The notes that were judged, as the .zip that was kept."""
    return bytes(judgement.archive)


def _heading(question: Question) -> Heading:
    day: date = question.day
    return Heading(
        workshop=question.workshop, trial=question.trial, day=day, invented=question.invented
    )
