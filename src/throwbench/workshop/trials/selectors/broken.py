"""Candles that are not lit again, and lit ones that are to be put out at once: by the limits."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime

from throwbench.rules.decide import looks
from throwbench.rules.judge import judge_candle
from throwbench.rules.limit import Limit, figure_of, limits_on
from throwbench.rules.look import READERS, Look
from throwbench.rules.result import CandleLimits
from throwbench.rules.turn import Turn, by_candle, in_turn
from throwbench.science.words import plain
from throwbench.workshop.house.selectors import house_limits
from throwbench.workshop.trials.models import Burn, TestCandle
from throwbench.workshop.trials.selectors.burns import as_records
from throwbench.workshop.trials.selectors.made_of import MADE_OF, combination_of


def judged(
    candles: Sequence[TestCandle], day: date, *, until: datetime | None = None
) -> Mapping[str, CandleLimits]:
    """What the limits say of each candle that was lit, by its code; this burn too, as far as it is.

    The candles come with `MADE_OF`. `until` leaves out what was lit later.
    """
    burns = Burn.objects.filter(candle__in=candles)
    if until is not None:
        burns = burns.filter(lit_at__lte=until)
    logs = by_candle(as_records(burns, lit=True))
    limits = limits_on(day, house=house_limits())
    made_of = {candle.code: combination_of(candle) for candle in candles if candle.code in logs}
    return {
        code: judge_candle(code, log, combination=made_of[code], limits=limits)
        for code, log in logs.items()
    }


def why_not_again(found: CandleLimits | None) -> str:
    """'broke a limit: soot', 'burned to its end', or nothing: it may be lit again."""
    if found is None:
        return ""
    if found.broken:
        return f"broke a limit: {broke(found)}"
    return "burned to its end" if found.to_the_end else ""


def broke(found: CandleLimits) -> str:
    """The limits that it broke, each once: 'flame height, soot'."""
    return ", ".join(dict.fromkeys(finding.words for finding in found.broken))


def to_be_put_out(burns: Iterable[Burn], day: date) -> Mapping[int, tuple[str, ...]]:
    """By burn that is lit, what a person saw over a limit; nothing of those that burn well."""
    lit = {burn.candle_id: burn.pk for burn in burns}
    candles = TestCandle.objects.filter(pk__in=lit).select_related(*MADE_OF)
    logs = by_candle(as_records(Burn.objects.filter(candle__in=lit), lit=True))
    limits = limits_on(day, house=house_limits())
    found = {
        lit[candle.pk]: tuple(_over(in_turn(logs[candle.code], combination_of(candle)), limits))
        for candle in candles
    }
    return {burn: words for burn, words in found.items() if words}


def put_out_words(code: str, over: Iterable[str]) -> str:
    """'Put K2G out now: flame 80 mm is over 75 mm (house limit). Do not light it again.'"""
    return f"Put {code} out now: {'; '.join(over)}. Do not light it again."


def over_limit(number: float, limit: Limit) -> str:
    """'80 mm is over 75 mm (house limit)'."""
    return f"{plain(number)} {limit.rule.unit} is over {_figure(limit)}"


def _over(turns: Sequence[Turn], limits: tuple[Limit, ...]) -> Iterator[str]:
    """Each limit that a person can see broken, once; a limit of several burns in this one only."""
    end_mm = figure_of("end-line", limits)
    for limit in limits:
        if limit.rule.known != "by eye" or not limit.breaks_candles:
            continue
        if limit.rule.id not in READERS:
            continue
        counted = turns if limit.rule.decides == "any burn" else turns[-1:]
        seen = [look for turn in counted for look in looks(limit, turn, end_mm=end_mm)]
        yield from [_words(limit, look) for look in seen if look.over][:1]


def _words(limit: Limit, look: Look) -> str:
    name = limit.rule.words
    if look.number is not None:
        return f"{name.removesuffix(' height')} {over_limit(look.number, limit)}"
    sight = limit.rule.sight.format(figure=_figure(limit))
    return sight or f"{name}: {look.value}"


def _figure(limit: Limit) -> str:
    return "" if limit.figure is None else f"{plain(limit.figure)} {limit.rule.unit} (house limit)"
