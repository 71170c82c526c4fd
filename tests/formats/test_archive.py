"""Everything a verdict is asked from, as one thing: the same trial gives the same archive."""

import io
import zipfile
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from throwbench.demo import generate
from throwbench.demo.files import texts
from throwbench.formats import UnreadableFile
from throwbench.formats.archive import NAMES, Archive, archive_of, digest, to_zip, trial_of
from throwbench.formats.archive_reading import read_archive
from throwbench.formats.judged import judge_archive, judge_trial
from throwbench.formats.question import write_question
from throwbench.formats.trial import read_trial
from throwbench.records import Combination, Score
from throwbench.science.errors import UnclearError
from throwbench.verdict.question import Question
from throwbench.verdict.result import Band

QUESTION = Question(day=date(2027, 5, 24), choose=4, bands=(Band(3.2, 4.4),), trial="Long Light")
SCORES = """\
candle,candidate,assessor,room,sitting,attribute,score
K7F,Slate,Odd,loft,May 9,liking,5
R9D,Kelp,Odd,loft,May 9,liking,3
R9D,Kelp,Tor,loft,May 9,liking,many
"""
SMALL = Archive(files={"scores.csv": SCORES}, question=replace(QUESTION, choose=1, bands=()))


@pytest.fixture(scope="module")
def example():
    return generate()


@pytest.fixture(scope="module")
def demo(example):
    return archive_of(example.scores, example.burns, example.combinations, example.theme, QUESTION)


def test_the_records_become_the_files_that_the_example_ships_with(demo, example):
    assert demo.files == texts(example)
    assert demo.question == QUESTION


def test_a_file_that_would_have_no_row_is_left_out(example):
    assert archive_of((), (), (), (), QUESTION).files == {}
    some = archive_of(example.scores, (), example.combinations, (), QUESTION)
    assert set(some.files) == {"scores.csv", "candles.csv"}


def test_the_entries_are_the_files_and_the_question_by_name(demo):
    assert list(demo.entries()) == sorted(NAMES)
    assert demo.entries()["trial.json"] == write_question(QUESTION)


def test_a_zip_holds_the_files_as_they_are_and_reads_back_the_same(demo, tmp_path):
    packed = tmp_path / "long-light.zip"
    packed.write_bytes(to_zip(demo))
    with zipfile.ZipFile(packed) as source:
        assert source.namelist() == sorted(NAMES)
        assert source.read("scores.csv").decode() == demo.files["scores.csv"]
        assert source.testzip() is None
    assert read_archive(packed) == demo
    assert digest(read_archive(packed)) == digest(demo)


def test_the_same_archive_gives_the_same_bytes(demo):
    turned = Archive(files=dict(reversed(demo.files.items())), question=demo.question)
    assert to_zip(turned) == to_zip(demo)
    assert digest(turned) == digest(demo)


def test_no_clock_and_no_machine_stand_in_a_zip(demo):
    with zipfile.ZipFile(io.BytesIO(to_zip(demo))) as source:
        said = {(one.date_time, one.create_system, one.external_attr) for one in source.infolist()}
    assert said == {((1980, 1, 1, 0, 0, 0), 3, 0o644 << 16)}


def test_the_digest_of_a_small_archive_stays_what_it_was():
    """`regression`: a kept judgement is found by it."""
    assert digest(SMALL) == ("a07820b57c2eb36504639bda07f347dd6154368e9093cd367b44d1ffcb7bf1e9")


@pytest.mark.parametrize(
    "other",
    [
        replace(SMALL, files={"scores.csv": SCORES + "\n"}),
        replace(SMALL, files={"burns.csv": SCORES}),
        replace(SMALL, files={}),
        replace(SMALL, files={**SMALL.files, "burns.csv": ""}),
        replace(SMALL, question=replace(SMALL.question, choose=2)),
        replace(SMALL, question=replace(SMALL.question, trial="Short Light")),
        replace(SMALL, question=replace(SMALL.question, day=date(2027, 5, 25))),
        replace(SMALL, question=replace(SMALL.question, invented=True)),
    ],
)
def test_whatever_changes_in_an_archive_changes_its_digest(other):
    assert digest(other) != digest(SMALL)


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)


@given(files=st.dictionaries(st.sampled_from(NAMES[:-1]), TEXTS))
def test_the_order_of_the_files_is_nothing_to_the_digest(files):
    turned = dict(reversed(files.items()))
    assert digest(replace(SMALL, files=files)) == digest(replace(SMALL, files=turned))


def test_the_files_are_read_as_those_of_a_folder_are(demo, tmp_path):
    for name, text in demo.files.items():
        (tmp_path / name).write_text(text, encoding="utf-8", newline="")
    paths = [tmp_path / name for name in ("scores.csv", "burns.csv")]
    more = {"candles": tmp_path / "candles.csv", "one_of": tmp_path / "one-of.csv"}
    assert trial_of(demo) == read_trial(*paths, **more)


def test_problems_name_the_file_the_line_and_the_column():
    (problem,) = trial_of(SMALL).problems
    assert str(problem).startswith("scores.csv, line 4, score: 'many' is refused")


def test_the_scale_that_is_asked_refuses_what_lies_outside():
    asked = replace(SMALL, question=replace(SMALL.question, scale=(1, 4)))
    assert [row.score for row in trial_of(asked).scores] == [3]


def test_a_file_that_gives_no_row_is_a_sentence():
    with pytest.raises(UnreadableFile, match=r"^burns\.csv has no rows; "):
        trial_of(replace(SMALL, files={**SMALL.files, "burns.csv": "candle,burn\n"}))


def test_an_archive_is_judged_as_its_files_are(demo):
    found, trial = judge_archive(demo)
    assert trial == trial_of(demo)
    assert found == judge_trial(trial, QUESTION)
    assert found.day == "2027-05-24"
    assert len(found.pick) == 4


def test_without_burns_every_limit_is_not_yet_known():
    found, trial = judge_archive(SMALL)
    assert trial.burns == ()
    assert found.pick == ("Slate",)
    assert found.counted == 2
    assert any("scores.csv, line 4, score" in words for words in found.holds)


def test_without_scores_nothing_is_picked(example):
    burned = archive_of((), example.burns, example.combinations, (), QUESTION)
    found, _ = judge_archive(burned)
    assert found.pick == ()
    assert "Kelp and Iron on flat cotton 6 broke a limit" in found.sentence()
    empty, _ = judge_archive(Archive(files={}, question=QUESTION))
    assert empty.candidates == ()


def test_themes_of_the_files_hold(demo):
    held = {item.candidate for item in judge_archive(demo)[0].candidates if item.group}
    assert "Rhubarb Cold Frame" in held


def test_a_question_that_does_not_fit_the_scores_is_a_sentence():
    hot = replace(SMALL, files={"scores.csv": SCORES.replace("liking", "hot_throw")})
    asked = replace(hot, question=replace(SMALL.question, bands=(Band(3, 4, "attic"),)))
    with pytest.raises(UnclearError, match="A band is given for attic"):
        judge_archive(asked)


def test_names_that_a_spreadsheet_would_work_out_survive_the_archive():
    score = Score(
        candle="A1", candidate="=Kelp", assessor="Åse", room="loft", sitting="S1",
        attribute="liking", score=4,
    )  # fmt: skip
    made_of = Combination(candle="A1", oil="=Kelp", wick='4, "flat"')
    trial = trial_of(archive_of((score,), (), (made_of,), (), QUESTION))
    assert [replace(row, line=0) for row in trial.scores] == [score]
    assert [replace(row, line=0) for row in trial.combinations] == [made_of]
