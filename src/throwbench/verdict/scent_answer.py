"""The answer on one attribute alone: no burns, no limits, only what the scores say."""

from collections.abc import Sequence

import numpy as np

from throwbench.records import Score
from throwbench.science.errors import UnclearError
from throwbench.science.sensory.likelihood import Link
from throwbench.verdict.counted import CountedScores, sort_scores
from throwbench.verdict.links import room_per_nose, unlinked
from throwbench.verdict.pick import Pick, choose
from throwbench.verdict.places import (
    clear_winner,
    equally_good,
    level_with_first,
    place_of,
    placed,
)
from throwbench.verdict.result import Interval
from throwbench.verdict.scent import Scent, ask, chance_inside, opinions_split, raw
from throwbench.verdict.scent_result import ScentAnswer, ScentOfCandidate
from throwbench.verdict.settings import Settings
from throwbench.verdict.words import listed
from throwbench.verdict.worth import demand_bands, outside_bands


def scent_answer(
    scores: Sequence[Score],
    *,
    attribute: str,
    scale: tuple[int, int],
    settings: Settings,
    link: Link = "logit",
) -> ScentAnswer:
    """What the scores on one attribute say of its candidates.

    Which scores count is decided as for a verdict, as far as scores alone tell: after the cure
    where `settings.cure_days` is given, in a nose burn, and not taken out by the maker.
    Ranked by expected score, or by how far that lies outside the band where one is given.

    Raises
    ------
    UnclearError
        No score on this attribute, one outside the scale, or a band for a room without a score.
    """
    mine = [score for score in scores if score.attribute == attribute]
    names = tuple(dict.fromkeys(score.candidate for score in mine))
    found = sort_scores(
        mine,
        combinations={},
        broken=frozenset(),
        badly_wicked=frozenset(),
        cure_days=settings.cure_days,
        leave_out=settings.leave_out,
    )
    scent = ask(
        found.counted,
        attribute=attribute,
        candidates=names,
        scale=scale,
        link=link,
        draws=settings.draws,
        random_state=settings.random_state,
    )
    if scent is None:
        raise _nothing_counts(attribute, scores, found)
    demand_bands(settings.bands, found.counted, scale=scale)
    return _answer(found, scent, names, scale, settings)


def _nothing_counts(attribute: str, scores: Sequence[Score], found: CountedScores) -> UnclearError:
    """Which attributes there are, or why the scores on this one do not count."""
    what = f"No score of {attribute} counts."
    if found.shown:
        return UnclearError(
            what,
            f"An answer needs at least one; shown, not counted: {listed(found.why())}.",
            "Sniff again, or check what was written down of these scores.",
        )
    others = listed(tuple(dict.fromkeys(score.attribute for score in scores)))
    return UnclearError(
        what,
        f"The scores are of {others}." if others else "There is no score at all.",
        "Ask for one of these attributes." if others else "Check the file.",
    )


def _answer(
    found: CountedScores,
    scent: Scent,
    names: tuple[str, ...],
    scale: tuple[int, int],
    settings: Settings,
) -> ScentAnswer:
    expected = scent.expected()
    worth = -outside_bands(scent, settings.bands) if settings.bands else expected
    pick = choose(worth, groups=[settings.groups.get(name) for name in names], most=settings.choose)
    candidates = _candidates(found, scent, pick, scale, settings)
    near = level_with_first(worth)
    winner = clear_winner(pick, names, settings)
    # Those that are level stand in their own order: draws do not put one before the other.
    order = np.lexsort((np.where(near, 0.0, -worth.mean(axis=0)), ~near))
    level = () if winner is not None else tuple(names[i] for i in np.flatnonzero(near))
    ranked = [names[i] for i in order]
    return ScentAnswer(
        attribute=scent.attribute,
        scale=scale,
        choose=settings.choose,
        bands=settings.bands,
        candidates=tuple(candidates[i] for i in order),
        clear_winner=winner,
        level=level,
        unlinked=unlinked(found.counted, ranked),
        room_per_nose=room_per_nose(found.counted),
        counted=len(found.counted),
        not_counted=len(found.shown),
        noses=len({row.assessor for row in found.counted}),
        spreads={name: float(sd.mean()) for name, sd in scent.posterior.spreads.items()},
        own_taste=scent.own_taste,
    )


def _candidates(
    found: CountedScores, scent: Scent, pick: Pick, scale: tuple[int, int], settings: Settings
) -> list[ScentOfCandidate]:
    """In the order of the draws."""
    names, expected = scent.posterior.candidates, scent.expected()
    inside = chance_inside(scent, settings.bands) if settings.bands else None
    low, high = np.quantile(expected, (0.05, 0.95), axis=0)
    themes = [settings.groups.get(name) for name in names]
    taken = {theme for theme, chosen in zip(themes, pick.chosen, strict=True) if chosen}
    return [
        ScentOfCandidate(
            candidate=name,
            expected=float(expected[:, i].mean()),
            interval_90=Interval(float(low[i]), float(high[i])),
            chance_in_band=None if inside is None else float(inside[i]),
            chance_to_belong=float(pick.belongs[i]),
            chance_best=float(pick.best[i]),
            place=place_of(
                i,
                pick,
                group_has_one=themes[i] is not None and themes[i] in taken,
                settings=settings,
            ),
            placed=placed(float(pick.belongs[i]), settings),
            equally_good=equally_good(float(pick.belongs[i]), pick.swap_cost[i], settings),
            split=opinions_split(found.counted, name, scale),
            scores=raw(found.counted, name, scent.attribute),
        )
        for i, name in enumerate(names)
    ]
