"""Several candles in one press: lit together, or looked at in one round."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction

from throwbench.science.errors import SaidError, UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person
from throwbench.workshop.trials.asking import Question, QuestionsError
from throwbench.workshop.trials.lighting import one_for_the_nose
from throwbench.workshop.trials.models import Burn, BurnKind, TestCandle
from throwbench.workshop.trials.services.burn import check, light, put_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What was seen of one candle in a round; with an `end` it is out, at `out_at`."""

    burn: Burn
    seen: Mapping[str, Any] = field(default_factory=dict)
    end: Mapping[str, Any] | None = None
    out_at: datetime | None = None
    sure: bool = False


class RoundError(SaidError):
    """Nothing of the round is noted yet: what is wrong or asked, by the burn."""

    def __init__(self, errors: Mapping[int, SaidError]) -> None:
        self.errors = dict(errors)
        super().__init__(" ".join(str(error) for error in errors.values()))


@transaction.atomic
def go_round(
    looks: Sequence[Look], *, at: datetime, who: Person, now: datetime, entry: UUID | None = None
) -> None:
    """All looks of one round, or none of them.

    Raises
    ------
    RoundError
        Something is wrong with a look, or asked about it.
    """
    content = {"looks": [(x.burn.pk, dict(x.seen), x.end, x.out_at) for x in looks]}
    if seen_before(entry, what="burn round", content=content, who=who, now=now):
        return
    errors: dict[int, SaidError] = {}
    for look in looks:
        try:
            with transaction.atomic():
                _look(look, at=at, who=who, now=now)
        except SaidError as error:
            errors[look.burn.pk] = error
    if errors:
        raise RoundError(errors)


def _look(look: Look, *, at: datetime, who: Person, now: datetime) -> None:
    out_at = look.out_at or at
    if look.seen:
        seen_at = min(at, out_at) if look.end is not None else at
        check(look.burn, at=seen_at, sure=look.sure, who=who, now=now, **look.seen)
    if look.end is not None:
        put_out(look.burn, at=out_at, sure=look.sure, who=who, now=now, **look.end)


@transaction.atomic
def light_together(
    candles: Mapping[TestCandle, Mapping[str, Any]],
    *,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
    **alike: Any,
) -> list[Burn]:
    """Candles that are lit at one time in one room; what differs stands beside each.

    Raises
    ------
    UnclearError
        No candle, one of them is not lit, or several are to be one nose burn.
    QuestionsError
        All that is asked about any of them, where `sure` is not said.
    """
    if not candles:
        raise UnclearError("No candle is named.", "At least one is lit.", "Give its code.")
    content = {"candles": {candle.pk: dict(own) for candle, own in candles.items()}, **alike}
    if seen_before(entry, what="light together", content=content, who=who, now=now):
        return list(Burn.objects.filter(candle__in=candles, out_at=None))
    if alike["kind"] == BurnKind.NOSE:
        one_for_the_nose([str(candle) for candle in candles], alike.get("room"))
    asked: list[Question] = []
    lit: list[Burn] = []
    for candle, own in candles.items():
        try:
            with transaction.atomic():
                lit.append(light(candle, sure=sure, who=who, now=now, **alike, **own))
        except QuestionsError as error:
            asked += error.questions
    if asked:
        raise QuestionsError(dict.fromkeys(asked))
    return lit
