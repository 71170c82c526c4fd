"""The papers of a judgement: report, picture, table, and the archive that was judged."""

from collections.abc import Sequence
from datetime import date

from throwbench.documents.heading import Heading
from throwbench.documents.picture import picture
from throwbench.documents.report import report
from throwbench.documents.table import table
from throwbench.formats.archive import trial_of
from throwbench.formats.trial import Trial as TrialNotes
from throwbench.rules import figure_of, limits_on
from throwbench.rules.turn import by_candle
from throwbench.verdict.burn_reading import BurnReading, read_candle
from throwbench.verdict.question import Question
from throwbench.workshop.line.drawings import kept
from throwbench.workshop.line.models import Judgement
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
        verdict_of(judgement),
        heading=_heading(archive.question),
        readings=_readings(notes, archive.question),
        assessor_names=sorted({score.assessor for score in notes.scores}),
    )


def _heading(question: Question) -> Heading:
    day: date = question.day
    return Heading(
        workshop=question.workshop, trial=question.trial, day=day, invented=question.invented
    )


def _readings(notes: TrialNotes, question: Question) -> Sequence[BurnReading]:
    """The figures of each burn log, by the candle's code."""
    made_of = {made.candle: made for made in notes.combinations}
    end_mm = figure_of("end-line", limits_on(question.day, house=question.house))
    return [
        read_candle(code, log, end_mm=end_mm, combination=made_of.get(code))
        for code, log in sorted(by_candle(notes.burns).items())
    ]
