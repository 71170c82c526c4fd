"""What has changed in the notes since they were judged."""

import csv
import io
from collections import Counter

from throwbench.formats.archive import BURNS, CANDLES, SCORES, digest
from throwbench.science.words import counted
from throwbench.verdict.words import listed
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.selectors import archive_of, kept_archive
from throwbench.workshop.line.unchanged import until_something_is_written

_ROWS = ((SCORES, "score"), (BURNS, "line of the burn log"), (CANDLES, "candle"))
_MANY = {"line of the burn log": "lines of the burn log"}


def changed_since(judgement: Judgement) -> str:
    """'3 scores came or changed since.'; empty where the same notes would be judged."""
    return until_something_is_written(("since", judgement.pk), lambda: _changed(judgement))


def _changed(judgement: Judgement) -> str:
    now = archive_of(judgement.trial, day=judgement.day)
    if digest(now) == judgement.digest:
        return ""
    was = kept_archive(judgement)
    told = [_told(name, was.files.get(name), now.files.get(name)) for name, _ in _ROWS]
    said = [words for words in told if words]
    if not said:
        return "What is asked of this trial has changed since."
    return f"{listed(said)} came or changed since."


def _told(name: str, was: str | None, now: str | None) -> str:
    """How many rows are there now that were not there in the same form."""
    new = _rows(now) - _rows(was)
    gone = _rows(was) - _rows(now)
    count = max(new.total(), gone.total())
    one = dict(_ROWS)[name]
    return counted(count, one, _MANY.get(one)) if count else ""


def _rows(text: str | None) -> Counter[tuple[str, ...]]:
    """Rows by what they say, whatever columns the file has, its head left out."""
    if text is None:
        return Counter()
    rows = csv.DictReader(io.StringIO(text, newline=""))
    return Counter(tuple(f"{name}={cell}" for name, cell in row.items() if cell) for row in rows)
