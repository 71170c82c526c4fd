"""Pour day as its pages show it: one card per pitcher, and at each what comes next."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from itertools import pairwise

from django.db.models import Prefetch, QuerySet
from django.utils.timezone import localdate

from throwbench.science.batch import Recorded, Weighed
from throwbench.science.load import Load
from throwbench.science.units import grams_of
from throwbench.science.words import counted, plain, to_the_mg
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models import Candidate, Pour, TestCandle, Trial, Weighing
from throwbench.workshop.trials.models.pour import Basis
from throwbench.workshop.trials.pitcher import (
    AtBench,
    Scale,
    departed_load,
    in_it,
    load_of,
    oil_for,
    slips_in,
)
from throwbench.workshop.trials.scale import Steps, last_steps, shown_g
from throwbench.workshop.trials.selectors.pitcher_names import PitcherNames
from throwbench.workshop.trials.selectors.sums import pitcher_of

WEIGH_WAX, WEIGH_OIL, POUR, POURED = "wax", "oil", "pour", "poured"


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """An oil whose test candles have no pitcher yet."""

    candidate: int
    oil: str
    codes: str
    load_percent: float
    wax_g: float | None
    oil_g: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One weighing, and what it means beside the one before."""

    mg: int
    words: str
    at: datetime
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Pitcher:
    """One pitcher: what was weighed and read, and the next step."""

    pour: Pour
    letter: str
    oil: str
    step: str
    load: Load
    wax: Weighed | None
    really: Recorded | None
    weighings: tuple[Shown, ...]
    candles: tuple[TestCandle, ...]
    flash_c: float | None
    planned_percent: float | None
    steps: Steps
    """Of the scales that were noted last."""
    is_hidden: bool
    """Poured, in a sealed trial: what was weighed could tell the oil."""

    @property
    def departs(self) -> str:
        """Said where the load as weighed is another one than the trial's; else empty."""
        if self.is_hidden or self.really is None or self.planned_percent is None:
            return ""
        load = departed_load(self.really.mix.load_percent, self.planned_percent)
        if load is None:
            return ""
        of_total = ""
        if self.pour.basis == Basis.TOTAL:
            of_total = f" It was dosed at {plain(self.pour.load_percent)} % of total."
        return (
            f"{self.named}: {plain(load)} % of wax was weighed; the plan is "
            f"{plain(self.planned_percent)} % of wax.{of_total}"
        )

    @property
    def target_g(self) -> float | None:
        """What the scale shows when it is in: the wax planned, then the oil for the wax in it."""
        if self.step == WEIGH_WAX:
            wanted_g = grams_of(self.pour.wax_mg)
        else:
            wanted_g = None if self.wax is None else self.wax.mix.oil_g
        return None if wanted_g is None else shown_g(wanted_g, step_mg=self.steps.of(self.step))

    @property
    def named(self) -> str:
        """Pitcher H2 (W8R), with the candles once they are poured."""
        return f"Pitcher {self.letter} ({self.codes})" if self.codes else f"Pitcher {self.letter}"

    @property
    def poured_on(self) -> date | None:
        """The day of the pour, which may be earlier than the moment it was noted."""
        if self.pour.poured_at is None:
            return None
        days = [candle.poured_on for candle in self.candles if candle.poured_on is not None]
        return days[0] if days else localdate(self.pour.poured_at)

    @property
    def noted_at(self) -> datetime | None:
        """The time of the pour; None where it was noted on a later day."""
        at = self.pour.poured_at
        return at if at is not None and localdate(at) == self.poured_on else None

    @property
    def codes(self) -> str:
        return ", ".join(candle.code for candle in self.candles)

    @property
    def took_back(self) -> str:
        """The sentence on wax that went in and came out again; empty where none did, or hidden."""
        if self.wax is None or self.is_hidden:
            return ""
        return took_back(self.named, self.wax.weighings_g)


def waiting(trial: Trial) -> tuple[Waiting, ...]:
    """Oils with test candles that are in no pitcher, in the order of the plan."""
    begun = set(
        Pour.objects.filter(candidate__trial=trial, poured_at=None).values_list(
            "candidate_id", flat=True
        )
    )
    grouped = by_pitcher(_unpoured(trial))
    steps = last_steps()
    return tuple(
        _waiting(trial, candles, steps)
        for candles in grouped
        if candles[0].combination.candidate_id not in begun
    )


def by_pitcher(candles: Iterable[TestCandle]) -> list[list[TestCandle]]:
    """Candles of one oil, wax and load are poured from one pitcher."""
    grouped: dict[tuple[int, int, float], list[TestCandle]] = {}
    for candle in candles:
        made = candle.combination
        key = (made.candidate_id, made.wax_id, made.load_percent)
        grouped.setdefault(key, []).append(candle)
    return list(grouped.values())


def pitchers(trial: Trial) -> tuple[Pitcher, ...]:
    """Every pitcher of the trial: those at work first, then those that are poured."""
    found = Pour.objects.filter(candidate__trial=trial).select_related(
        "candidate__oil", "wax", "wax_lot", "oil_lot", "poured_by"
    )
    found = found.prefetch_related(
        Prefetch("weighings", Weighing.objects.select_related("who")), "candles"
    )
    names = PitcherNames(trial)
    named = [(pour, names.next_of(pour.candidate_id)) for pour in found]
    if trial.is_sealed:  # the order in which they were begun follows the plan
        named.sort(key=lambda one: min((each.code for each in one[0].candles.all()), default=""))
    bench = AtBench(
        steps=last_steps(),
        slips=slips_in(each for pour, _ in named for each in pour.weighings.all()),
    )
    shown = [
        _pitcher(trial, pour, name, nth, bench) for nth, (pour, name) in enumerate(named, start=1)
    ]
    return tuple(sorted(shown, key=lambda one: one.step == POURED))


