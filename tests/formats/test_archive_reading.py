"""An archive may come from anywhere: what cannot be read is a sentence, and nothing is written."""

import io
import os
import struct
import zipfile
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from throwbench.formats import UnreadableFile
from throwbench.formats.archive import Archive, to_zip
from throwbench.formats.archive_reading import LARGEST_FILE, read_archive
from throwbench.formats.question import write_question
from throwbench.verdict.question import Question

QUESTION = write_question(Question(day=date(2027, 5, 24)))
SCORES = "candle,candidate,assessor,room,sitting,attribute,score\nK7F,Slate,Odd,loft,S1,liking,5\n"
SMALL = Archive(files={"scores.csv": SCORES}, question=Question(day=date(2027, 5, 24)))
HOLDS = "scores.csv, burns.csv, candles.csv, one-of.csv and trial.json"


def packed(*entries, how=zipfile.ZIP_DEFLATED):
    """A .zip of names and texts, as hostile as asked."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", how) as target:
        for name, text in entries:
            target.writestr(zipfile.ZipInfo(name), text, how)
    return stream.getvalue()


@pytest.fixture
def told(write):
    """The sentence by which an archive of these bytes is refused."""

    def sentence(content):
        with pytest.raises(UnreadableFile) as error:
            read_archive(write(content, "long-light.zip"))
        return error.value.sentence

    return sentence


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "trial.json").write_text(QUESTION, encoding="utf-8")
    (tmp_path / "scores.csv").write_text(SCORES, encoding="utf-8")
    return tmp_path


def test_a_folder_is_an_archive(folder):
    assert read_archive(folder) == SMALL
    assert read_archive(str(folder)) == SMALL


def test_other_files_in_a_folder_are_not_read(folder):
    (folder / "verdict.pdf").write_bytes(b"%PDF\xff")
    (folder / "old").mkdir()
    assert read_archive(folder) == SMALL


def test_a_zip_made_by_another_program_is_an_archive(write):
    for how in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        content = packed(("trial.json", QUESTION), ("scores.csv", SCORES), how=how)
        assert read_archive(write(content, "a.zip")) == SMALL


def test_a_byte_order_mark_is_taken_off_and_line_ends_stay(write):
    entries = ("trial.json", "\ufeff" + QUESTION), ("scores.csv", "\ufeffa\r\nb\r")
    assert read_archive(write(packed(*entries), "a.zip")).files == {"scores.csv": "a\r\nb\r"}


def test_an_archive_without_a_question_is_none(write, tmp_path):
    ending = "has no trial.json; it says what is asked of a trial, and an archive needs it: "
    for source in (write(packed(("scores.csv", SCORES)), "a.zip"), tmp_path):
        with pytest.raises(UnreadableFile, match=ending):
            read_archive(source)


def test_what_is_not_there_is_a_sentence(tmp_path):
    with pytest.raises(UnreadableFile) as error:
        read_archive(tmp_path / "nowhere.zip")
    assert error.value.sentence == (
        "nowhere.zip is not there, or is no file; an archive is a folder or a .zip that holds "
        f"{HOLDS}: check the name and the folder."
    )


def test_a_folder_in_the_place_of_a_file_is_a_sentence(folder):
    (folder / "burns.csv").mkdir()
    with pytest.raises(UnreadableFile, match=r"^burns\.csv is not there, or is no file; "):
        read_archive(folder)


def test_a_pipe_in_the_place_of_a_file_is_not_waited_for(folder):
    os.mkfifo(folder / "burns.csv")
    with pytest.raises(UnreadableFile, match=r"^burns\.csv is not there, or is no file; "):
        read_archive(folder)


def test_a_file_that_may_not_be_opened_is_a_sentence(folder, monkeypatch):
    def refuse(_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.read_bytes", refuse)
    with pytest.raises(
        UnreadableFile, match=r"^scores\.csv cannot be opened \(Permission denied\); "
    ):
        read_archive(folder)


@pytest.mark.parametrize("content", [b"", b"words", SCORES.encode(), b"PK\x03\x04 and no more"])
def test_what_is_no_zip_is_a_sentence(told, content):
    assert told(content) == (
        "long-light.zip is not the archive of a trial; that is a folder or a .zip that holds "
        f"{HOLDS}: check the name, or name scores and burns as two files."
    )


@pytest.mark.parametrize(
    "name",
    ["../scores.csv", "/etc/scores.csv", "..\\scores.csv", "C:\\scores.csv", "long/scores.csv",
     "./scores.csv", "long/", "scores.csv/", "Scores.csv", "readme.txt", ""],
)  # fmt: skip
def test_an_entry_of_another_name_is_refused_and_nothing_is_unpacked(told, tmp_path, name):
    said = told(packed(("trial.json", QUESTION), (name, "x")))
    assert said == (
        f"long-light.zip holds {name}; an archive holds {HOLDS}, in no folder: "
        "take it out, or unpack the archive and give the folder."
    )
    assert [path.name for path in tmp_path.iterdir()] == ["long-light.zip"]


def test_more_entries_than_an_archive_has_are_refused(told):
    many = [(f"{number}.csv", "") for number in range(1_234)]
    assert told(packed(*many)).startswith(
        f"long-light.zip holds 1,234 files; an archive holds {HOLDS}, nothing else: "
    )


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_an_entry_that_stands_twice_is_refused(told):
    said = told(packed(("trial.json", QUESTION), ("scores.csv", "a"), ("scores.csv", "b")))
    assert said == ("long-light.zip holds scores.csv twice; each file stands once: take one out.")


def test_an_entry_that_would_grow_too_large_is_refused(told):
    said = told(packed(("trial.json", QUESTION), ("scores.csv", b"\n" * (LARGEST_FILE + 1))))
    assert said == (
        "scores.csv in long-light.zip is larger than 20 MB; files up to that size are read: "
        "check that it is the right file."
    )


def test_an_entry_of_just_that_size_is_read(write):
    entries = ("trial.json", QUESTION), ("scores.csv", b"\n" * LARGEST_FILE)
    assert len(read_archive(write(packed(*entries), "a.zip")).files["scores.csv"]) == LARGEST_FILE


def test_an_entry_that_says_less_than_it_holds_is_not_unpacked(told):
    content = packed(("scores.csv", b"\n" * 3 * LARGEST_FILE))
    said, real = struct.pack("<L", 100), struct.pack("<L", 3 * LARGEST_FILE)
    assert content.count(real) == 2
    assert told(content.replace(real, said)) == (
        "long-light.zip is damaged and cannot be unpacked; a whole .zip is needed: "
        "take the archive once more."
    )


def test_a_file_of_a_folder_and_a_zip_have_the_same_bound(folder, told):
    with (folder / "burns.csv").open("wb") as file:
        file.truncate(LARGEST_FILE + 1)
    with pytest.raises(UnreadableFile, match=r"^burns\.csv is larger than 20 MB; "):
        read_archive(folder)
    assert told(b"PK" + bytes(LARGEST_FILE)).startswith("long-light.zip is larger than 20 MB; ")


def test_a_way_of_packing_that_is_not_read_is_refused(told):
    said = told(packed(("trial.json", QUESTION), how=zipfile.ZIP_LZMA))
    assert said == (
        "trial.json in long-light.zip is locked, or packed in a way that is not read; "
        "plain .zip files are read: pack it without a password."
    )


def test_an_entry_with_a_password_is_refused(told):
    content = bytearray(packed(("trial.json", QUESTION)))
    content[content.index(b"PK\x01\x02") + 8] |= 1
    assert told(bytes(content)).startswith("trial.json in long-light.zip is locked, or packed in")


@pytest.mark.parametrize(
    ("name", "text", "sentence"),
    [
        ("scores.csv", b"a\n\xe5", "scores.csv, line 2: byte 0xE5 is not UTF-8, perhaps"),
        ("scores.csv", b"a\0b", "scores.csv holds zero bytes, so it is not text in UTF-8; "),
        ("trial.json", b"\xff", "trial.json, line 1: byte 0xFF is not UTF-8, perhaps the file"),
        ("trial.json", b"{}", "trial.json, format: it is null; this version reads format 1"),
    ],
)
def test_a_file_that_is_no_text_is_a_sentence(told, name, text, sentence):
    entries = {"trial.json": QUESTION, name: text}
    assert told(packed(*entries.items())).startswith(sentence)


def test_the_advice_for_the_question_is_not_to_save_it_as_rows(told):
    assert told(packed(("trial.json", b"\xff"))).endswith("only UTF-8 is read: save it as UTF-8.")


WHOLE = to_zip(SMALL)


@settings(deadline=None)  # a file is written each time
@given(
    changes=st.lists(
        st.tuples(st.integers(0, len(WHOLE) - 1), st.integers(0, 255)), min_size=1, max_size=4
    ),
    cut=st.none() | st.integers(0, len(WHOLE)),
)
def test_a_damaged_zip_is_read_or_refused(changes, cut, tmp_path_factory):
    content = bytearray(WHOLE)
    for place, byte in changes:
        content[place] = byte
    path = tmp_path_factory.getbasetemp() / "damaged.zip"
    path.write_bytes(content[:cut])
    try:
        answer = read_archive(path)
    except UnreadableFile as error:
        answer = error.sentence
    assert isinstance(answer, Archive) or answer.endswith(".")
