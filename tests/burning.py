"""Burns for tests: a candle that is looked at in every burn and burned to the end line."""

from dataclasses import replace
from datetime import datetime, timedelta

from throwbench.records import Burn, Check, Combination

START = datetime(2027, 5, 1, 9, 0)
SEEN_CHECK = Check(check_h=1, flame="under", flare_up="none", soot="none")


def seen_burn(number=1, *, candle="K7F", **changes):
    """A burn of 4 h on the day of its number; every rule that a person can see was looked at."""
    lit_at = START + timedelta(days=number)
    facts = {
        "lit_at": lit_at,
        "out_at": lit_at + timedelta(hours=4),
        "put_out": "snuffed",
        "relit": False,
        "wick_moved": False,
        "vessel_damage": "none",
        "checks": (SEEN_CHECK,),
    }
    return Burn(candle=candle, burn=number, **(facts | changes))


def clean_candle(candle="K7F", *, burns=8):
    """Burns down to the end line without a broken limit."""
    log = [seen_burn(number, candle=candle) for number in range(1, burns + 1)]
    return [*log[:-1], replace(log[-1], wax_left_mm=12)]


def made_of(candle="K7F", **changes):
    facts = {
        "oil": "Slate After Rain",
        "load_percent": 8,
        "wax": "R-36",
        "wick": "flat cotton 4",
        "vessel": "stoneware cup",
        "fixing": "glue",
    }
    return Combination(candle=candle, **(facts | changes))