def behind_the_seal(shown: Iterable[Pitcher]) -> tuple[str, ...]:
    """Codes of what is poured and sealed, by code: side by side, two of one pitcher would tell
    that they are of one oil."""
    return tuple(sorted(each.code for one in shown if one.is_hidden for each in one.candles))


def pour_said(at_work: Sequence[Pitcher], still: Sequence[Waiting]) -> str:
    """The sentence above pour day."""
    now = [one for one in at_work if one.step != POURED]
    if now:
        letters = ", ".join(one.letter for one in now)
        return f"At work: pitcher {letters}." if len(now) == 1 else f"At work: pitchers {letters}."
    if still:
        more = "more " if at_work else ""
        return f"{counted(len(still), f'{more}pitcher')} to pour: weigh one oil at a time."
    return "All test candles are poured." if at_work else "Nothing to pour yet."


def next_for(candidate: Candidate) -> tuple[Wax, Waiting] | None:
    """The wax and the sums of the next pitcher of an oil; None where every candle is poured."""
    mine = _unpoured(candidate.trial).filter(combination__candidate=candidate)
    groups = by_pitcher(mine)
    if not groups:
        return None
    return groups[0][0].combination.wax, _waiting(candidate.trial, groups[0], last_steps())


def can_be_poured(pour: Pour) -> QuerySet[TestCandle]:
    """The test candles of this oil that are not poured yet."""
    found = TestCandle.objects.filter(combination__candidate=pour.candidate_id, pour=None)
    return found.select_related("combination__wick", "combination__vessel", "piece")


def planned_for(pour: Pour) -> list[TestCandle]:
    """Those of them that are planned with the load of this pitcher."""
    load = load_of(pour).of_wax_percent
    return [
        candle
        for candle in can_be_poured(pour)
        if pour.basis == Basis.TOTAL or departed_load(load, candle.combination.load_percent) is None
    ]


def took_back(named: str, weighings_g: Sequence[float]) -> str:
    """Said where a later weighing of the wax is lower than the one before."""
    lower = [(before, after) for before, after in pairwise(weighings_g) if after < before]
    if not lower:
        return ""
    before, after = lower[-1]
    return (
        f"{named}: {to_the_mg(before)} g, then {to_the_mg(after)} g: "
        f"{to_the_mg(before - after)} g of wax went back."
    )


def _unpoured(trial: Trial) -> QuerySet[TestCandle]:
    found = TestCandle.objects.filter(combination__candidate__trial=trial, pour=None)
    ordered = found.order_by("combination__candidate__position", "pk")
    return ordered.select_related("combination__candidate__oil", "combination__wax")


def _waiting(trial: Trial, candles: list[TestCandle], steps: Steps) -> Waiting:
    made = candles[0].combination
    candidate, load_percent = made.candidate, made.load_percent
    mix = pitcher_of(trial, vessels=len(candles), load_percent=load_percent, steps=steps)
    return Waiting(
        candidate=candidate.pk,
        oil=candidate.oil.name,
        codes=", ".join(candle.code for candle in candles),
        load_percent=load_percent,
        wax_g=None if mix is None else mix.wax_g,
        oil_g=None if mix is None else mix.oil_g,
    )


def _pitcher(trial: Trial, pour: Pour, name: str, nth: int, bench: AtBench) -> Pitcher:
    weighings = list(pour.weighings.all())
    scale = Scale.of(weighings, slips=bench.slips)
    hidden = trial.is_sealed and pour.poured_at is not None
    return Pitcher(
        pour=pour,
        letter=str(nth) if hidden else name,
        oil="" if hidden else pour.candidate.oil.name,
        step=_step(pour, scale),
        load=load_of(pour),
        wax=oil_for(pour, scale),
        really=in_it(pour, scale),
        weighings=tuple(_shown(weighings, bench.slips)),
        candles=tuple(pour.candles.all()),
        flash_c=None if hidden else pour.candidate.oil.flash_c,
        planned_percent=trial.load_percent,
        steps=bench.steps,
        is_hidden=hidden,
    )


def _step(pour: Pour, scale: Scale) -> str:
    if pour.poured_at is not None:
        return POURED
    if not scale.wax_g:
        return WEIGH_WAX
    return POUR if scale.oil_g else WEIGH_OIL


def _shown(weighings: list[Weighing], slips: frozenset[int]) -> list[Shown]:
    last = {each.what: each.pk for each in weighings if each.pk not in slips}
    return [
        Shown(mg=each.mg, words=_words(each, last, slips), at=each.at, who=each.who.name)
        for each in weighings
    ]


def _words(each: Weighing, last: Mapping[str, int], slips: frozenset[int]) -> str:
    if each.pk in slips:
        return f"{each.get_what_display()}, typed wrongly and put right"
    again = "" if last[each.what] == each.pk else ", weighed again after"
    return f"{each.get_what_display()}{again}"
