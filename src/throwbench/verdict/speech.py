"""The sentences of a verdict: the pick, its risk, what binds it and what to do next."""

from collections.abc import Sequence

from throwbench.science.words import FIRE_LINE
from throwbench.verdict.links import Groups, to_link
from throwbench.verdict.result import CandidateVerdict, NotRanked
from throwbench.verdict.settings import Settings
from throwbench.verdict.sniffs import ALONE, ENOUGH, again, equal, is_open, others
from throwbench.verdict.thin import other_evening
from throwbench.verdict.words import first_of, in_100, listed, number, ordinal, steps

NAMED = 2
"""So many rows that were not used are named in the sentence itself."""
_LARGER_WICK = "Pour one test candle on a larger wick and sniff that."
_TO_RANK: dict[NotRanked, str] = {
    "its scores are from a candle that tunnels": (
        f"tunnels, so its scores do not rank it. {_LARGER_WICK}"
    ),
    "its scores are from a candle that broke a limit": (
        "its scores are from a candle that broke a limit, so they do not rank it. "
        "Pour one more test candle without that fault and sniff it."
    ),
    "it tunnels and has no score that counts": (
        f"tunnels, and no score of liking or hot throw counts. {_LARGER_WICK}"
    ),
    "no score counts": (
        "no score of liking or hot throw counts yet. Sniff it in a nose burn after its cure."
    ),
}


def headline(
    pick: Sequence[str],
    *,
    asked: int,
    ranked: int,
    clear_winner: str | None,
    best: float | None,
    level: Sequence[str] = (),
    rests: str = "",
) -> str:
    """The pick in one sentence, out of so many that were ranked.

    level : nobody is ahead of these. rests : 'two noses, one sniff each', where it is little.
    """
    on = f", from {rests}" if rests else ""
    if not pick:
        return "No pick: nothing that may join has a score of liking or hot throw that counts."
    if ranked == 1:
        return f"The pick: {pick[0]}. It stands alone: nothing to compare it with."
    if asked == 1 and best is not None:
        if clear_winner is not None:
            return f"Clear winner: {clear_winner}, the best {in_100(best)}{on}."
        if level:
            return f"No clear winner yet: {first_of(level)} are level, nobody is ahead{on}."
        return f"No clear winner yet: {pick[0]} is ahead, the best {in_100(best)}{on}."
    short = f" Only {number(len(pick))} of {number(asked)} can join." if len(pick) < asked else ""
    return f"The pick: {listed(pick)}{on}.{short}"


def risk(candidates: Sequence[CandidateVerdict], *, loss: float | None, settings: Settings) -> str:
    """How sure the pick is, and what being wrong costs."""
    chosen = [item for item in candidates if item.place == "in the pick"]
    if loss is None or not chosen:
        return "There is nothing to choose by yet."
    if alone(candidates):
        return "Whether it is good enough, its own scores tell."
    if settings.choose == 1:
        return f"On average it loses {steps(loss)} of worth against the best one."
    price = (
        f"on average the pick loses {steps(loss)} of worth against the ideal {number(len(chosen))}"
    )
    waiting = [item for item in chosen if is_open(item)]
    if not waiting:
        return f"{_belong(chosen)}; {price}."
    if len(waiting) == len(chosen):
        places = "All its places are open"
    elif len(waiting) == 1:
        places = f"Only the {ordinal(len(chosen))} place is open"
    else:
        places = f"The last {number(len(waiting))} places are open"
    cheap = all(item.equally_good for item in waiting)
    little = ", and being wrong there costs little" if cheap else ""
    return f"{places}{little}: {price}."


def alone(candidates: Sequence[CandidateVerdict]) -> bool:
    """Whether one has nothing to be compared with: then its chances say nothing."""
    return sum(item.chance_to_belong is not None for item in candidates) == 1


def _belong(chosen: Sequence[CandidateVerdict]) -> str:
    lowest = min(item.chance_to_belong or 0.0 for item in chosen)
    if len(chosen) == 1:
        return f"It belongs, {in_100(lowest)}"
    words = in_100(lowest)
    return f"Each of them belongs, {words if words.startswith('over') else f'at least {words}'}"


def holds(candidates: Sequence[CandidateVerdict]) -> tuple[str, ...]:
    """Broken limits of every oil, then what a pick still has to show before it is sold."""
    said = [
        limits.sentence()
        for item in candidates
        for limits in item.limits
        if limits.state == "broken"
    ]
    for item in candidates:
        if item.place == "in the pick" and not _some(item, "none broken"):
            missing = _missing(item) or "A burn log to the end line is missing."
            said.append(f"{item.candidate}: sell none before its limits are known. {missing}")
    return tuple(said)


def not_used(sentences: Sequence[str]) -> tuple[str, ...]:
    """Rows and cells that were not used change the answer, so the answer names them."""
    more = len(sentences) - NAMED
    tail = (f"Not used: {more} more, listed below.",) if more > 0 else ()
    return (*(f"Not used: {sentence}" for sentence in sentences[:NAMED]), *tail)


def _some(item: CandidateVerdict, state: str) -> bool:
    return any(limits.state == state for limits in item.limits)


def _vessel_barred(item: CandidateVerdict) -> bool:
    return any(limits.barred_vessel for limits in item.limits)


def _missing(item: CandidateVerdict) -> str | None:
    waiting = (limits for limits in item.limits if limits.state == "not yet known")
    return next((limits.missing for limits in waiting if limits.missing), None)


BEFORE_NEXT = (
    f"Never leave melting wax or a lit candle. {FIRE_LINE} "
    "A nose that gets headaches or asthma from scent sits out."
)
"""Stands with the next steps, which send the maker to pour, burn and sniff."""


def next_steps(
    candidates: Sequence[CandidateVerdict],
    *,
    clear_winner: str | None,
    unlinked: Groups = (),
    rests: str = "",
) -> tuple[str, ...]:
    """What to do next, the most binding first.

    unlinked : groups that no nose links. rests : what the verdict rests on, where it is little.
    """
    said = [] if alone(candidates) else [*other_evening(rests)]
    for item in candidates:
        if item.place == "in the pick" and not _some(item, "none broken"):
            said.append(_missing(item) or f"Burn {item.candidate} to the end line and log it.")
        if item.place == "barred":
            other = "in another vessel" if _vessel_barred(item) else "on another wick"
            said.append(f"{item.candidate}: pour one test candle {other}, or drop it.")
        if item.not_ranked_because is not None:
            said.append(f"{item.candidate}: {_TO_RANK[item.not_ranked_because]}")
    if unlinked:
        said.append(to_link(unlinked))
    said.extend(again(candidates, clear_winner))
    said.extend(others(candidates))
    said.extend(() if unlinked else equal(candidates))
    said.extend(_to_compare(candidates))
    return tuple(said) or (ENOUGH,)


def _to_compare(candidates: Sequence[CandidateVerdict]) -> list[str]:
    if alone(candidates):
        return [ALONE]
    if not any(item.place in ("in the pick", "not ranked", "barred") for item in candidates):
        return ["Score a candidate that may join: a reference candle is never picked."]
    return []
