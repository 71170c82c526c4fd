"""What a verdict is asked from, the judgements that are kept, and what was decided last."""

import io
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from functools import lru_cache
from zoneinfo import ZoneInfo

from throwbench import records
from throwbench.formats import archive as archives
from throwbench.formats.archive import Archive
from throwbench.formats.kept import verdict_from_json
from throwbench.formats.question import QUESTION
from throwbench.formats.question_reading import read_question
from throwbench.verdict.evidence import gather
from throwbench.verdict.question import Question
from throwbench.verdict.result import Band, Verdict
from throwbench.verdict.settings import Settings
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
    scores, burns, made_of = scores_of(trial), burns_of(trial), combinations_of(trial)
    question = _question(trial, day=day, bands=_bands(trial, scores, burns, made_of, day=day))
    return archives.archive_of(scores, burns, made_of, theme_of(trial), question)


def _question(trial: Trial, *, day: date, bands: tuple[Band, ...]) -> Question:
    here = workshop()
    return Question(
        day=day,
        trial=trial.name,
        workshop=here.name if here else "My workshop",
        choose=trial.choose,
        bands=bands,
        scale=(trial.scale_low, trial.scale_high),
        house=house_limits(),
        invented=bool(here and here.invented),
    )


def _bands(
    trial: Trial,
    scores: Sequence[records.Score],
    burns: Sequence[records.Burn],
    made_of: Sequence[records.Combination],
    *,
    day: date,
) -> tuple[Band, ...]:
    """A band of a kind of room is one for each such room in which a hot throw counts.

    A room whose scores are all set aside (still curing, a badly wicked candle) has no band: the
    verdict has nothing to hold against it.
    """
    bands = list(trial.bands.order_by("pk"))
    if not bands:
        return ()
    settings = Settings(scale=(trial.scale_low, trial.scale_high), house=house_limits())
    counted = gather(scores, burns, made_of, settings, day).sorted.counted
    sniffed = {score.room for score in counted if score.attribute == "hot_throw"}
    rooms = Room.objects.filter(name__in=sniffed).values_list("kind", "name")
    return tuple(
        Band(band.low, band.high, room)
        for band in bands
        for room in ([None] if not band.room_kind else _of_kind(rooms, band.room_kind))
    )


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
