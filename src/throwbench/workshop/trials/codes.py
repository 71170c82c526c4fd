"""Short printed codes: letter, digit, letter; no 0, O, 1 or I, which people misread."""

import random
import secrets
from collections.abc import Container

from throwbench.science.errors import UnclearError

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
DIGITS = "23456789"
CHANCE = secrets.SystemRandom()


def new_code(used: Container[str], *, chance: random.Random = CHANCE) -> str:
    """A code that is not used yet, drawn from `chance` so that it tells nothing.

    Raises
    ------
    UnclearError
        All 4,608 codes are used.
    """
    free = [code for code in _all() if code not in used]
    if not free:
        raise UnclearError(
            "All 4,608 codes are used.",
            "A test candle needs a code of its own.",
            "Give it one of four characters by hand.",
        )
    return chance.choice(free)


def _all() -> list[str]:
    return [first + digit + last for first in LETTERS for digit in DIGITS for last in LETTERS]
