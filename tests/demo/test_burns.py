"""What is planted in the burns, and that they could have happened."""

from itertools import pairwise

import pytest

from throwbench.demo import DEFAULT_SEED, generate
from throwbench.demo.plan import BY_CODE, DEMO_DAY, INSIDE_MM, NEW_LOT_DAY
from throwbench.science.load import load_of_wax_percent

HOURS = 3600


@pytest.fixture(scope="module", params=[0, 1, DEFAULT_SEED])
def example(request):
    return generate(seed=request.param)


def logs(example):
    """The burns of each candle that was lit."""
    return [
        [burn for burn in example.burns if burn.candle == code]
        for code in dict.fromkeys(burn.candle for burn in example.burns)
    ]


def hours(burn):
    return (burn.out_at - burn.lit_at).total_seconds() / HOURS


def one(example, candle, number):
    return next(b for b in example.burns if (b.candle, b.burn) == (candle, number))


def test_burns_are_numbered_cooled_and_over_before_the_demos_day(example):
    for log in logs(example):
        assert [burn.burn for burn in log] == list(range(1, len(log) + 1))
        assert all(
            (later.lit_at - burn.out_at).total_seconds() >= 3 * HOURS
            for burn, later in pairwise(log)
        )
        assert log[-1].out_at.date() < DEMO_DAY


def test_only_one_burn_is_left_on_and_it_lasted_4_h_50(example):
    long = {(b.candle, b.burn): round(hours(b), 2) for b in example.burns if hours(b) > 4.25}
    assert long == {("D5Q", 3): 4.83}


def test_wax_burns_away_at_the_rate_of_the_wick_and_is_weighed_the_same_next_time(example):
    for log in logs(example):
        for burn in log:
            assert 3 < (burn.mass_before_g - burn.mass_after_g) / hours(burn) < 9
        assert all(burn.mass_after_g == later.mass_before_g for burn, later in pairwise(log))


def test_no_candle_is_lit_again_at_its_end_line_and_seven_reach_it(example):
    to_the_end = {code for code, candle in BY_CODE.items() if candle.to_the_end}
    for log in logs(example):
        assert all(b.wax_left_mm is None or b.wax_left_mm > 12 for b in log[:-1])
        if log[0].candle in to_the_end:
            assert 6 <= log[-1].wax_left_mm <= 12
    assert len(to_the_end) == 7


def test_a_melt_pool_grows_and_stays_within_the_wall(example):
    for burn in example.burns:
        widths = [c.pool_width_mm for c in burn.checks if c.pool_width_mm is not None]
        assert widths == sorted(widths)
        assert widths[-1] <= INSIDE_MM


def test_every_by_eye_thing_was_looked_at_in_every_burn(example):
    for burn in example.burns:
        assert None not in (burn.relit, burn.wick_moved, burn.vessel_damage, burn.put_out)
        assert all(check.no_change or check.flame for check in burn.checks)
        assert burn.checks[0].flare_up == burn.checks[-1].flare_up == "none"


def test_flames_and_rooms_are_as_usual(example):
    flames = [c.flame_mm for burn in example.burns for c in burn.checks if c.flame_mm]
    assert min(flames) >= 10
    assert max(flames) <= 45
    assert all(18.5 <= burn.room_c <= 23.5 for burn in example.burns)


def test_the_slip_of_80_mm_is_put_right_and_stays_readable(example):
    burn = one(example, "K7F", 3)
    assert [check.flame_mm for check in burn.checks if check.flame_mm] == [18]
    assert "80 mm" in burn.note


def test_one_wick_floats_in_the_fifth_burn_and_it_was_held_by_a_sticker(example):
    moved = [(burn.candle, burn.burn) for burn in example.burns if burn.wick_moved]
    assert moved == [("S4M", 5)]
    assert BY_CODE["S4M"].fixing == "sticker"


def test_the_bakehouse_browns_on_day_14(example):
    burn = one(example, "P2N", 3)
    assert "browned" in burn.note
    assert (burn.lit_at.date() - BY_CODE["P2N"].poured).days == 14


def test_six_candles_have_stickers(example):
    assert sum(card.fixing == "sticker" for card in example.combinations) == 6


def test_the_cup_dosed_of_total_has_8_70_percent_of_wax(example):
    """`definition`: 8 % of total is 8 / 92 of wax."""
    loads = {card.candle: card.load_percent for card in example.combinations}
    assert loads.pop("P2N") == pytest.approx(load_of_wax_percent(share_percent=8), abs=0.005)
    assert set(loads.values()) == {8}


def test_wick_4_changes_its_lot_on_20_may(example):
    lots = {
        (BY_CODE[card.candle].poured >= NEW_LOT_DAY, card.wick_lot)
        for card in example.combinations
        if card.wick == "flat cotton 4"
    }
    assert len(lots) == 2
    assert len({lot for _, lot in lots}) == 2
