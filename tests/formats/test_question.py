"""`trial.json`: what is written reads back the same, and nothing in it is guessed."""

import json
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from throwbench.formats import UnreadableFile
from throwbench.formats.question import FORMAT, write_question
from throwbench.formats.question_reading import read_question
from throwbench.verdict.question import MOST_STEPS, Question
from throwbench.verdict.result import Band

DAY = date(2027, 5, 24)
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
FIGURES = st.floats(-1e6, 1e6)


def rising(numbers, **options):
    two = st.lists(numbers, min_size=2, max_size=2, unique=True, **options)
    return two.map(lambda pair: tuple(sorted(pair)))


def bands():
    return st.builds(lambda ends, room: Band(*ends, room), rising(FIGURES), st.none() | TEXTS)


def questions():
    return st.builds(
        Question,
        day=st.dates(),
        trial=TEXTS,
        workshop=TEXTS,
        choose=st.integers(1, 20),
        bands=st.lists(bands(), max_size=3).map(tuple),
        scale=st.none() | rising(st.integers(0, MOST_STEPS - 1)),
        cure_days=st.none() | st.floats(0, 365),
        leave_out=st.frozensets(st.sampled_from(["tired", "perfume", "recognised"])),
        house=st.dictionaries(TEXTS, FIGURES, max_size=3),
        invented=st.booleans(),
    )


@given(question=questions())
def test_a_question_reads_back_the_same(question):
    text = write_question(question)
    assert read_question(text) == question
    assert write_question(read_question(text)) == text


def test_equal_questions_give_the_same_text():
    one = Question(day=DAY, bands=(Band(3, 4),), cure_days=10, house={"a": 1, "b": 2})
    two = Question(day=DAY, bands=(Band(3.0, 4.0),), cure_days=10.0, house={"b": 2.0, "a": 1.0})
    assert one == two
    assert write_question(one) == write_question(two)


def test_letters_stand_as_they_are_and_each_entry_on_a_line_of_its_own():
    text = write_question(Question(day=DAY, trial="Vårrabarbra"))
    assert '\n  "trial": "Vårrabarbra",\n' in text
    assert text.endswith("}\n")


def test_what_is_left_out_is_not_asked():
    assert read_question(f'{{"format": {FORMAT}, "day": "2027-05-24"}}') == Question(day=DAY)


def test_a_whole_number_is_a_number():
    text = json.dumps({"format": 1, "day": "2027-05-24", "bands": [{"low": 3, "high": 4}]})
    assert read_question(text).bands == (Band(3.0, 4.0),)


def told(text):
    with pytest.raises(UnreadableFile) as error:
        read_question(text)
    return error.value.sentence


