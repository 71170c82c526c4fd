"""The files of a trial, read together (`definition` throughout)."""

import pytest

from throwbench.formats import UnreadableFile
from throwbench.formats.trial import read_trial

SCORES = """\
candle,candidate,assessor,room,sitting,attribute,score
K7F,Slate,Odd,loft,May 9,liking,5
R9D,Kelp,Odd,loft,May 9,liking,9
R9D,Kelp,Tor,loft,May 9,liking,many
"""
BURNS = """\
candle,burn,lit_at,out_at,check_h,pool_width_mm
K7F,1,2027-05-01 10:00,2027-05-01 14:00,3,66
Z1Z,1,2027-05-01 10:00,2027-05-01 14:00,3,40
"""
CANDLES = """\
candle,oil,inside_mm,group
K7F,Slate,60,mineral
R9D,Kelp,68,
"""
THEME = """\
candidate,group
Slate,mineral
Kelpe,sea
"""


@pytest.fixture
def files(write):
    names = {"scores": SCORES, "burns": BURNS, "candles": CANDLES, "one-of": THEME}
    return {name: write(text, f"{name}.csv") for name, text in names.items()}


def test_scores_and_burns_are_enough(files):
    trial = read_trial(files["scores"], files["burns"])
    assert [row.score for row in trial.scores] == [5, 9]
    assert [row.candle for row in trial.burns] == ["K7F", "Z1Z"]
    assert trial.combinations == ()
    assert trial.groups == {}
    assert {problem.file for problem in trial.problems} == {"scores.csv"}


def test_what_does_not_fit_between_the_files_is_asked_about(files):
    trial = read_trial(
        files["scores"], files["burns"], candles=files["candles"], one_of=files["one-of"]
    )
    assert [row.oil for row in trial.combinations] == ["Slate", "Kelp"]
    assert trial.groups == {"Slate": "mineral", "Kelpe": "sea"}
    asked = {(item.file, item.column, item.value) for item in trial.problems}
    assert ("burns.csv", "candle", "Z1Z") in asked
    assert ("one-of.csv", "candidate", "Kelpe") in asked


def test_the_vessel_of_a_candle_is_known_to_the_reading_of_its_burns(files):
    trial = read_trial(files["scores"], files["burns"], candles=files["candles"])
    assert ("burns.csv", 2, "pool_width_mm") in {
        (item.file, item.line, item.column) for item in trial.problems
    }
    alone = read_trial(files["scores"], files["burns"])
    assert "pool_width_mm" not in {item.column for item in alone.problems}


def test_a_scale_that_is_named_refuses_what_lies_outside(files):
    trial = read_trial(files["scores"], files["burns"], scale=(1, 5))
    assert [row.score for row in trial.scores] == [5]
    assert [item.line for item in trial.unused] == [3, 4]


def test_unused_are_rows_and_cells_that_change_the_answer_and_not_questions(files):
    trial = read_trial(
        files["scores"], files["burns"], candles=files["candles"], one_of=files["one-of"]
    )
    assert trial.unused
    assert {item.outcome for item in trial.unused} <= {"refused", "held back"}
    others = [item for item in trial.problems if item not in trial.unused]
    assert {item.outcome for item in others} == {"asked"}


@pytest.mark.parametrize("name", ["scores", "burns", "candles", "one-of"])
def test_a_file_that_gives_no_row_is_a_sentence(files, name):
    files[name].write_text("", encoding="utf-8")
    with pytest.raises(UnreadableFile, match=name):
        read_trial(
            files["scores"], files["burns"], candles=files["candles"], one_of=files["one-of"]
        )


def test_a_code_in_small_letters_is_guessed(tmp_path):
    files = {
        "scores.csv": "candle,candidate,assessor,room,sitting,liking\nk7f,A,x,l,1,4\n",
        "burns.csv": "candle,burn,lit_at,out_at\nK7F,1,2027-05-01 09:00,2027-05-01 12:00\n",
        "candles.csv": "candle,oil\nK7F,A\n",
    }
    for name, text in files.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    trial = read_trial(
        tmp_path / "scores.csv", tmp_path / "burns.csv", candles=tmp_path / "candles.csv"
    )
    asked = [problem.sentence for problem in trial.problems if problem.column == "candle"]
    assert asked == [
        "k7f is asked about, candles.csv has no row for it; what the candle is made of stays "
        "unknown: did you mean K7F?"
    ]
