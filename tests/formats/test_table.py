"""Bytes to cells: what is forgiven, and what a file as a whole is refused for."""

import csv
import os
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reading import REFERENCE
from throwbench.formats import UnreadableFile, read_table, table
from throwbench.formats.table import TextFile


def refused(path):
    with pytest.raises(UnreadableFile) as caught:
        read_table(path)
    assert str(caught.value) == caught.value.sentence
    return caught.value.sentence


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_comma_semicolon_and_tab_are_told_from_the_first_line(write, mark):
    read = read_table(write(f"a{mark}b\n1{mark}2\n"))
    assert read.columns == {"a": ("1",), "b": ("2",)}
    assert read.delimiter == mark


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_line_ending_is_read(write, end):
    read = read_table(write(end.join(["a,b", "1,2", "3,4"])))
    assert read.columns["b"] == ("2", "4")
    assert read.lines == (2, 3)


def test_a_byte_order_mark_and_surrounding_blanks_are_forgiven(write):
    read = read_table(write(b"\xef\xbb\xbf a , b\n 1 , 2 \n"))
    assert read.columns == {"a": ("1",), "b": ("2",)}


def test_a_row_knows_its_line_past_blank_lines_and_cells_of_many_lines(write):
    read = read_table(write('\n\na,b\n"x\ny",2\n\n,\n5,6\n'))
    assert read.lines == (4, 8)
    assert read.first_line == "file.csv, line 3"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_on_top_that_say_what_the_file_is_are_skipped(write, end):
    read = read_table(write(end.join(["# wine; of 1989", "#", "a,b", "#1,2", "3"])))
    assert read.columns == {"a": ("#1",), "b": ("2",)}
    assert (read.header_line, read.lines, read.delimiter) == (3, (4,), ",")
    assert str(read.problems[0]).startswith("file.csv, line 5: the row has 1 cell")


def test_a_published_table_is_read_with_its_source_on_top():
    read = read_table(REFERENCE / "wine_randall1989.csv")
    assert len(read.lines) == 72
    assert list(read.columns)[:2] == ["response", "rating"]


def test_a_row_of_another_length_is_left_out_and_said(write):
    read = read_table(write("a,b\n1,2\n1\n1,2,3\n1,2,,\n"))
    assert read.lines == (2, 5)
    first, second = read.problems
    assert str(first).startswith("file.csv, line 3: the row has 1 cell where the first line names")
    assert (first.outcome, second.value) == ("refused", "1,2,3")


def test_an_empty_column_without_a_name_is_no_matter(write):
    assert read_table(write("a,b,\n1,2,\n")).problems == ()


def test_cells_without_a_name_are_asked_about(write):
    (problem,) = read_table(write("a,b,\n1,2,3\n")).problems
    assert problem.outcome == "asked"
    assert "no name" in problem.sentence


def test_a_missing_file_is_said(tmp_path):
    assert refused(tmp_path / "no.csv").startswith("no.csv is not there, or is no file;")


def test_a_name_that_no_file_can_have_is_said():
    assert "is not there" in refused("a\0b")


def test_a_folder_is_said(tmp_path):
    assert "is a folder; a file is needed" in refused(tmp_path)


def test_a_file_that_may_not_be_read_is_said(write, monkeypatch):
    path = write("a,b\n1,2\n")

    def forbid(self):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "read_bytes", forbid)
    assert "cannot be opened (Permission denied)" in refused(path)


def test_a_file_of_monstrous_size_is_not_opened(write, monkeypatch):
    monkeypatch.setattr(table, "LARGEST_BYTES", 10)
    assert "is larger than" in refused(write("a,b\n1,2\n3,4\n"))


@pytest.mark.parametrize(
    "content", ["", "\n\n", "# only words", "# words\na,b\n", "a,b\n", "a,b\n,\n", b"\xef\xbb\xbf"]
)
def test_a_file_without_rows_is_said(write, content):
    assert "has no rows; the first line names the columns" in refused(write(content))


def test_a_file_in_which_no_row_fits_is_said(write):
    assert "check what parts the cells" in refused(write("a,b\n1;2\n"))


def test_latin_1_is_answered_with_the_line_and_what_to_do(write):
    sentence = refused(write("a,b\n1,2\nÅse,3\n".encode("latin-1")))
    assert sentence.startswith("file.csv, line 3: byte 0xC5 is not UTF-8")
    assert "save it as CSV UTF-8" in sentence


def test_zero_bytes_are_no_text(write):
    assert "zero bytes" in refused(write(b"a,b\n1,\x00\n"))


def test_text_of_two_bytes_a_letter_is_said(write):
    assert "only UTF-8 is read" in refused(write("a,b\n1,2\n".encode("utf-16")))


def test_a_workbook_is_said(write):
    assert "is a workbook or an archive" in refused(write(b"PK\x03\x04rest"))


def test_two_columns_of_one_name_are_not_guessed_between(write):
    assert "two columns are called A" in refused(write("a,A\n1,2\n"))


def test_an_unclosed_quotation_mark_is_said_with_the_line_it_begins_on(write):
    sentence = refused(write('a,b\n1,2\n"3,4\n5,6\n'))
    assert sentence.startswith("file.csv, line 3: ")
    assert "unclosed quotation mark" in sentence


def test_a_cell_longer_than_a_cell_may_be_is_said(write):
    content = "a,b\n1," + "x" * (csv.field_size_limit() + 1) + "\n"
    assert refused(write(content)).startswith("file.csv, line 2: ")


def test_ten_megabytes_of_random_bytes_are_answered_with_a_sentence(write):
    path = write(os.urandom(10_000_000))
    assert "not" in refused(path)


def test_ten_megabytes_of_random_letters_are_answered_with_a_sentence(write):
    letters = random.Random(1).choices("abc ,;\t\n.0123456789äÅ€", k=9_000_000)
    path = write("a,b,c\n" + "".join(letters))
    problems = read_table(path).problems
    assert len(problems) == 101


@settings(deadline=None)  # a file is written each time
@given(content=st.binary(max_size=300))
def test_any_bytes_are_a_table_or_a_sentence(content, answer):
    read = answer(content, read_table)
    if isinstance(read, str):
        assert read.endswith(".")
    else:
        assert all(len(cells) == len(read.lines) for cells in read.columns.values())


def test_a_file_in_memory_is_read_as_the_same_file_on_the_disk_is(write):
    text = "\ufeff# the first burn\ncandle;flame\nK7F;under\nR9D\n"
    held = TextFile(name="burns.csv", text=text)
    assert read_table(held) == read_table(write(text, "burns.csv"))


def test_a_file_in_memory_is_refused_by_its_name():
    with pytest.raises(UnreadableFile, match=r"^burns\.csv has no rows; "):
        read_table(TextFile(name="burns.csv", text=""))
    with pytest.raises(UnreadableFile, match=r"^burns\.csv holds zero bytes"):
        read_table(TextFile(name="burns.csv", text="a\0"))
