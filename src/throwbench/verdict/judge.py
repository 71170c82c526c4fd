"""From scores and burns to the verdict; the rooms beside this one each do one part."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from throwbench.records import Burn, Combination, Score
from throwbench.rules import judge
from throwbench.rules.result import CombinationLimits
from throwbench.verdict.burns_well import BurnsWell, burns_well, oil_burns_well
from throwbench.verdict.counted import Sorted, sort_scores
from throwbench.verdict.noses import nose_notes
from throwbench.verdict.pick import Pick, choose
from throwbench.verdict.places import ORDER, clear_winner, equally_good, place_of, placed
from throwbench.verdict.reasons import assumed, of_candidate, of_dose, of_limits, of_scores
from throwbench.verdict.result import AttributeResult, CandidateVerdict, Place, Verdict
from throwbench.verdict.scale import scale_of
from throwbench.verdict.scent import Scent, ask, opinions_split, raw, summarise
from throwbench.verdict.settings import Settings
from throwbench.verdict.speech import headline, holds, next_steps, not_used, risk
from throwbench.verdict.worth import Draws, demand_rooms, worth

MODELLED = ("liking", "hot_throw", "cold_throw")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Evidence:
    """What is known of every oil before anything is ranked."""

    names: tuple[str, ...]
    cards: Mapping[str, Combination]
    limits: Mapping[str, tuple[CombinationLimits, ...]]
    burns_well: Mapping[str, tuple[str, ...]]
    sorted: Sorted
    scale: tuple[int, int]

    def card_of(self, name: str) -> Combination | None:
        """Any combination of an oil: supplier, theme and role are the oil's own."""
        return next((card for card in self.cards.values() if card.oil == name), None)

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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ranking:
    """The pick among those that may join, and how it was worked out."""

    names: tuple[str, ...]
    worth: Draws | None
    pick: Pick | None
    ranked_by: str


def verdict(
    scores: Sequence[Score],
    burns: Sequence[Burn] = (),
    *,
    combinations: Sequence[Combination] = (),
    settings: Settings = Settings(),  # noqa: B008 (frozen)
    day: date,
    problems: Sequence[str] = (),
    unused: Sequence[str] = (),
) -> Verdict:
    """Which candidates join the line: limits, burns well, scent, the pick with its risk.

    Parameters
    ----------
    scores : of all sittings, counted or not.
    burns : the burn log; without it every limit is not yet known.
    combinations : what the test candles are made of. Without it each candle stands alone and
    belongs to the candidate that its scores name.
    day : of the judgement; it decides which limits are in force.
    problems : sentences about rows that are asked about or not used; kept with the verdict.
    unused : those of rows and cells that were not used: they change the answer, so it names them.

    Raises
    ------
    UnclearError
        A score outside the scale, a house limit that is not known, or a band for a room without
        a score.

    Checked against: planted truths over many simulated trials (`./run bench honesty`,
    `./run bench truths`).
    """
    found = _gather(scores, burns, combinations, settings, day)
    scents = _scents(found, settings)
    ranking = _rank(found, scents, settings)
    return _speak(found, scents, ranking, settings, problems=problems, unused=unused)


