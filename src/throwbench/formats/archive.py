"""The archive of a trial: everything that its verdict is asked from, as texts."""

import hashlib
import io
import json
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from throwbench.formats.question import QUESTION, write_question
from throwbench.formats.table import TextFile
from throwbench.formats.trial import Trial, read_trial
from throwbench.formats.writing import write_csv
from throwbench.records import Burn, Combination, Score, ThemeMember
from throwbench.verdict.question import Question

SCORES, BURNS, CANDLES, ONE_OF = "scores.csv", "burns.csv", "candles.csv", "one-of.csv"
NAMES = (SCORES, BURNS, CANDLES, ONE_OF, QUESTION)
"""All that an archive holds; only the question has to be there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Archive:
    """The texts of a trial's files by name, and what is asked of it."""

    files: Mapping[str, str]
    question: Question

    def entries(self) -> Mapping[str, str]:
        """Name and text of each file, the question among them, by name."""
        return dict(sorted({**self.files, QUESTION: write_question(self.question)}.items()))


def archive_of(
    scores: Iterable[Score],
    burns: Iterable[Burn],
    combinations: Iterable[Combination],
    theme: Iterable[ThemeMember],
    question: Question,
) -> Archive:
    """The records as an archive; a file that would have no row is left out."""
    kinds: tuple[tuple[str, type, tuple[object, ...]], ...] = (
        (SCORES, Score, tuple(scores)),
        (BURNS, Burn, tuple(burns)),
        (CANDLES, Combination, tuple(combinations)),
        (ONE_OF, ThemeMember, tuple(theme)),
    )
    files = {
        name: write_csv(rows, kind, leave_out_empty=True) for name, kind, rows in kinds if rows
    }
    return Archive(files=files, question=question)


def digest(archive: Archive) -> str:
    """SHA-256 of what the archive holds, in hexadecimal; how it is packed does not count."""
    plain = json.dumps(archive.entries(), sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(plain.encode("ascii")).hexdigest()


def to_zip(archive: Archive) -> bytes:
    """The archive as one .zip; the same archive gives the same bytes."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as target:
        for name, text in archive.entries().items():
            entry = zipfile.ZipInfo(name)  # of 1 January 1980, whatever the clock says
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3
            entry.external_attr = 0o644 << 16
            target.writestr(entry, text.encode())
    return packed.getvalue()


def trial_of(archive: Archive) -> Trial:
    """The files of the archive, read and asked about as those of a folder are.

    Raises
    ------
    UnreadableFile
        If one of them gives no row.
    """
    scores, burns, candles, one_of = (
        TextFile(name=name, text=archive.files[name]) if name in archive.files else None
        for name in (SCORES, BURNS, CANDLES, ONE_OF)
    )
    return read_trial(
        scores,
        burns,
        candles=candles,
        one_of=one_of,
        scale=archive.question.scale,
        house=archive.question.house,
    )
