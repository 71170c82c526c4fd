"""Burns well: what the log says in words, beside the limits and never instead of them."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from throwbench.records import Burn, Combination
from throwbench.rules.decide import findings
from throwbench.rules.limit import Limit, figure_of, limits_on
from throwbench.rules.turn import Turn, in_turn
from throwbench.science.pool import NOT_KNOWN
from throwbench.science.words import plain, wick_words
from throwbench.verdict.full_pool import CHECK_LATE_H, BurnPool, pool_of

POOL_BURNS = (3, 4)
"""The melt pool is judged at these burns, unless the last third of the wax has been burned."""

LAST_SHARE = 1 / 3

NOTHING = "nothing noted"
TUNNELS = "tunnels"


@dataclass(frozen=True, slots=True)
class BurnsWell:
    """What was noted. `tunnels`: badly wicked, so scores of it do not rank the oil."""

    words: tuple[str, ...]
    tunnels: bool

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
    if not burns:
        return BurnsWell(words=(NOTHING,), tunnels=False)
    own_mm = combination.inside_mm if combination else None
    turns = in_turn(burns, combination)
    pools = [
        pool_of(turn.burn, inside_mm=own_mm or inside_mm)
        for turn in judged_for_pool(turns, combination)
    ]
    narrow = [pool.narrow for pool in pools if pool.narrow is not None]
    tunnels = bool(narrow) and all(narrow)
    words = (
        *((TUNNELS,) if tunnels else ()),
        *_pool_words(pools),
        *_mushrooms(turns),
        *_noted(turns, "frosting", lambda burn: burn.frosting),
        *_noted(turns, "wet spots", lambda burn: burn.wet_spots),
        *_deep(turns, limits_on(day, house=house)),
    )
    return BurnsWell(words=words or (NOTHING,), tunnels=tunnels)


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
    Every word once, with its wicks unless it holds for all that were tried, and always where it
    tunnels: "tunnels on wick 3". The oil as a whole tunnels only if every candle does.

    Checked against: definition.
    """
    told: dict[str, set[str]] = {}
    for made_of, well in candles:
        for word in well.words:
            told.setdefault(word, set()).add(_wick(made_of))
    told.pop(NOTHING, None)
    tried = len({_wick(made_of) for made_of, _ in candles})
    words = tuple(_on(word, wicks, tried=tried) for word, wicks in told.items())
    tunnels = bool(candles) and all(well.tunnels for _, well in candles)
    return BurnsWell(words=words or (NOTHING,), tunnels=tunnels)


def _on(word: str, wicks: set[str], *, tried: int) -> str:
    names = " and ".join(sorted(wick for wick in wicks if wick))
    everywhere = len(wicks) == tried and word != TUNNELS
    return word if everywhere or not names else f"{word} on {names}"


def _wick(made_of: Combination | None) -> str:
    return wick_words(made_of.wick if made_of else None)


def _pool_words(pools: Sequence[BurnPool]) -> tuple[str, ...]:
    """One phrase where the judged burns agree; else each with its burns."""
    told: dict[str, list[int]] = {}
    for pool in pools:
        if pool.to_full != NOT_KNOWN:
            told.setdefault(_full_words(pool), []).append(pool.burn)
    if not told:
        return ("full melt pool not yet judged",)
    if len(told) == 1:
        return tuple(told)
    return tuple(f"{words} in {_burns(numbers)}" for words, numbers in told.items())


def _full_words(pool: BurnPool) -> str:
    full = pool.to_full
    if full.by_h is None:
        return f"not full by {plain(_looked_until_h(pool))} h"
    if full.after_h is None:
        return f"full melt pool by {plain(full.by_h)} h"
    words = f"full melt pool after {plain(full.after_h)} to {plain(full.by_h)} h"
    return f"{words}, later than the time rule ({pool.rule_h} h)" if pool.late else words


def _looked_until_h(pool: BurnPool) -> float:
    """The hour of the time rule where it was looked at by then; else the last check."""
    after_h = pool.to_full.after_h or 0.0
    if pool.rule_h is not None and after_h >= pool.rule_h - CHECK_LATE_H:
        return pool.rule_h
    return after_h


def _burns(numbers: Sequence[int]) -> str:
    return f"burn{'s' if len(numbers) > 1 else ''} {', '.join(str(number) for number in numbers)}"


def _mushrooms(turns: Sequence[Turn]) -> tuple[str, ...]:
    seen = [
        [check.mushroom for check in turn.burn.checks if check.mushroom is not None]
        for turn in turns
    ]
    looked = [found for found in seen if found]
    grown = sum(any(word in ("clear", "large") for word in found) for found in looked)
    return (f"mushrooms in {grown} of {len(looked)} burns",) if grown else ()


def _noted(
    turns: Sequence[Turn], word: str, read: Callable[[Burn], bool | None]
) -> tuple[str, ...]:
    return (word,) if any(read(turn.burn) for turn in turns) else ()


def _deep(turns: Sequence[Turn], limits: tuple[Limit, ...]) -> tuple[str, ...]:
    """The depth of the melt pool is a hint about the wick, by the limits' own figure."""
    hint = next(limit for limit in limits if limit.rule.id == "pool-depth")
    found = findings(hint, turns, end_mm=figure_of("end-line", limits))
    return tuple(
        f"melt pool depth {item.value}: a hint that the wick is large"
        for item in found
        if item.outcome == "mark"
    )
