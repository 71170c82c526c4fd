"""The limits: from burns to what is broken, what is not, and what is not yet known."""

from collections.abc import Mapping, Sequence
from datetime import date

from throwbench.records import Burn, Combination
from throwbench.rules.combine import combine
from throwbench.rules.decide import findings, how_known, looks, undecided
from throwbench.rules.limit import Limit, figure_of, limits_on
from throwbench.rules.look import READERS, Look
from throwbench.rules.missing import Unseen, missing_for, not_in_the_log
from throwbench.rules.result import CandleLimits, CombinationLimits, Evidence, State
from throwbench.rules.turn import Turn, by_candle, in_turn, last_wax


def judge(
    burns: Sequence[Burn],
    *,
    combinations: Sequence[Combination] = (),
    day: date,
    house: Mapping[str, float] | None = None,
    unread: Mapping[str, str] | None = None,
) -> tuple[CombinationLimits, ...]:
    """What the limits say of every combination, whatever the order of the burns.

    Parameters
    ----------
    burns : of all candles
    combinations : what the candles are made of. A candle without one stands alone, with oil "";
        a candle that was never burned is not yet known
    day : of the judgement; it decides which figures are in force
    house : the maker's own figures by rule id
    unread : by candle, what in its log could not be read and how to put it right. It may hide a
        broken limit, so such a candle is never "none broken", nor its combination

    Returns
    -------
    One per oil x load x wax x wick x vessel, by oil and label.

    Raises
    ------
    UnclearError
        A house limit that is not known or not a number above zero.

    Notes
    -----
    One broken candle rule breaks the candle and bars its combination; a moved wick bars only the
    fixing; damage bars the vessel too; handling rules only mark the burn; a hint stands with how
    it burns. None broken: every rule that a person can see was measured or seen in each burn, and
    the candle burned to the end line. Else it is not yet known.

    Checked against: definition.
    """
    limits = limits_on(day, house=house)
    made_of = {item.candle: item for item in combinations}
    never_burned: dict[str, list[Burn]] = {item.candle: [] for item in combinations}
    logs = never_burned | {code: [] for code in unread or {}} | by_candle(burns)
    return combine(
        [
            judge_candle(
                code,
                found,
                combination=made_of.get(code),
                limits=limits,
                unread=(unread or {}).get(code),
            )
            for code, found in sorted(logs.items())
        ],
        limits=limits,
    )


def judge_candle(
    code: str,
    burns: Sequence[Burn],
    *,
    combination: Combination | None = None,
    limits: tuple[Limit, ...],
    unread: str | None = None,
) -> CandleLimits:
    """What the limits say of one test candle."""
    end_mm = figure_of("end-line", limits)
    turns = in_turn(burns, combination)
    read = [limit for limit in limits if limit.rule.id in READERS]
    found = [item for limit in read for item in findings(limit, turns, end_mm=end_mm)]
    handling = {limit.rule.id for limit in read if limit.rule.kind == "handling rule"}
    broken = tuple(item for item in found if item.outcome == "broken")
    wax = last_wax(turns)
    to_the_end = wax is not None and wax.mm <= end_mm
    unseen = _unseen(read, turns, end_mm)
    missing = None if broken else unread or missing_for(code, turns, unseen, end_mm)
    return CandleLimits(
        candle=code,
        combination=combination,
        state=_state(broken=bool(broken), missing=missing is not None),
        broken=broken,
        marks=tuple(item for item in found if item.outcome == "mark" and item.rule in handling),
        evidence=_evidence(read, turns, end_mm),
        burns=len(turns),
        to_the_end=to_the_end,
        missing=missing,
        unread=unread is not None,
        wax_left=wax.sentence() if wax else "",
    )


def _state(*, broken: bool, missing: bool) -> State:
    if broken:
        return "broken"
    return "not yet known" if missing else "none broken"


def _evidence(limits: Sequence[Limit], turns: Sequence[Turn], end_mm: float) -> Evidence:
    """One count per by-eye rule and burn; of a burn that is not in the log nothing was seen."""
    by_eye = [limit for limit in limits if limit.rule.known == "by eye"]
    found = [how_known(looks(limit, turn, end_mm=end_mm)) for limit in by_eye for turn in turns]
    return Evidence(
        measured=found.count("measured"),
        seen=found.count("seen"),
        not_seen=found.count("not seen") + len(by_eye) * len(not_in_the_log(turns)),
    )


def _unseen(limits: Sequence[Limit], turns: Sequence[Turn], end_mm: float) -> list[Unseen]:
    """By-eye rules not looked at in a burn; rules the maker set, measured in no judged burn."""
    by_eye = [
        Unseen(look=limit.rule.look, burn=turn.burn.burn, noted=_noted(limit, found))
        for turn in turns
        for limit in limits
        if limit.rule.known == "by eye"
        for found in [looks(limit, turn, end_mm=end_mm)]
        if how_known(found) == "not seen"
    ]
    measured = [
        Unseen(look=limit.rule.look, burn=None)
        for limit in limits
        if limit.rule.known == "measured"
        and limit.asked_for
        and not findings(limit, turns, end_mm=end_mm)
    ]
    return by_eye + measured


def _noted(limit: Limit, found: Sequence[Look]) -> str:
    """'flare-up of up to 10 s, and the limit is at most 5 s (...)'; empty where nobody looked."""
    seen = undecided(found)
    if seen is None:
        return ""
    return f"{limit.rule.words} of {seen.value}, and the limit is {limit.sentence()}"