@pytest.mark.parametrize(
    ("entry", "sentence"),
    [
        ({"choose": "3"}, 'trial.json, choose: "3" does not fit; a whole number is needed'),
        ({"choose": 3.0}, "trial.json, choose: 3.0 does not fit; a whole number is needed"),
        ({"choose": True}, "trial.json, choose: true does not fit; a whole number is needed"),
        ({"choose": None}, "trial.json, choose: null does not fit; a whole number is needed"),
        ({"choose": 0}, "trial.json: 0 may join the line. It is 1 or more."),
        ({"bands": {}}, "trial.json, bands: an object does not fit; a list is needed"),
        ({"bands": ""}, 'trial.json, bands: "" does not fit; a list is needed'),
        ({"bands": ["x"]}, 'trial.json, bands: "x" does not fit; an object, in braces, is needed'),
        ({"bands": [{"low": 3}]}, "trial.json, bands.high: this is missing, and is needed"),
        (
            {"bands": [{"low": 3, "high": 4, "top": 5}]},
            "trial.json, bands: top is not known and may not stand here: take it out",
        ),
        (
            {"bands": [{"low": 4, "high": 3}]},
            "trial.json: The band is 4 to 3. It is two scores, the lower one first",
        ),
        ({"bands": [{"low": False, "high": 4}]}, "trial.json, bands.low: false does not fit"),
        ({"scale": [1]}, "trial.json, scale: a list does not fit; a list of 2 is needed"),
        ({"scale": "15"}, 'trial.json, scale: "15" does not fit; a list is needed'),
        ({"scale": [1, 99]}, "trial.json: The scale is 1 to 99. A scale has 2 to 31 steps"),
        ({"cure_days": 10**400}, "trial.json, cure_days: 1000"),
        ({"cure_days": "soon"}, 'trial.json, cure_days: "soon" does not fit; a number is needed'),
        ({"leave_out": "tired"}, 'trial.json, leave_out: "tired" does not fit; a list is needed'),
        (
            {"leave_out": ["asleep"]},
            'trial.json, leave_out: "asleep" does not fit; one of tired, perfume, recognised is',
        ),
        (
            {"leave_out": ["tired", "tired"]},
            "trial.json, leave_out: a list does not fit; a list that names each once is needed",
        ),
        ({"house": []}, "trial.json, house: a list does not fit; an object, in braces, is needed"),
        ({"house": {"spacing": None}}, "trial.json, house: null does not fit; a number is needed"),
        ({"invented": 1}, "trial.json, invented: 1 does not fit; true or false is needed"),
        ({"trial": 5}, "trial.json, trial: 5 does not fit; a text is needed"),
        ({"trial": "\ud800"}, 'trial.json, trial: "\\ud800" does not fit; a text is needed'),
        ({"day": "24 May"}, 'trial.json, day: "24 May" is no day; a day such as 2027-05-24 is'),
        ({"day": "20270524"}, 'trial.json, day: "20270524" does not fit; a day such as 2027-05-24'),
        ({"day": 20270524}, "trial.json, day: 20270524 "),
        ({"colour": "red"}, "trial.json: colour is not known and may not stand here: take it out"),
        ({"format": 2}, "trial.json, format: it is 2; this version reads format 1: take a file"),
        ({"format": True}, "trial.json, format: it is true; this version reads format 1"),
        ({"format": None}, "trial.json, format: it is null; this version reads format 1"),
    ],
)
def test_an_entry_of_another_kind_is_a_sentence(entry, sentence):
    said = told(json.dumps({"format": 1, "day": "2027-05-24"} | entry))
    assert said.startswith(sentence)
    assert said.endswith(".")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "trial.json, line 1: this is not JSON (Expecting value); one JSON object is read"),
        ('{\n"day"', "trial.json, line 2: this is not JSON ("),
        ("{} {}", "trial.json, line 1: this is not JSON (Extra data)"),
        ("[]", "trial.json holds a list; one JSON object, in braces, is read"),
        ("3", "trial.json holds 3; one JSON object, in braces, is read"),
        ('{"format": 1}', "trial.json, day: this is missing, and is needed: write it."),
        ('{"day": 1, "day": 2}', "trial.json: day stands twice; each name stands once: take one"),
        ('{"a": {"b": 1, "b": 1}}', "trial.json: b stands twice; each name stands once"),
        ('{"choose": NaN}', "trial.json: NaN is not a number; a number in figures is needed"),
        ('{"choose": -Infinity}', "trial.json: -Infinity is not a number"),
        ("[" * 100_000, "trial.json holds more than any file of its kind; one JSON object is read"),
        ("9" * 5_000, "trial.json holds more than any file of its kind; one JSON object is read"),
        (
            '{"format": 1, "day": "2027-05-24", "cure_days": 1e999}',
            "trial.json, cure_days: Infinity does not fit; a number is needed",
        ),
    ],
)
def test_a_file_that_is_no_question_is_a_sentence(text, sentence):
    assert told(text).startswith(sentence)


@given(
    value=st.recursive(
        st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    ),
    name=st.sampled_from(["choose", "bands", "scale", "leave_out", "house", "day", "trial"]),
)
def test_whatever_stands_in_an_entry_it_is_read_or_refused(value, name):
    text = json.dumps({"format": 1, "day": "2027-05-24"} | {name: value})
    try:
        answer = read_question(text)
    except UnreadableFile as error:
        answer = error.sentence
    assert isinstance(answer, Question) or answer.startswith("trial.json")
