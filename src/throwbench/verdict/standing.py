"""The pick among those that may join, and where each candidate stands against it."""

from collections.abc import Mapping
from dataclasses import dataclass

from throwbench.verdict.draws import Draws
from throwbench.verdict.evidence import Gathered
from throwbench.verdict.pick import Pick, choose
from throwbench.verdict.places import ORDER, equally_good, place_of, placed
from throwbench.verdict.reasons import of_candidate, of_dose, of_limits
from throwbench.verdict.result import AttributeResult, CandidateVerdict
from throwbench.verdict.scent import Scent, opinions_split, raw
from throwbench.verdict.settings import Settings
from throwbench.verdict.worth import demand_rooms, worth


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranking:
    """The pick among those that may join, and how it was worked out."""

    names: tuple[str, ...]
    worth: Draws | None
    pick: Pick | None
    ranked_by: str


def rank(found: Gathered, scents: Mapping[str, Scent], settings: Settings) -> Ranking:
    liking, hot_throw = scents.get("liking"), scents.get("hot_throw")
    may_join = tuple(name for name in found.names if found.role(name) is None)
    if not may_join:
        return Ranking(names=(), worth=None, pick=None, ranked_by="nothing: no score counts")
    if hot_throw is not None:
        lit = [score for score in found.sorted.counted if score.attribute == "hot_throw"]
        demand_rooms(settings.bands, lit)
    value, words = worth(liking, hot_throw, bands=settings.bands, outside=settings.outside)
    of = next(scent for scent in (liking, hot_throw) if scent is not None).posterior.candidates
    value = value[:, [of.index(name) for name in may_join]]
    groups = [found.theme(name, settings.groups) for name in may_join]
    pick = choose(value, groups=groups, most=settings.choose)
    return Ranking(names=may_join, worth=value, pick=pick, ranked_by=words)


def of_one(
    name: str,
    found: Gathered,
    results: Mapping[str, Mapping[str, AttributeResult]],
    ranking: Ranking,
    settings: Settings,
) -> CandidateVerdict:
    card = found.card_of(name)
    group = found.theme(name, settings.groups)
    place = found.role(name)
    scent = () if place == "not ranked" else tuple(r[name] for r in results.values() if name in r)
    value = belongs = best = cost = None
    if ranking.pick is not None and ranking.worth is not None and name in ranking.names:
        this = ranking.names.index(name)
        rivals = [other for other in ranking.names if found.theme(other, settings.groups) == group]
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


def in_order(item: CandidateVerdict) -> tuple[int, bool, float, float]:
    """The place, in the pick those that are tied last; then the chance to belong and the worth."""
    tied = item.place == "in the pick" and item.equally_good
    return (
        ORDER.index(item.place),
        tied,
        -(item.chance_to_belong or 0.0),
        -(item.worth or 0.0),
    )


def _only_shown(found: Gathered, name: str) -> tuple[tuple[str, tuple[int, ...]], ...]:
    shown = [*found.sorted.shown, *found.sorted.counted]
    rows = ((a, raw(shown, name, a)) for a in ("liking", "hot_throw", "cold_throw"))
    return tuple((attribute, given) for attribute, given in rows if given)