def _gather(
    scores: Sequence[Score],
    burns: Sequence[Burn],
    combinations: Sequence[Combination],
    settings: Settings,
    day: date,
) -> _Evidence:
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
    return _Evidence(
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


def _scents(found: _Evidence, settings: Settings) -> dict[str, Scent]:
    ranking = {s.candidate for s in found.sorted.counted}
    names = tuple(name for name in found.names if name in ranking)
    scents = {
        attribute: ask(
            found.sorted.counted,
            attribute=attribute,
            candidates=names,
            scale=found.scale,
            draws=settings.draws,
            random_state=settings.random_state + place,
        )
        for place, attribute in enumerate(MODELLED)
    }
    return {attribute: scent for attribute, scent in scents.items() if scent is not None}


def _rank(found: _Evidence, scents: Mapping[str, Scent], settings: Settings) -> _Ranking:
    liking, hot_throw = scents.get("liking"), scents.get("hot_throw")
    may_join = tuple(name for name in found.names if found.role(name) is None)
    if not may_join:
        return _Ranking(names=(), worth=None, pick=None, ranked_by="nothing: no score counts")
    if hot_throw is not None:
        lit = [score for score in found.sorted.counted if score.attribute == "hot_throw"]
        demand_rooms(settings.bands, lit)
    value, words = worth(liking, hot_throw, bands=settings.bands, outside=settings.outside)
    of = next(scent for scent in (liking, hot_throw) if scent is not None).posterior.candidates
    value = value[:, [of.index(name) for name in may_join]]
    groups = [_group(found, name, settings) for name in may_join]
    pick = choose(value, groups=groups, most=settings.choose)
    return _Ranking(names=may_join, worth=value, pick=pick, ranked_by=words)


def _group(found: _Evidence, name: str, settings: Settings) -> str | None:
    card = found.card_of(name)
    return settings.groups.get(name, None if card is None else card.group)


def _speak(
    found: _Evidence,
    scents: Mapping[str, Scent],
    ranking: _Ranking,
    settings: Settings,
    *,
    problems: Sequence[str],
    unused: Sequence[str],
) -> Verdict:
    results = {
        attribute: summarise(
            scent,
            bands=settings.bands,
            counted=found.sorted.counted,
            shown=found.sorted.shown,
        )
        for attribute, scent in scents.items()
    }
    candidates = sorted(
        (_candidate(name, found, results, ranking, settings) for name in found.names),
        key=_order,
    )
    chosen = tuple(item.candidate for item in candidates if item.place == "in the pick")
    pick = ranking.pick
    winner = None if pick is None else clear_winner(pick, ranking.names, settings)
    best = None if pick is None else float(pick.best[ranking.names.index(chosen[0])])
    loss = None if pick is None else pick.loss
    not_tried = tuple(
        dict.fromkeys(
            words for item in found.limits.values() for one in item for words in one.not_tried
        )
    )
    return Verdict(
        choose=settings.choose,
        bands=settings.bands,
        scale=found.scale,
        ranked_by=ranking.ranked_by,
        candidates=tuple(candidates),
        pick=chosen,
        loss_steps=loss,
        clear_winner=winner,
        headline=headline(
            chosen,
            asked=settings.choose,
            ranked=len(ranking.names),
            clear_winner=winner,
            best=best,
        ),
        risk=risk(candidates, loss=loss, settings=settings),
        holds=(*holds(candidates), *not_used(unused)),
        next_steps=next_steps(candidates, clear_winner=winner),
        reasons=of_scores(found.sorted, scents),
        noses=nose_notes(scents),
        problems=tuple(problems),
        defaults=assumed(found.sorted.counted, found.cards, settings, found.scale),
        counted=len(found.sorted.counted),
        not_counted=len(found.sorted.shown),
        not_tried=not_tried,
    )


def _candidate(
    name: str,
    found: _Evidence,
    results: Mapping[str, Mapping[str, AttributeResult]],
    ranking: _Ranking,
    settings: Settings,
) -> CandidateVerdict:
    card = found.card_of(name)
    group = _group(found, name, settings)
    place = found.role(name)
    scent = () if place == "not ranked" else tuple(r[name] for r in results.values() if name in r)
    value = belongs = best = cost = None
    if ranking.pick is not None and ranking.worth is not None and name in ranking.names:
        this = ranking.names.index(name)
        rivals = [other for other in ranking.names if _group(found, other, settings) == group]
        chosen = [other for other in rivals if ranking.pick.chosen[ranking.names.index(other)]]
        place = place_of(
            this,
            ranking.pick,
            group_has_one=group is not None and bool(chosen),
            settings=settings,
        )
        value = float(ranking.worth[:, this].mean())
        belongs = float(ranking.pick.belongs[this])
        best = float(ranking.pick.best[this])
        cost = ranking.pick.swap_cost[this]
    return CandidateVerdict(
        candidate=name,
        supplier=None if card is None else card.supplier,
        group=group,
        place=place or "not ranked",
        limits=found.limits.get(name, ()),
        burns_well=found.burns_well[name],
        scent=scent,
        worth=value,
        chance_to_belong=belongs,
        chance_best=best,
        placed=belongs is not None and placed(belongs, settings),
        swap_cost=cost,
        equally_good=belongs is not None and equally_good(belongs, cost, settings),
        split=opinions_split(found.sorted.counted, name, found.scale),
        reasons=(
            *of_candidate(name, results, found.sorted),
            *of_dose(name, found.cards.values()),
            *of_limits(found.limits.get(name, ())),
        ),
        only_shown=_only_shown(found, name) if place == "not ranked" else (),
    )


def _order(item: CandidateVerdict) -> tuple[int, bool, float, float]:
    """The place, in the pick those that are tied last; then the chance to belong and the worth."""
    tied = item.place == "in the pick" and item.equally_good
    return (
        ORDER.index(item.place),
        tied,
        -(item.chance_to_belong or 0.0),
        -(item.worth or 0.0),
    )


def _only_shown(found: _Evidence, name: str) -> tuple[tuple[str, tuple[int, ...]], ...]:
    shown = [*found.sorted.shown, *found.sorted.counted]
    rows = ((a, raw(shown, name, a)) for a in ("liking", "hot_throw", "cold_throw"))
    return tuple((attribute, given) for attribute, given in rows if given)
