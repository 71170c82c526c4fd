"""Each constraint of a burn: what it lets in, and its sentence."""

from datetime import timedelta

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from throwbench.workshop.trials.models import Burn

HOUR = timedelta(hours=1)


@pytest.fixture
def made(cured, owner, now):
    def burn(number: int = 1, *, hours: float | None = None) -> Burn:
        out_at = None if hours is None else now + hours * HOUR
        return Burn(
            candle=cured, number=number, kind="wick", lit_at=now, lit_by=owner,
            out_by_at=now + 4 * HOUR, out_at=out_at,
        )  # fmt: skip

    return burn


def refuses(row: Burn, sentence: str) -> None:
    with pytest.raises(ValidationError, match=sentence):
        row.full_clean()
    with pytest.raises(IntegrityError), transaction.atomic():
        row.save()


def accepts(row: Burn) -> None:
    row.full_clean()
    row.save()


def test_burns_of_a_candle_have_numbers_of_their_own(made) -> None:
    accepts(made(1, hours=4))
    accepts(made(2, hours=4))


def test_a_number_stands_once(made) -> None:
    accepts(made(1, hours=4))
    refuses(made(1, hours=3), "This candle has a burn of that number")


def test_a_candle_is_lit(made) -> None:
    accepts(made(1, hours=4))
    accepts(made(2))


def test_a_candle_is_lit_once(made) -> None:
    accepts(made(1))
    refuses(made(2), "This candle is lit already. Put it out first")


def test_a_burn_ends_after_it_began(made) -> None:
    accepts(made(1, hours=0.1))


def test_a_burn_does_not_end_before_it_began(made) -> None:
    refuses(made(1, hours=0), "A candle is put out after it was lit")
