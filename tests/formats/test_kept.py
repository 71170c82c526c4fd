"""A verdict that is kept comes back equal, to the last bit."""

import json
from dataclasses import asdict, replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoring import heard, oil, scores
from throwbench.demo import generate
from throwbench.formats import UnreadableFile
from throwbench.formats.archive import archive_of
from throwbench.formats.judged import judge_archive
from throwbench.formats.kept import verdict_from_json, verdict_to_json
from throwbench.verdict.judge import verdict
from throwbench.verdict.question import Question
from throwbench.verdict.result import Band, NoseNote

DAY = date(2027, 5, 24)


@pytest.fixture(scope="module")
def demo():
    example = generate()
    question = Question(day=DAY, choose=4, bands=(Band(3.2, 4.4),), house={"spacing": 90.0})
    return judge_archive(
        archive_of(example.scores, example.burns, example.combinations, example.theme, question)
    )[0]


TINY = verdict(scores({"Slate": "5 4", "Kelp": "3"}), day=DAY)
EMPTY = verdict([], day=DAY)


def test_the_verdict_of_the_example_comes_back_equal(demo):
    text = verdict_to_json(demo)
    again = verdict_from_json(text)
    assert again == demo
    assert repr(again) == repr(demo)
    assert verdict_to_json(again) == text
    assert again.sentence() == demo.sentence()


@pytest.mark.parametrize("found", [TINY, EMPTY], ids=["tiny", "empty"])
def test_a_small_verdict_comes_back_equal(found):
    assert verdict_from_json(verdict_to_json(found)) == found


def test_it_is_one_object_with_the_fields_of_a_verdict(demo):
    assert json.loads(verdict_to_json(demo)) == json.loads(json.dumps(asdict(demo)))


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
CHANCES = st.floats(0, 1)
OILS = st.builds(
    lambda name, place, belongs, expected, cost, shown, words: oil(
        name,
        place,
        belongs=belongs,
        scent=(heard(expected, counted=shown),),
        swap_cost=cost,
        only_shown=(("liking", shown),),
        reasons=words,
    ),
    TEXTS,
    st.sampled_from(["in the pick", "barred", "not ranked"]),
    st.none() | CHANCES,
    st.floats(-10, 10),
    st.none() | CHANCES,
    st.lists(st.integers(0, 10), max_size=3).map(tuple),
    st.lists(TEXTS, max_size=2).map(tuple),
)
NOSES = st.builds(NoseNote, assessor=TEXTS, shift=st.floats(-5, 5), chance=CHANCES, words=TEXTS)


@given(
    candidates=st.lists(OILS, max_size=3).map(tuple),
    noses=st.lists(NOSES, max_size=2).map(tuple),
    bands=st.lists(st.builds(Band, CHANCES, CHANCES, st.none() | TEXTS), max_size=2).map(tuple),
    loss=st.none() | CHANCES,
)
def test_whatever_its_fields_hold_comes_back_equal(candidates, noses, bands, loss):
    found = replace(TINY, candidates=candidates, noses=noses, bands=bands, loss_steps=loss)
    assert verdict_from_json(verdict_to_json(found)) == found


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"choose": "1"}, 'the kept verdict, choose: "1" does not fit; a whole number is needed'),
        ({"sentence": "x"}, "the kept verdict: sentence is not known and may not stand here"),
        ({"scale": [1]}, "the kept verdict, scale: a list does not fit; a list of 2 is needed"),
    ],
)
def test_what_is_no_verdict_is_a_sentence(change, sentence):
    text = json.dumps(json.loads(verdict_to_json(TINY)) | change)
    with pytest.raises(UnreadableFile) as error:
        verdict_from_json(text)
    assert error.value.sentence.startswith(sentence)


def test_a_place_that_is_not_known_is_refused():
    text = verdict_to_json(TINY).replace('"place": "in the pick"', '"place": "on the shelf"')
    with pytest.raises(UnreadableFile, match=r'candidates.place: "on the shelf" does not fit'):
        verdict_from_json(text)


def test_a_verdict_that_lacks_a_field_is_refused():
    whole = json.loads(verdict_to_json(TINY))
    del whole["risk"]
    with pytest.raises(UnreadableFile, match=r"^the kept verdict, risk: this is missing"):
        verdict_from_json(json.dumps(whole))
