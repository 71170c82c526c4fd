"""What could not be read may hide a broken limit: such a candle is never clean."""

from datetime import date

from burning import clean_candle, made_of, seen_burn
from throwbench.rules import judge

DAY = date(2027, 5, 24)
WHY = "Put right burns.csv, line 3, flame_mm of K7F."


def state(burns, cards=(), unread=None):
    (found,) = judge(burns, combinations=cards, day=DAY, unread=unread)
    return found.state, found.missing


def test_a_clean_candle_with_a_look_that_could_not_be_read_is_not_yet_known():
    assert state(clean_candle()) == ("none broken", None)
    assert state(clean_candle(), unread={"K7F": WHY}) == ("not yet known", WHY)


def test_a_broken_limit_stays_broken():
    broken = [seen_burn(1, relit=True)]
    assert state(broken, unread={"K7F": WHY})[0] == "broken"


def test_a_clean_candle_does_not_clear_one_that_could_not_be_read():
    cards = [made_of("K7F"), made_of("K7G")]
    burns = [*clean_candle("K7F"), *clean_candle("K7G")]
    assert state(burns, cards) == ("none broken", None)
    assert state(burns, cards, {"K7G": WHY}) == ("not yet known", WHY)


def test_the_log_is_put_right_before_another_candle_is_burned_on():
    cards = [made_of("K7F"), made_of("K7G")]
    burns = [*clean_candle("K7F")[:3], *clean_candle("K7G")[:2]]
    assert "K7F" in state(burns, cards)[1]
    assert state(burns, cards, {"K7G": WHY}) == ("not yet known", WHY)


def test_a_candle_of_which_no_burn_could_be_read_is_still_there():
    found = judge([], day=DAY, unread={"K7F": WHY})
    assert [(item.label, item.state, item.missing) for item in found] == [
        ("K7F", "not yet known", WHY)
    ]
