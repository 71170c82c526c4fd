"""Why the verdict is what it is: what counted, what was assumed, what stands out."""

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date

from throwbench.records import Combination, Score
from throwbench.records.attribute import LIT
from throwbench.rules import limits_on
from throwbench.rules.result import CombinationLimits
from throwbench.science.words import counted, plain
from throwbench.verdict.counted import CountedScores
from throwbench.verdict.result import AttributeResult
from throwbench.verdict.scent import Scent, raw
from throwbench.verdict.settings import Settings
from throwbench.verdict.words import listed

A_STEP = 1.0
EARLY_SNIFFS = 3
"""Sniffs before the end of the cure from which a rise is worth a word."""
LITTLE_AIR_MIN = 5.0
"""Clean air between two sniffs below which a score is mentioned: what a panel asks for unless the
maker says otherwise (common practice: at least 2 min, better 10)."""

SOON_LIT_MIN = 30.0
"""Minutes lit below which a hot score is mentioned: the melt pool that gives the scent is still
small (common practice: an hour or more)."""


def of_scores(found: CountedScores, scents: Mapping[str, Scent]) -> tuple[str, ...]:
    """What counted, what is only shown and why, and what the panel cannot tell."""
    noses = {score.assessor for score in found.counted}
    said = [
        f"{counted(len(found.counted), 'score')} of {counted(len(noses), 'assessor')} "
        f"{'counts' if len(found.counted) == 1 else 'count'}."
    ]
    said.extend(_only_shown(found))
    said.extend(_too_soon(found))
    if len(noses) == 1:
        said.append("One assessor: another may judge otherwise, and the intervals say so.")
    elif scents and not any(scent.own_taste for scent in scents.values()):
        said.append(
            "Each assessor met each oil about once, so their own taste cannot be told from chance."
        )
    return tuple(said)


def _only_shown(found: CountedScores) -> Iterator[str]:
    """How many scores do not count for each reason, and how many are on an attribute set aside."""
    why = found.why()
    if found.aside:
        kinds = listed([f"{count} {attribute}" for attribute, count in found.aside.items()])
        one = sum(found.aside.values()) == 1
        why.append(f"{kinds} score{'' if one else 's'}, which {'does' if one else 'do'} not rank")
    if why:
        yield f"Shown, not counted: {listed(why)}."


def _too_soon(found: CountedScores) -> Iterator[str]:
    """Scores that count although the nose, or the candle, was hardly ready."""
    air = [s.clean_air_min for s in found.counted if s.clean_air_min is not None]
    lit = [s.minutes_lit for s in found.counted if s.attribute in LIT and s.minutes_lit is not None]
    yield from _less(air, LITTLE_AIR_MIN, "in clean air (the least {least:g} min) and counted.")
    yield from _less(
        lit,
        SOON_LIT_MIN,
        "of burning (the least {least:g} min) and counted: hot throw comes with the melt pool.",
    )


def _less(minutes: Sequence[float], enough: float, words: str) -> Iterator[str]:
    few = [one for one in minutes if one < enough]
    if few:
        verb = "was" if len(few) == 1 else "were"
        yield (
            f"{counted(len(few), 'score')} {verb} given after less than {enough:g} min "
            f"{words.format(least=min(few))}"
        )


def of_candidate(
    name: str, results: Mapping[str, Mapping[str, AttributeResult]], found: CountedScores
) -> tuple[str, ...]:
    """What stands out about one candidate."""
    said = []
    hot, cold = (results.get(a, {}).get(name) for a in ("hot_throw", "cold_throw"))
    if hot is not None and cold is not None and hot.counted and cold.counted:
        gap = cold.expected - hot.expected
        if gap >= A_STEP:
            said.append(f"Loud in the cold, weak when lit: {gap:.1f} steps apart.")
        if -gap >= A_STEP:
            said.append(f"Modest in the cold, stronger when lit: {-gap:.1f} steps apart.")
    early = raw(found.curing, name, "hot_throw")
    if len(early) >= EARLY_SNIFFS and hot is not None and hot.counted:
        rise = hot.expected - sum(early) / len(early)
        if rise >= A_STEP:
            said.append(f"Weak before its cure ended; {rise:.1f} steps stronger after.")
    return tuple(said)


def of_dose(name: str, combinations: Collection[Combination]) -> tuple[str, ...]:
    """A load unlike that of most test candles stands apart."""
    dosed = [(made.oil, made.load_percent) for made in combinations]
    loads = [load for _, load in dosed if load is not None]
    mine = {load for oil, load in dosed if oil == name and load is not None}
    usual, often = Counter(loads).most_common(1)[0] if loads else (None, 0)
    if usual is None or 2 * often <= len(loads):
        return ()
    return tuple(
        f"Dosed at {plain(load)} % of wax, most others at {plain(usual)}: it stands apart."
        for load in sorted(mine - {usual})
    )


def of_limits(limits: Sequence[CombinationLimits]) -> tuple[str, ...]:
    """What a burn was marked for, and what is barred beside the combination."""
    candles = [candle for item in limits for candle in item.candles]
    marks = [f"Handling: {mark.sentence()}" for candle in candles for mark in candle.marks]
    fixings = {item.barred_fixing for item in limits if item.barred_fixing}
    vessels = {item.barred_vessel for item in limits if item.barred_vessel}
    return (
        *marks,
        *(f"Barred as a fixing: {words}." for words in sorted(fixings)),
        *(f"Barred as a vessel: {words}." for words in sorted(vessels)),
    )


def own_limits(house: Mapping[str, float], day: date) -> tuple[str, ...]:
    """Each limit that the maker set, beside the one it stands in for."""
    usual = {limit.rule.id: limit for limit in limits_on(day)}
    return tuple(
        f"Your own limit for {limit.rule.words}: {limit.sentence()}; "
        f"without it {usual[limit.rule.id].sentence() if limit.rule.id in usual else 'none'}."
        for limit in limits_on(day, house=house)
        if limit.set_by_maker
    )


def assumed(
    scores: Sequence[Score],
    combinations: Mapping[str, Combination],
    settings: Settings,
    scale: tuple[int, int],
) -> tuple[str, ...]:
    """What nobody said, and what was taken instead."""
    said = [f"Scale {scale[0]} to {scale[1]}, {'as given' if settings.scale else 'as scored'}."]
    if not settings.bands:
        said.append("No band for hot throw was given: stronger is not taken as better.")
    if not combinations:
        said.append("No candles file was given (--candles): each test candle stands alone.")
    known = settings.cure_days is not None or any(
        made.card_cure_days is not None for made in combinations.values()
    )
    if not known:
        said.append("No cure was given (--cure-days): every score counts, whatever its cure.")
    if len({score.room for score in scores}) > 1:
        said.append("Several rooms: the figures are for the average of them.")
    return tuple(said)
