"""The answer on one attribute alone: no burns, no limits, only what the scores say."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from throwbench.records import Score
from throwbench.science.errors import UnclearError
from throwbench.science.sensory.likelihood import Link
from throwbench.science.words import counted
from throwbench.verdict.counted import CountedScores, sort_scores
from throwbench.verdict.pick import choose
from throwbench.verdict.places import clear_winner
from throwbench.verdict.result import Interval
from throwbench.verdict.scent import Scent, ask, chance_inside, raw
from throwbench.verdict.settings import Settings
from throwbench.verdict.words import in_100, listed
from throwbench.verdict.worth import demand_bands, outside_bands


@dataclass(frozen=True, slots=True, kw_only=True)
class ScentOfCandidate:
    """The average nose's expected score of one candidate, on the maker's own scale."""

    candidate: str
    expected: float
    interval_90: Interval
    chance_in_band: float | None
    chance_to_belong: float
    chance_best: float
    scores: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScentAnswer:
    """Candidates from the highest worth to the lowest. `spreads`: mean sds, in steps."""

    attribute: str
    scale: tuple[int, int]
    choose: int
    candidates: tuple[ScentOfCandidate, ...]
    clear_winner: str | None
    counted: int
    not_counted: int
    noses: int
    spreads: dict[str, float]
    own_taste: bool

    def sentence(self) -> str:
        """Who is ahead, how sure that is, and how little is known."""
        first = self.candidates[0]
        if len(self.candidates) == 1:
            lead = f"{first.candidate} stands alone: nothing to compare it with."
        elif self.clear_winner is not None:
            first = next(item for item in self.candidates if item.candidate == self.clear_winner)
            lead = f"Clear winner: {self.clear_winner}, the best {in_100(first.chance_best)}."
        else:
            lead = (
                f"No clear winner yet: {first.candidate} is ahead, "
                f"the best {in_100(first.chance_best)}."
            )
        low, high = first.interval_90.low, first.interval_90.high
        told = (
            f"Its expected score is {first.expected:.1f}, 9 times in 10 between {low:.1f} and "
            f"{high:.1f}, on a scale of {self.scale[0]} to {self.scale[1]}."
        )
        return f"{lead} {told} {self._how_little()}"

    def _how_little(self) -> str:
        few = counted(self.counted, "score")
        noses = counted(self.noses, "assessor")
        if self.noses == 1:
            return (
                f"That rests on {few} of {noses}: very little, since another may judge otherwise."
            )
        without = [item.candidate for item in self.candidates if not item.scores]
        missing = f" {listed(without)}: no score yet." if without else ""
        if not self.own_taste:
            missing += " An assessor's own taste cannot be told from chance: too few second sniffs."
        shown = f" {self.not_counted} more do not count." if self.not_counted else ""
        return f"That rests on {few} of {noses}.{shown}{missing}"


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
    themes = [settings.groups.get(name) for name in names]
    pick = choose(worth, groups=themes, most=settings.choose)
    inside = chance_inside(scent, settings.bands) if settings.bands else None
    low, high = np.quantile(expected, (0.05, 0.95), axis=0)
    candidates = tuple(
        ScentOfCandidate(
            candidate=names[i],
            expected=float(expected[:, i].mean()),
            interval_90=Interval(float(low[i]), float(high[i])),
            chance_in_band=None if inside is None else float(inside[i]),
            chance_to_belong=float(pick.belongs[i]),
            chance_best=float(pick.best[i]),
            scores=raw(found.counted, names[i], scent.attribute),
        )
        for i in np.argsort(-worth.mean(axis=0), kind="stable")
    )
    return ScentAnswer(
        attribute=scent.attribute,
        scale=scale,
        choose=settings.choose,
        candidates=candidates,
        clear_winner=clear_winner(pick, names, settings),
        counted=len(found.counted),
        not_counted=len(found.shown),
        noses=len({row.assessor for row in found.counted}),
        spreads={name: float(sd.mean()) for name, sd in scent.posterior.spreads.items()},
        own_taste=scent.own_taste,
    )
