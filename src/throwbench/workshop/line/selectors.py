"""What a verdict is asked from, the judgements that are kept, and what was decided last."""

import io
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime
from functools import lru_cache
from zoneinfo import ZoneInfo

from throwbench.formats import archive as archives
from throwbench.formats.archive import Archive
from throwbench.formats.kept import verdict_from_json
from throwbench.formats.problem import UnreadableFile
from throwbench.formats.question import QUESTION
from throwbench.formats.question_reading import read_question
from throwbench.verdict.evidence import gather
from throwbench.verdict.question import Question
from throwbench.verdict.result import Band, Verdict
from throwbench.workshop.house.models import Room
from throwbench.workshop.house.selectors import house_limits, workshop
from throwbench.workshop.line.models import Decision, Judgement
from throwbench.workshop.panel.selectors import scores_of
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.selectors import burns_of, combinations_of, theme_of

__all__ = [
    "archive_of",
    "kept_archive",
    "last_decisions",
    "last_judgement",
    "local_day",
    "verdict_of",
]


def local_day(now: datetime) -> date:
    """The day on the workshop's own calendar."""
    here = workshop()
    return now.astimezone(ZoneInfo(here.zone if here else "UTC")).date()


def archive_of(trial: Trial, *, day: date) -> Archive:
    """All that is noted of a trial, and what is asked of it on a day.

    The text is that of a file: a command that reads the archive judges the same rows.
    """
    question = _question(trial, day=day)
    notes = archives.archive_of(
        scores_of(trial), burns_of(trial), combinations_of(trial), theme_of(trial), question
    )
    return replace(notes, question=replace(question, bands=_bands(trial, notes)))


def _question(trial: Trial, *, day: date) -> Question:
    """All but the bands: these need the rows that are judged."""
    here = workshop()
    return Question(
        day=day,
        trial=trial.name,
        workshop=here.name if here else "My workshop",
        choose=trial.choose,
        scale=(trial.scale_low, trial.scale_high),
        house=house_limits(),
        invented=bool(here and here.invented),
    )


def _bands(trial: Trial, notes: Archive) -> tuple[Band, ...]:
    """A band of a kind of room is one for each such room in which a hot throw counts.

    A room whose scores are all set aside (still curing, a badly wicked candle, refused as the
    notes are read) has no band: the verdict has nothing to hold against it.
    """
    bands = list(trial.bands.order_by("pk"))
    if not bands:
        return ()
    sniffed = _rooms_that_count(notes)
    rooms = Room.objects.filter(name__in=sniffed).values_list("kind", "name")
    return tuple(
        Band(band.low, band.high, room)
        for band in bands
        for room in ([None] if not band.room_kind else _of_kind(rooms, band.room_kind))
    )


def _rooms_that_count(notes: Archive) -> set[str]:
    """Where a hot throw counts, of the rows as they are judged; none where no row can be read.

    Of what cannot be read at all the verdict itself says so when it is asked.
    """
    try:
        read = archives.trial_of(notes)
    except UnreadableFile:
        return set()
    settings = notes.question.settings(read.groups)
    made_of, day = read.combinations, notes.question.day
    found = gather(read.scores, read.burns, made_of, settings, day, unread=read.unread)
    return {score.room for score in found.sorted.counted if score.attribute == "hot_throw"}


def _of_kind(rooms: Iterable[tuple[str, str]], kind: str) -> list[str]:
    return sorted(name for its_kind, name in rooms if its_kind == kind)


def last_judgement(trial: Trial) -> Judgement | None:
    return trial.judgements.first()


def verdict_of(judgement: Judgement) -> Verdict:
    """The verdict that was kept."""
    return _read(judgement.verdict)


@lru_cache(maxsize=32)
def _read(text: str) -> Verdict:
    return verdict_from_json(text)


def kept_archive(judgement: Judgement) -> Archive:
    """The notes that were judged."""
    with zipfile.ZipFile(io.BytesIO(bytes(judgement.archive))) as packed:
        texts = {name: packed.read(name).decode() for name in packed.namelist()}
    return Archive(question=read_question(texts.pop(QUESTION)), files=texts)


def last_decisions(decisions: Iterable[Decision]) -> Iterator[Decision]:
    """Of decisions with the newest first, the one that counts for each candidate."""
    seen: set[int] = set()
    for decision in decisions:
        if decision.candidate_id not in seen:
            seen.add(decision.candidate_id)
            yield decision
