"""What is known of every oil before anything is ranked: limits, burns well, which scores count."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from throwbench.records import Burn, Combination, Score
from throwbench.rules import judge
from throwbench.rules.result import CombinationLimits
from throwbench.verdict.burns_well import BurnsWell, burns_well, oil_burns_well
from throwbench.verdict.counted import CountedScores, sort_scores
from throwbench.verdict.result import Place
from throwbench.verdict.scale import scale_of
from throwbench.verdict.settings import Settings


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What is known of every oil before anything is ranked."""

    names: tuple[str, ...]
    cards: Mapping[str, Combination]
    limits: Mapping[str, tuple[CombinationLimits, ...]]
    burns_well: Mapping[str, tuple[str, ...]]
    sorted: CountedScores
    scale: tuple[int, int]

    def card_of(self, name: str) -> Combination | None:
        """Any combination of an oil: supplier, theme and role are the oil's own."""
        return next((card for card in self.cards.values() if card.oil == name), None)

    def theme(self, name: str, groups: Mapping[str, str]) -> str | None:
        """The theme of an oil; `groups` stand above what its combinations say."""
        card = self.card_of(name)
        return groups.get(name, None if card is None else card.group)

    def role(self, name: str) -> Place | None:
        """The places that scent cannot change: reference, barred, not ranked."""
        card = self.card_of(name)
        if card is not None and card.role == "reference":
            return "reference"
        limits = self.limits.get(name, ())
        if limits and all(item.state == "broken" for item in limits):
            return "barred"
        ranking = (s for s in self.sorted.counted if s.attribute in ("liking", "hot_throw"))
        return None if any(s.candidate == name for s in ranking) else "not ranked"


def gather(
    scores: Sequence[Score],
    burns: Sequence[Burn],
    combinations: Sequence[Combination],
    settings: Settings,
    day: date,
) -> Gathered:
    cards = {card.candle: card for card in combinations}
    oil_of = {score.candle: score.candidate for score in scores}
    oil_of |= {code: card.oil for code, card in cards.items()}
    judged = judge(burns, combinations=combinations, day=day, house=settings.house)
    limits: dict[str, tuple[CombinationLimits, ...]] = {}
    for item in judged:
        oil = item.oil or oil_of.get(item.candles[0].candle, item.candles[0].candle)
        limits[oil] = (*limits.get(oil, ()), replace(item, oil=oil))
    names = tuple(dict.fromkeys([*(s.candidate for s in scores), *limits]))
    wells = _wells(burns, cards, day, settings)
    broken = frozenset(
        candle.candle for item in judged for candle in item.candles if candle.state == "broken"
    )
    return Gathered(
        names=names,
        cards=cards,
        limits=limits,
        burns_well={
            name: oil_burns_well(
                [
                    (cards.get(code), well)
                    for code, well in wells.items()
                    if oil_of.get(code) == name
                ]
            ).words
            for name in names
        },
        sorted=sort_scores(
            scores,
            combinations=cards,
            broken=broken,
            badly_wicked=frozenset(code for code, well in wells.items() if well.tunnels),
            cure_days=settings.cure_days,
            leave_out=settings.leave_out,
        ),
        scale=settings.scale or scale_of(scores),
    )


def _wells(
    burns: Sequence[Burn], cards: Mapping[str, Combination], day: date, settings: Settings
) -> dict[str, BurnsWell]:
    by_candle: dict[str, list[Burn]] = {}
    for burn in burns:
        by_candle.setdefault(burn.candle, []).append(burn)
    return {
        code: burns_well(log, combination=cards.get(code), day=day, house=settings.house)
        for code, log in by_candle.items()
    }
