"""Burns well: what the log says in words, beside the limits and never instead of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from throwbench.records import Burn, Check, Combination
from throwbench.rules.decide import findings, looks
from throwbench.rules.limit import figure_of, limits_on
from throwbench.rules.turn import Turn, in_turn
from throwbench.science.words import wick_words
from throwbench.verdict.full_pool import pool_of
from throwbench.verdict.noted import TUNNELS, Noted, together

POOL_BURNS = (3, 4)
"""The melt pool is judged at these burns, unless the last third of the wax has been burned."""

LAST_SHARE = 1 / 3

NOTHING = "nothing noted"
GROWN = ("clear", "large")


@dataclass(frozen=True, slots=True)
class BurnsWell:
    """What was noted. `tunnels`: badly wicked, so scores of it do not rank the oil.

    `noted` are the facts behind the words, of one candle or of all those of an oil.
    """

    words: tuple[str, ...]
    tunnels: bool
    noted: Noted

    def sentence(self) -> str:
        return "; ".join(self.words)


def burns_well(
    burns: Sequence[Burn],
    *,
    combination: Combination | None = None,
    inside_mm: float | None = None,
    day: date,
    house: Mapping[str, float] | None = None,
) -> BurnsWell:
    """How one candle burns, in words.

    Parameters
    ----------
    burns : of one candle
    combination : what it is made of, where known
    inside_mm : inside diameter [mm]; the combination's own stands above it
    day : of the judgement
    house : the maker's own figures by rule id; a depth of the melt pool set there is a limit, and
        no longer a hint that stands here

    Returns
    -------
    "nothing noted" where there is nothing to say. The melt pool is judged at burns 3 and 4;
    burns lit with a third of the wax or less overrule them. It tunnels if the pool was narrower
    than 85 % of the inside diameter by the time rule in every judged burn that tells.

    Checked against: definition.
    """
    own_mm = combination.inside_mm if combination else None
    turns = in_turn(burns, combination)
    pools = tuple(
        pool_of(turn.burn, inside_mm=own_mm or inside_mm)
        for turn in judged_for_pool(turns, combination)
    )
    narrow = [pool.narrow for pool in pools if pool.narrow is not None]
    mushrooms = _mushrooms(turns)
    noted = Noted(
        burns=len(turns),
        tunnels=bool(narrow) and all(narrow),
        pools=pools,
        mushrooms=sum(mushrooms),
        looked=len(mushrooms),
        frosting=any(burn.frosting for burn in burns),
        wet_spots=any(burn.wet_spots for burn in burns),
        depths_mm=_deep(turns, day=day, house=house),
    )
    return BurnsWell(words=noted.words() or (NOTHING,), tunnels=noted.tunnels, noted=noted)


def judged_for_pool(turns: Sequence[Turn], combination: Combination | None) -> list[Turn]:
    """Burns 3 and 4; where there are burns in the last third of the wax, those instead."""
    new_mm = combination.wax_mm if combination else None
    if new_mm is not None:
        late = [
            turn
            for turn in turns
            if turn.wax_when_lit and turn.wax_when_lit.mm <= new_mm * LAST_SHARE
        ]
        if late:
            return late
    return [turn for turn in turns if turn.burn.burn in POOL_BURNS]


def oil_burns_well(candles: Sequence[tuple[Combination | None, BurnsWell]]) -> BurnsWell:
    """The candles of one oil together, per wick.

    Parameters
    ----------
    candles : each with what it is made of, where known

    Returns
    -------
    The candles of a wick speak as one. Every word once, with its wicks unless it holds for all
    that were tried, and always where it tunnels: "tunnels on wick 3". The oil as a whole tunnels
    only if every candle does.

    Checked against: definition.
    """
    by_wick: dict[str, list[Noted]] = {}
    for made_of, well in candles:
        by_wick.setdefault(wick_words(made_of.wick if made_of else None), []).append(well.noted)
    told: dict[str, set[str]] = {}
    for wick, found in by_wick.items():
        for word in together(found).words():
            told.setdefault(word, set()).add(wick)
    words = tuple(_on(word, wicks, tried=len(by_wick)) for word, wicks in told.items())
    return BurnsWell(
        words=words or (NOTHING,),
        tunnels=bool(candles) and all(well.tunnels for _, well in candles),
        noted=together([well.noted for _, well in candles]),
    )


def _on(word: str, wicks: set[str], *, tried: int) -> str:
    names = " and ".join(sorted(wick for wick in wicks if wick))
    everywhere = len(wicks) == tried and word != TUNNELS
    return word if everywhere or not names else f"{word} on {names}"


def _mushrooms(turns: Sequence[Turn]) -> list[bool]:
    """Of each burn in which anybody looked: whether a mushroom grew that is worth a word."""

    def seen(check: Check) -> bool:
        return check.mushroom is not None

    looked = [list(filter(seen, turn.burn.checks)) for turn in turns]
    return [any(check.mushroom in GROWN for check in checks) for checks in looked if checks]


def _deep(
    turns: Sequence[Turn], *, day: date, house: Mapping[str, float] | None
) -> tuple[float, ...]:
    """Depths of the melt pool where their mean is a hint about the wick, by the limits' figure."""
    limits = limits_on(day, house=house)
    end_mm = figure_of("end-line", limits)
    hint = next(limit for limit in limits if limit.rule.id == "pool-depth")
    if not any(item.outcome == "mark" for item in findings(hint, turns, end_mm=end_mm)):
        return ()
    found = (look for turn in turns if turn.judged for look in looks(hint, turn, end_mm=end_mm))
    return tuple(look.number for look in found if look.number is not None)
