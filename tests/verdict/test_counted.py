"""Which scores rank an oil, and what is said of the others (`definition` throughout)."""

import pytest

from burning import made_of
from scoring import score
from throwbench.verdict.counted import sort_scores


def parted(*given, combinations=(), **changes):
    facts = {
        "broken": frozenset(),
        "badly_wicked": frozenset(),
        "cure_days": None,
        "leave_out": frozenset(),
    }
    return sort_scores(
        given, combinations={made.candle: made for made in combinations}, **(facts | changes)
    )


def reason(given, **changes):
    """Why one score is only shown; None if it counts."""
    found = parted(given, **changes)
    if found.counted:
        assert (found.counted, found.shown, found.reasons) == ((given,), (), {})
        return None
    assert found.shown == (given,)
    ((words, count),) = found.reasons.items()
    assert count == 1
    return words


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        ({}, None),
        ({"burn_kind": "nose"}, None),
        ({"burn_kind": "wick"}, "sniffed in a wick burn or a long burn"),
        ({"burn_kind": "long"}, "sniffed in a wick burn or a long burn"),
        ({"burn_kind": "unlit"}, "not lit"),
        ({"counts": True}, None),
        ({"counts": False}, "taken out by the maker"),
        ({"tired": True, "perfume": True, "recognised": True}, None),
    ],
)
@pytest.mark.parametrize("attribute", ["liking", "hot_throw"])
def test_a_score_counts_in_a_nose_burn_unless_the_maker_took_it_out(facts, why, attribute):
    assert reason(score(4, attribute=attribute, **facts)) == why


@pytest.mark.parametrize("kind", ["nose", "wick", "long", "unlit", None])
def test_cold_throw_needs_no_nose_burn(kind):
    assert reason(score(4, attribute="cold_throw", burn_kind=kind)) is None


def test_cannot_tell_is_no_score():
    assert reason(score(None)) == "cannot tell"
    assert reason(score(None, counts=False)) == "cannot tell"


@pytest.mark.parametrize("attribute", ["liking", "hot_throw", "cold_throw"])
@pytest.mark.parametrize(
    ("days", "why"), [(9.9, "still curing"), (10, None), (10.1, None), (None, None)]
)
def test_a_score_from_the_day_of_the_wax_card_on_counts(attribute, days, why):
    made = made_of("K7F", card_cure_days=10)
    given = score(4, candle="K7F", attribute=attribute, cure_days=days)
    assert reason(given, combinations=[made]) == why


def test_the_wax_card_stands_above_the_cure_that_is_given_for_all():
    given = score(4, candle="K7F", cure_days=12)
    assert reason(given, combinations=[made_of("K7F", card_cure_days=10)], cure_days=14) is None
    assert (
        reason(given, combinations=[made_of("K7F", card_cure_days=14)], cure_days=10)
        == "still curing"
    )
    assert reason(given, combinations=[made_of("K7F")], cure_days=14) == "still curing"
    assert reason(given, cure_days=14) == "still curing"
    assert reason(given, cure_days=12) is None
    assert reason(score(4, cure_days=0)) is None


@pytest.mark.parametrize(
    ("setting", "why"),
    [
        ("broken", "from a candle that broke a limit"),
        ("badly_wicked", "from a badly wicked candle"),
    ],
)
def test_a_bad_candle_says_nothing_about_its_oil_lit(setting, why):
    facts = {setting: frozenset({"K7F"})}
    assert reason(score(4, candle="K7F"), **facts) == why
    assert reason(score(4, candle="K7F", attribute="hot_throw"), **facts) == why
    assert reason(score(4, candle="K7F", attribute="cold_throw"), **facts) is None
    assert reason(score(4, candle="R9D"), **facts) is None


@pytest.mark.parametrize("switch", ["tired", "perfume", "recognised"])
def test_a_kind_of_score_can_be_left_out(switch):
    out = frozenset({switch})
    assert reason(score(4, **{switch: True}), leave_out=out) == switch
    assert reason(score(4, **{switch: False}), leave_out=out) is None
    assert reason(score(4), leave_out=out) is None
    others = frozenset({"tired", "perfume", "recognised"} - out)
    assert reason(score(4, **{switch: True}), leave_out=others) is None


def test_reasons_are_counted_and_scores_keep_their_order():
    given = [
        score(1, cure_days=2),
        score(2),
        score(3, cure_days=3),
        score(4),
        score(5, counts=False),
    ]
    found = parted(*given, cure_days=10)
    assert found.counted == (given[1], given[3])
    assert found.shown == (given[0], given[2], given[4])
    assert found.reasons == {"still curing": 2, "taken out by the maker": 1}
    assert found.curing == (given[0], given[2])
