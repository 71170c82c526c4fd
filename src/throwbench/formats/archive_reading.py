"""An archive from a folder or a .zip that may come from anywhere."""

import io
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path

from throwbench.formats.archive import NAMES, Archive
from throwbench.formats.problem import UnreadableFile, shown
from throwbench.formats.question import QUESTION
from throwbench.formats.question_reading import read_question
from throwbench.formats.table import text_of

LARGEST_FILE = 20_000_000
"""Bytes of one file of an archive, unpacked, and of a .zip as a whole."""

_MB = f"{LARGEST_FILE // 1_000_000} MB"
_HOLDS = f"{', '.join(NAMES[:-1])} and {NAMES[-1]}"
_PACKED = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}
_DAMAGED = (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, NotImplementedError)


def read_archive(source: str | Path) -> Archive:
    """The archive in a folder or in a .zip.

    Of a folder only the five files are read; a .zip holds them and nothing else. Each has at most
    `LARGEST_FILE` bytes of text in UTF-8.

    Raises
    ------
    UnreadableFile
        If there is no such thing, or its question cannot be read. What is wrong with a row of its
        files is told when they are read as a trial.
    """
    path = Path(source)
    name = shown(path.name or str(path))
    found = _of_folder(path) if path.is_dir() else _of_zip(_bytes(path, name), name)
    if QUESTION not in found:
        raise UnreadableFile(
            f"{name} has no {QUESTION}; it says what is asked of a trial, and an archive needs it: "
            "add it, or give the scores and the burns as two files."
        )
    texts = {
        one: text_of(data, name=one, save_as="UTF-8" if one == QUESTION else "CSV UTF-8")
        for one, data in found.items()
    }
    question = read_question(texts.pop(QUESTION))
    return Archive(files=texts, question=question)


def _of_folder(path: Path) -> Mapping[str, bytes]:
    return {name: _bytes(path / name, name) for name in NAMES if (path / name).exists()}


def _bytes(path: Path, name: str) -> bytes:
    try:
        if not path.is_file():
            raise UnreadableFile(
                f"{name} is not there, or is no file; an archive is a folder or a .zip that holds "
                f"{_HOLDS}: check the name and the folder."
            )
        if path.stat().st_size > LARGEST_FILE:
            raise UnreadableFile(_too_large(name))
        return path.read_bytes()
    except OSError as error:
        raise UnreadableFile(
            f"{name} cannot be opened ({error.strerror}); a file that you may read is needed: "
            "check its permissions."
        ) from None


def _of_zip(packed: bytes, name: str) -> Mapping[str, bytes]:
    if not zipfile.is_zipfile(io.BytesIO(packed)):
        raise UnreadableFile(
            f"{name} is not the archive of a trial; that is a folder or a .zip that holds "
            f"{_HOLDS}: check the name, or name scores and burns as two files."
        )
    try:
        with zipfile.ZipFile(io.BytesIO(packed)) as source:
            entries = source.infolist()
            _refuse_others(name, entries)
            return {entry.filename: _unpacked(source, entry) for entry in entries}
    except _DAMAGED:
        raise UnreadableFile(
            f"{name} is damaged and cannot be unpacked; a whole .zip is needed: "
            "take the archive once more."
        ) from None


def _unpacked(source: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    """No more than its size allows, whatever the packed bytes would grow to."""
    with source.open(entry) as packed:
        return packed.read(LARGEST_FILE + 1)


def _refuse_others(name: str, entries: list[zipfile.ZipInfo]) -> None:
    """Look at what a .zip says of itself before anything is unpacked."""
    if len(entries) > len(NAMES):
        raise UnreadableFile(
            f"{name} holds {len(entries):,} files; an archive holds {_HOLDS}, nothing else: "
            "check that it is the right file."
        )
    seen: set[str] = set()
    for entry in entries:
        if entry.filename not in NAMES:
            raise UnreadableFile(
                f"{name} holds {shown(entry.filename)}; an archive holds {_HOLDS}, in no folder: "
                "take it out, or unpack the archive and give the folder."
            )
        if entry.filename in seen:
            raise UnreadableFile(
                f"{name} holds {entry.filename} twice; each file stands once: take one out."
            )
        if entry.file_size > LARGEST_FILE:
            raise UnreadableFile(_too_large(f"{entry.filename} in {name}"))
        locked = entry.flag_bits & 0x1  # the bit that says a password is needed
        if locked or entry.compress_type not in _PACKED:
            raise UnreadableFile(
                f"{entry.filename} in {name} is locked, or packed in a way that is not read; "
                "plain .zip files are read: pack it without a password."
            )
        seen.add(entry.filename)


def _too_large(what: str) -> str:
    return (
        f"{what} is larger than {_MB}; files up to that size are read: "
        "check that it is the right file."
    )
