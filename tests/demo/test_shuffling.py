"""Shuffled copies keep every figure and deal the names anew."""

from collections import Counter

import numpy as np
import pytest

from throwbench.demo import generate
from throwbench.demo.shuffling import burns_shuffled, noses_shuffled, oils_shuffled


@pytest.fixture(scope="module")
def example():
    return generate()


def counted(scores, *names):
    return Counter(tuple(getattr(score, name) for name in names) for score in scores)


@pytest.mark.parametrize("shuffled", [oils_shuffled, noses_shuffled])
def test_every_assessor_still_met_every_oil_as_often(example, shuffled):
    copy = shuffled(example.scores, np.random.default_rng(0))
    names = ("assessor", "candle", "candidate", "attribute")
    assert counted(copy, *names) == counted(example.scores, *names)
    assert copy != example.scores


def test_oils_are_dealt_within_each_assessor(example):
    copy = oils_shuffled(example.scores, np.random.default_rng(0))
    names = ("assessor", "sitting", "attribute", "score")
    assert [[getattr(s, n) for n in names] for s in copy] == [
        [getattr(s, n) for n in names] for s in example.scores
    ]


def test_noses_are_dealt_within_each_candle_of_an_evening(example):
    copy = noses_shuffled(example.scores, np.random.default_rng(0))
    names = ("candle", "candidate", "attribute", "score")
    assert [[getattr(s, n) for n in names] for s in copy] == [
        [getattr(s, n) for n in names] for s in example.scores
    ]
    assert all(score.sitting.endswith(score.assessor) for score in copy)


@pytest.mark.parametrize("shuffled", [oils_shuffled, noses_shuffled])
def test_the_scores_of_one_sniff_stay_together(example, shuffled):
    copy = shuffled(example.scores, np.random.default_rng(0))
    sniffs = {}
    for old, new in zip(example.scores, copy, strict=True):
        key = (old.sitting, old.candle)
        sniffs.setdefault(key, set()).add((new.assessor, new.candle))
    assert {len(names) for names in sniffs.values()} == {1}


def test_burns_change_places_and_each_stays_whole(example):
    copy = burns_shuffled(example.burns, np.random.default_rng(0))
    places = [(burn.candle, burn.burn) for burn in example.burns]
    assert [(burn.candle, burn.burn) for burn in copy] == places
    assert Counter(burn.checks for burn in copy) == Counter(b.checks for b in example.burns)
    assert copy != example.burns
