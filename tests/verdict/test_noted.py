"""Facts of candles, put together before they are said."""

import pytest

from throwbench.science.pool import FullPool
from throwbench.verdict.full_pool import BurnPool
from throwbench.verdict.noted import Noted, together


def pool(after_h, by_h, *, rule_h=3):
    full = FullPool(after_h=after_h, by_h=by_h)
    return BurnPool(burn=3, to_full=full, share=None, rule_h=rule_h, narrow=None)


def words(*pools):
    return Noted(burns=len(pools), pools=pools).words()


def test_candles_never_burned_say_nothing():
    assert Noted().words() == ()
    assert together([]) == together([Noted(), Noted()]) == Noted()


@pytest.mark.parametrize(
    ("pools", "said"),
    [
        ([(2, 3), (1, 2)], "full melt pool after 1 to 3 h"),
        ([(None, 1), (2, 3)], "full melt pool by 3 h"),
        ([(3, 4), (3.5, 4)], "full melt pool after 3 to 4 h, later than the time rule (3 h)"),
        (
            [(2, 3), (3, 4), (1, 2)],
            "full melt pool after 1 to 4 h, 1 of 3 times later than the time rule (3 h)",
        ),
        ([(2.5, None), (2, None)], "not full by 2 h"),
        ([(4, None), (3, None)], "not full by 3 h"),
        ([(2, 3), (None, None)], "full melt pool after 2 to 3 h"),
    ],
)
def test_one_range_holds_all_burns(pools, said):
    assert words(*(pool(after, by) for after, by in pools)) == (said,)


def test_vessels_of_two_widths_have_two_time_rules():
    late = (pool(3, 4), pool(4, 5, rule_h=4))
    assert words(*late) == ("full melt pool after 3 to 5 h, later than the time rule (3 or 4 h)",)


def test_nothing_known_of_a_pool_is_not_yet_judged():
    assert words(pool(None, None)) == ("full melt pool not yet judged",)


def test_burns_are_added_up_and_what_one_candle_shows_they_show():
    one = Noted(burns=2, mushrooms=1, looked=2, frosting=True, depths_mm=(14, 15))
    two = Noted(burns=3, tunnels=True, looked=1, wet_spots=True, depths_mm=(16,))
    both = together([one, two])
    assert both == Noted(
        burns=5,
        tunnels=True,
        mushrooms=1,
        looked=3,
        frosting=True,
        wet_spots=True,
        depths_mm=(14, 15, 16),
    )
    assert both.words() == (
        "tunnels",
        "full melt pool not yet judged",
        "mushrooms in 1 of 3 burns",
        "frosting",
        "wet spots",
        "melt pool depth 15 mm, mean of 3 burns: a hint that the wick is large",
    )
    assert Noted(burns=1, mushrooms=1, looked=1).words()[-1] == "mushrooms in 1 of 1 burn"
