"""Which of the planted truths a verdict found, and which the burn log shows."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from throwbench.demo.plan import DEMO_DAY
from throwbench.records import Burn, Combination
from throwbench.rules import judge
from throwbench.rules.result import CombinationLimits
from throwbench.verdict.burns_well import burns_well, oil_burns_well
from throwbench.verdict.result import CandidateVerdict, Verdict

SLATE, REBARBARA, FRAME, LOUD = (
    "Slate After Rain",
    "Rebarbara K",
    "Rhubarb Cold Frame",
    "Vårrabarbra 114",
)
LOUD_WORDS, EARLY_WORDS = "Loud in the cold, weak when lit", "Weak before its cure ended"
RHUBARBS = {REBARBARA, FRAME, LOUD}


def said_of(item: CandidateVerdict, words: str) -> bool:
    return any(reason.startswith(words) for reason in item.reasons)


def of_scent(verdict: Verdict) -> Mapping[str, bool]:
    """Each truth that the scores can show, and whether the verdict found it."""
    items = {item.candidate: item for item in verdict.candidates}
    ranked = [item for item in verdict.candidates if item.worth is not None]
    worth = {item.candidate: item.worth or 0.0 for item in ranked}
    best = max(ranked, key=lambda item: item.chance_best or 0.0).candidate if ranked else ""
    return {
        "Slate After Rain is in the pick": SLATE in verdict.pick,
        "Slate After Rain is the likeliest best": best == SLATE,
        "the pick is the four that truly are the best": set(verdict.pick) == TRUE_PICK,
        "Rebarbara K is the one rhubarb of the pick": RHUBARBS & {*verdict.pick} == {REBARBARA},
        "Rebarbara K stands above Rhubarb Cold Frame": (
            worth.get(REBARBARA, 0.0) > worth.get(FRAME, 0.0)
        ),
        "Rebarbara K is said to be weak before its cure": said_of(items[REBARBARA], EARLY_WORDS),
        "Vårrabarbra 114 is not in the pick": LOUD not in verdict.pick,
        "Vårrabarbra 114 is said to be loud in the cold, weak when lit": said_of(
            items[LOUD], LOUD_WORDS
        ),
        "Ferry Rope is said to split": items["Ferry Rope"].split is not None,
        "Goat Willow is not ranked": items["Goat Willow"].place == "not ranked",
    }


TRUE_PICK = {SLATE, REBARBARA, "Bakehouse at Five", "Kelp and Iron"}


def upper_end(verdict: Verdict) -> frozenset[str]:
    """Assessors who are noted to use the upper end of the scale."""
    return frozenset(note.assessor for note in verdict.noses if note.shift > 0)


def of_burns(
    burns: Sequence[Burn], combinations: Sequence[Combination], *, day: date = DEMO_DAY
) -> Mapping[str, bool]:
    """Each truth that the burn log can show, and whether limits and words found it."""
    judged = judge(burns, combinations=combinations, day=day)
    return {name: shown(judged) for name, shown in LIMITS.items()} | {
        "Goat Willow tunnels, and no other oil does": (
            tunnelling(burns, combinations, day=day) == {"Goat Willow"}
        )
    }


def tunnelling(
    burns: Sequence[Burn], combinations: Sequence[Combination], *, day: date = DEMO_DAY
) -> set[str]:
    """Oils of which every candle that was lit tunnels."""
    found = set()
    for oil in {card.oil for card in combinations}:
        logs = [(card, [b for b in burns if b.candle == card.candle]) for card in combinations]
        lit = [(card, log) for card, log in logs if card.oil == oil and log]
        wells = [(card, burns_well(log, combination=card, day=day)) for card, log in lit]
        if oil_burns_well(wells).tunnels:
            found.add(oil)
    return found


def _broken_by_soot(judged: Sequence[CombinationLimits]) -> bool:
    """The large wick of one oil, and nothing else."""
    return [item.label for item in judged if any(b.rule == "soot" for b in item.broken)] == [
        "flat cotton 6"
    ]


def _sticker_barred(judged: Sequence[CombinationLimits]) -> bool:
    return [item.oil for item in judged if item.barred_fixing == "sticker"] == ["Ferry Rope"]


def _left_on(judged: Sequence[CombinationLimits]) -> bool:
    """Marked, and the candle not broken by it."""
    marked = [
        (candle.candle, mark.burn)
        for item in judged
        for candle in item.candles
        for mark in candle.marks
        if mark.rule == "burn-length"
    ]
    return marked == [("D5Q", 3)]


LIMITS: Mapping[str, Callable[[Sequence[CombinationLimits]], bool]] = {
    "Kelp and Iron on wick 6 is broken by soot, and nothing else is": _broken_by_soot,
    "the sticker of Ferry Rope is barred, and no other fixing is": _sticker_barred,
    "the burn of 4 h 50 is marked, and no other is": _left_on,
}
