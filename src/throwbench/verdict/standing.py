"""The pick among those that may join, and where each candidate stands against it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from throwbench.records.attribute import LIT, MODELLED
from throwbench.verdict.draws import Draws
from throwbench.verdict.evidence import Gathered
from throwbench.verdict.pick import Pick, choose
from throwbench.verdict.places import (
    ORDER,
    SPLIT,
    clear_winner,
    equally_good,
    level_with_first,
    place_of,
    placed,
    words_of,
)
from throwbench.verdict.reasons import of_candidate, of_dose, of_limits
from throwbench.verdict.result import AttributeResult, CandidateVerdict, Place
from throwbench.verdict.scent import Scent, opinions_split, raw
from throwbench.verdict.settings import Settings
from throwbench.verdict.worth import demand_bands, worth


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranking:
    """The pick among those that may join, and how it was worked out."""

    names: tuple[str, ...]
    worth: Draws | None
    pick: Pick | None
    ranked_by: str
    clear_winner: str | None = None

    @property
    def level(self) -> tuple[str, ...]:
        """Those that nobody is ahead of, where the first one's lead tells nothing."""
        if self.worth is None or self.clear_winner is not None:
            return ()
        near = level_with_first(self.worth)
        return tuple(name for name, tied in zip(self.names, near, strict=True) if tied)

    @property
    def loss(self) -> float | None:
        """What the pick loses on average, in steps of worth; None without a pick."""
        return None if self.pick is None else self.pick.loss


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """Where one candidate stands; without chances where it is not compared."""

    place: Place
    worth: float | None = None
    belongs: float | None = None
    best: float | None = None
    swap_cost: float | None = None


def rank(found: Gathered, scents: Mapping[str, Scent], settings: Settings) -> Ranking:
    """Work out the worth of all that may join, draw by draw, and the best allowed set.

    Without one that may join there is no worth and no pick.

    Raises
    ------
    UnclearError
        A band for a room in which no hot throw was scored.
    """
    liking, hot_throw = scents.get("liking"), scents.get("hot_throw")
    may_join = tuple(name for name in found.names if found.role(name) is None)
    if not may_join:
        return Ranking(
            names=(),
            worth=None,
            pick=None,
            ranked_by="nothing: no score of liking or hot throw counts",
        )
    if hot_throw is not None:
        lit = [score for score in found.sorted.counted if score.attribute == "hot_throw"]
        demand_bands(settings.bands, lit, scale=found.scale)
    value, words = worth(liking, hot_throw, bands=settings.bands, outside=settings.outside)
    of = next(scent for scent in (liking, hot_throw) if scent is not None).posterior.candidates
    value = value[:, [of.index(name) for name in may_join]]
    groups = [found.theme(name, settings.groups) for name in may_join]
    pick = choose(value, groups=groups, most=settings.choose)
    return Ranking(
        names=may_join,
        worth=value,
        pick=pick,
        ranked_by=words,
        clear_winner=clear_winner(pick, may_join, settings),
    )


def of_one(
    name: str,
    found: Gathered,
    results: Mapping[str, Mapping[str, AttributeResult]],
    ranking: Ranking,
    settings: Settings,
) -> CandidateVerdict:
    """What the verdict says of one candidate: its place, three columns and its reasons.

    One that is not ranked keeps the attributes on which it has a score that counts (its cold
    throw); the scores that do not count are shown beside them.
    """
    made_of = found.made_of(name)
    limits = found.limits.get(name, ())
    here = _standing(name, found, ranking, settings)
    belongs = here.belongs
    ranked = here.place != "not ranked"
    scent = _scent(name, results, whole=ranked)
    return CandidateVerdict(
        candidate=name,
        supplier=None if made_of is None else made_of.supplier,
        group=found.theme(name, settings.groups),
        place=here.place,
        not_ranked_because=None if ranked else found.why_not_ranked(name),
        limits=limits,
        burns_well=found.burns_well[name].words,
        scent=scent,
        worth=here.worth,
        chance_to_belong=belongs,
        chance_best=here.best,
        placed=belongs is not None and placed(belongs, settings),
        swap_cost=here.swap_cost,
        equally_good=belongs is not None and equally_good(belongs, here.swap_cost, settings),
        split=opinions_split(found.sorted.counted, name, found.scale),
        reasons=(
            *of_candidate(name, results, found.sorted),
            *of_dose(name, found.combinations.values()),
            *of_limits(limits),
        ),
        only_shown=_only_shown(found, name, beside=scent if ranked else ()),
    )


def _standing(name: str, found: Gathered, ranking: Ranking, settings: Settings) -> _Standing:
    """The place of one candidate, with its chances if it is compared."""
    pick, value = ranking.pick, ranking.worth
    if pick is None or value is None or name not in ranking.names:
        return _Standing(place=found.role(name) or "not ranked")
    this = ranking.names.index(name)
    chosen = [other for other, inside in zip(ranking.names, pick.chosen, strict=True) if inside]
    group = found.theme(name, settings.groups)
    theirs = [found.theme(other, settings.groups) for other in chosen]
    held = group is not None and group in theirs
    return _Standing(
        place=place_of(this, pick, group_has_one=held, settings=settings),
        worth=float(value[:, this].mean()),
        belongs=float(pick.belongs[this]),
        best=float(pick.best[this]),
        swap_cost=pick.swap_cost[this],
    )


def _scent(
    name: str, results: Mapping[str, Mapping[str, AttributeResult]], *, whole: bool
) -> tuple[AttributeResult, ...]:
    """The results of one candidate: those with a score that counts, and what it is ranked by."""
    mine = (result[name] for result in results.values() if name in result)
    return tuple(one for one in mine if one.counted or (whole and one.attribute in LIT))


def in_order(item: CandidateVerdict) -> tuple[int, bool, float, float]:
    """The place, in it those that are tied or split last; then chance to belong and worth."""
    tied = item.place == "in the pick" and item.equally_good
    return (
        ORDER.index(item.place),
        tied or words_of(item) is SPLIT,
        -(item.chance_to_belong or 0.0),
        -(item.worth or 0.0),
    )


def _only_shown(
    found: Gathered, name: str, *, beside: Sequence[AttributeResult]
) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """The scores that do not count on attributes that have no result to stand beside."""
    known = {result.attribute for result in beside}
    rows = ((one, raw(found.sorted.shown, name, one)) for one in MODELLED if one not in known)
    return tuple((attribute, given) for attribute, given in rows if given)
