"""What is known of every oil before anything is ranked: limits, burns well, which scores count."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from throwbench.records import Burn, Combination, Score
from throwbench.records.attribute import LIT, MODELLED
from throwbench.rules import judge
from throwbench.rules.result import CombinationLimits
from throwbench.rules.turn import by_candle
from throwbench.verdict.burns_well import BurnsWell, burns_well, oil_burns_well
from throwbench.verdict.counted import CountedScores, sort_scores
from throwbench.verdict.result import NotRanked, Place
from throwbench.verdict.scale import scale_of
from throwbench.verdict.settings import Settings


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What is known of every oil before anything is ranked.

    combinations : by candle. burns_well : by oil. tunnels : codes of the badly wicked candles.
    """

    names: tuple[str, ...]
    combinations: Mapping[str, Combination]
    limits: Mapping[str, tuple[CombinationLimits, ...]]
    burns_well: Mapping[str, BurnsWell]
    tunnels: frozenset[str]
    sorted: CountedScores
    scale: tuple[int, int]

    def made_of(self, name: str) -> Combination | None:
        """Any combination of an oil: supplier, theme and role are the oil's own."""
        return next((made for made in self.combinations.values() if made.oil == name), None)

    def theme(self, name: str, groups: Mapping[str, str]) -> str | None:
        """The theme of an oil; `groups` stand above what its combinations say."""
        made_of = self.made_of(name)
        return groups.get(name, None if made_of is None else made_of.group)

    def role(self, name: str) -> Place | None:
        """The places that scent cannot change: reference, barred, not ranked."""
        made_of = self.made_of(name)
        if made_of is not None and made_of.role == "reference":
            return "reference"
        limits = self.limits.get(name, ())
        if limits and all(item.state == "broken" for item in limits):
            return "barred"
        ranking = (score for score in self.sorted.counted if score.attribute in LIT)
        return None if any(score.candidate == name for score in ranking) else "not ranked"

    def why_not_ranked(self, name: str) -> NotRanked:
        """Why no score ranks an oil: what is wrong with their candle, or there is none."""
        shown = self.sorted.shown
        candles = {s.candle for s in shown if s.candidate == name and s.attribute in LIT}
        if candles & self.tunnels:
            return "its scores are from a candle that tunnels"
        if candles & _broken(self.limits.get(name, ())):
            return "its scores are from a candle that broke a limit"
        if self.burns_well[name].tunnels:
            return "it tunnels and has no score that counts"
        return "no score counts"


def gather(
    scores: Sequence[Score],
    burns: Sequence[Burn],
    combinations: Sequence[Combination],
    settings: Settings,
    day: date,
    *,
    unread: Mapping[str, str] | None = None,
) -> Gathered:
    """Judge the burns of every oil and part the scores that count from the others.

    A candle belongs to the oil of its combination; else to the candidate that its scores name;
    else it stands for itself.

    Raises
    ------
    UnclearError
        A house limit that is not known, or scores that need a scale that is named.
    """
    made_of = {made.candle: made for made in combinations}
    oils = {score.candle: score.candidate for score in scores}
    oils |= {code: made.oil for code, made in made_of.items()}
    judged = judge(burns, combinations=combinations, day=day, house=settings.house, unread=unread)
    limits = _by_oil(judged, oils)
    names = tuple(dict.fromkeys([*(score.candidate for score in scores), *limits]))
    wells = {
        code: burns_well(log, combination=made_of.get(code), day=day, house=settings.house)
        for code, log in by_candle(burns).items()
    }
    tunnels = frozenset(code for code, well in wells.items() if well.tunnels)
    return Gathered(
        names=names,
        combinations=made_of,
        limits=limits,
        burns_well={name: _of_oil(name, wells, oils, made_of) for name in names},
        tunnels=tunnels,
        sorted=sort_scores(
            scores,
            combinations=made_of,
            broken=_broken(judged),
            badly_wicked=tunnels,
            cure_days=settings.cure_days,
            leave_out=settings.leave_out,
            attributes=MODELLED,
        ),
        scale=settings.scale or scale_of(scores),
    )


def _by_oil(
    judged: Sequence[CombinationLimits], oils: Mapping[str, str]
) -> dict[str, tuple[CombinationLimits, ...]]:
    """The limits of each oil; a candle without a combination finds its oil by its code."""
    limits: dict[str, tuple[CombinationLimits, ...]] = {}
    for item in judged:
        code = item.candles[0].candle
        oil = item.oil or oils.get(code, code)
        limits[oil] = (*limits.get(oil, ()), replace(item, oil=oil))
    return limits


def _broken(judged: Sequence[CombinationLimits]) -> frozenset[str]:
    """Codes of the candles that broke a limit."""
    candles = (candle for item in judged for candle in item.candles)
    return frozenset(candle.candle for candle in candles if candle.state == "broken")


def _of_oil(
    name: str,
    wells: Mapping[str, BurnsWell],
    oils: Mapping[str, str],
    made_of: Mapping[str, Combination],
) -> BurnsWell:
    """How the candles of one oil burn."""
    mine = [(made_of.get(code), well) for code, well in wells.items() if oils.get(code) == name]
    return oil_burns_well(mine)
