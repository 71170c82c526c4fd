"""What a combination has to show before its oil joins the line."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from throwbench.rules import judge
from throwbench.rules.result import CombinationLimits
from throwbench.science.errors import UnclearError
from throwbench.science.words import wick_words
from throwbench.verdict.words import listed
from throwbench.workshop.house.selectors import house_limits
from throwbench.workshop.line.models import Decision, Outcome
from throwbench.workshop.line.selectors import last_decisions
from throwbench.workshop.line.unchanged import until_something_is_written
from throwbench.workshop.trials.models import Candidate, Combination, Trial
from throwbench.workshop.trials.pitcher import DEPARTS_PERCENT
from throwbench.workshop.trials.selectors import burns_of, combinations_of

NOT_TRIED = "Burn one test candle of it to the end line, and log it."


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One combination as planned, with what the limits say of its candles so far."""

    combination: Combination
    limits: CombinationLimits | None
    barred: str = ""
    """Its fixing or vessel is barred by another candle of the trial; empty where it is not."""
    bars_fixing: bool = False
    """It is the fixing that is barred."""

    @property
    def broken(self) -> bool:
        return self.limits is not None and self.limits.state == "broken"

    @property
    def rank(self) -> int:
        """None broken first, then what was tried at all, then what was only planned."""
        if self.limits is None:
            return 2
        return 0 if self.limits.state == "none broken" else 1

    @property
    def label(self) -> str:
        """The combination as it was tried."""
        fixing = self.combination.fixing
        return self._label(f", {fixing.kind}" if fixing else "")

    @property
    def joins_on(self) -> str:
        """What joins: never on a fixing that nobody may use."""
        return self._label(", on another fixing, not yet tried") if self.bars_fixing else self.label

    def _label(self, held: str) -> str:
        made = self.combination
        wick = wick_words(str(made.wick))
        return f"{wick}{held}, {made.load_percent:g} % of wax{self._planned}, {made.vessel}"

    @property
    def _planned(self) -> str:
        """What the trial plans, beside a load that departs from it."""
        plans = self.combination.candidate.trial.load_percent
        if plans is None or abs(self.combination.load_percent - plans) <= DEPARTS_PERCENT:
            return ""
        return f" (the trial plans {plans:g} %)"

    @property
    def hold(self) -> str:
        """What stands after 'sell none before'; empty where every limit was tried."""
        check = NOT_TRIED if self.limits is None else self.limits.missing
        known = self.limits is not None and self.limits.state == "none broken"
        told = "" if known else f"its limits are known. {check or NOT_TRIED}"
        if not self.barred:
            return told
        return f"{told or 'this is settled.'} {self.barred}"


def tried(trial: Trial, *, day: date) -> dict[int, tuple[Tried, ...]]:
    """The combinations of each candidate (by its key), judged from the notes as they are now."""
    return until_something_is_written(("tried", trial.pk, day), lambda: _tried(trial, day))


def _tried(trial: Trial, day: date) -> dict[int, tuple[Tried, ...]]:
    judged = judge(
        burns_of(trial), combinations=combinations_of(trial), day=day, house=house_limits()
    )
    by_candle = {candle.candle: limits for limits in judged for candle in limits.candles}
    planned = (
        Combination.objects.filter(candidate__trial=trial)
        .select_related("candidate__oil", "candidate__trial", "wax", "wick", "vessel", "fixing")
        .prefetch_related("candles")
        .order_by("pk")
    )
    found: dict[int, tuple[Tried, ...]] = {}
    for made in planned:
        codes = [candle.code for candle in made.candles.all()]
        limits = next((by_candle[code] for code in codes if code in by_candle), None)
        barred, bars_fixing = _barred(made, judged)
        one = Tried(combination=made, limits=limits, barred=barred, bars_fixing=bars_fixing)
        found[made.candidate_id] = (*found.get(made.candidate_id, ()), one)
    return found


def _barred(made: Combination, judged: Sequence[CombinationLimits]) -> tuple[str, bool]:
    """A fixing that let go or a vessel that was damaged stands against all made with it.

    Returns the words, and whether it is the fixing.
    """
    for limits in judged:
        for candle in limits.candles:
            for found in candle.broken:
                card = candle.combination
                if card is None:
                    continue
                if found.bars == "fixing" and made.fixing and card.fixing == made.fixing.kind:
                    fixing = made.fixing.kind.capitalize()
                    return (
                        f"{fixing} is barred as a fixing ({found.where}): "
                        "use another, and burn one candle of it."
                    ), True
                if found.bars == "combination and vessel" and card.vessel == made.vessel.name:
                    return f"Its vessel is barred ({found.where}): find out why.", False
    return "", False


def settle(
    candidate: Candidate, its: Sequence[Tried], *, named: Combination | None
) -> tuple[Combination | None, str]:
    """The combination that joins, and what stands after 'sell none before'.

    Raises
    ------
    UnclearError
        A limit is broken in it or in all; several are open and none was named; or another oil of
        the theme has its place.
    """
    _one_of_a_theme(candidate)
    if not its:
        return None, f"its limits are known. {NOT_TRIED}"
    one = _named(candidate, its, named) if named else _only_open(candidate, its)
    if one is None or one.broken:
        raise UnclearError(
            _broke(candidate, its if one is None else [one]),
            "A combination with a broken limit never joins the line.",
            "Pour one test candle on another wick, or drop the oil.",
        )
    return one.combination, one.hold


def _named(candidate: Candidate, its: Sequence[Tried], named: Combination) -> Tried:
    found = next((one for one in its if one.combination.pk == named.pk), None)
    if found is None:
        raise UnclearError(
            f"{named} is not a combination of {candidate} in this trial.",
            "An oil joins with a combination that was planned for it.",
            "Name one of its own.",
        )
    return found


def _only_open(candidate: Candidate, its: Sequence[Tried]) -> Tried | None:
    still_open = [one for one in its if not one.broken]
    if len(still_open) > 1:
        names = listed([one.label for one in still_open])
        raise UnclearError(
            f"{candidate} has {len(still_open)} combinations that are open: {names}.",
            "One of them joins the line.",
            "Say which.",
        )
    return still_open[0] if still_open else None


def _broke(candidate: Candidate, its: Sequence[Tried]) -> str:
    told = [f"on {x.combination.wick}: {x.limits.evidence_words()}" for x in its if x.limits]
    return f"{candidate} broke a limit {'; '.join(told)}."


def _one_of_a_theme(candidate: Candidate) -> None:
    if not candidate.group:
        return
    decisions = Decision.objects.filter(
        candidate__trial=candidate.trial_id, candidate__group=candidate.group
    ).select_related("candidate__oil")
    for decision in last_decisions(decisions):
        other = decision.candidate
        if other.pk != candidate.pk and decision.outcome == Outcome.JOINS:
            raise UnclearError(
                f"{other} is the one {candidate.group} of the line already.",
                f"At most one {candidate.group} joins.",
                f"Drop {other} first, or leave {candidate} out.",
            )
