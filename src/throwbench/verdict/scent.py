"""From counted scores to draws of each candidate's expected score, attribute by attribute."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from throwbench.records import Score
from throwbench.science.sensory.answer import answer
from throwbench.science.sensory.factor import Factor, crossing, factor
from throwbench.science.sensory.likelihood import Link
from throwbench.science.sensory.posterior import Posterior
from throwbench.science.sensory.priors import Priors
from throwbench.verdict.draws import Draws
from throwbench.verdict.result import AttributeResult, Band, Interval

REPLICATED = 1.5
"""Scores per assessor and candidate from which an assessor's own taste can be told from chance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scent:
    """The answer on one attribute. `own_taste` tells whether the panel could show it."""

    attribute: str
    posterior: Posterior
    own_taste: bool
    scores: int

    def expected(self, room: str | None = None) -> Draws:
        """(draws, candidates) expected score of the average nose, in one room or the average."""
        shift = 0.0 if room is None else self.posterior.effect("room", room)
        return self.posterior.expected(shift)


def ask(
    scores: Sequence[Score],
    *,
    attribute: str,
    candidates: Sequence[str],
    scale: tuple[int, int],
    link: Link = "logit",
    draws: int = 4000,
    random_state: int = 0,
) -> Scent | None:
    """The answer on one attribute from scores that count; None where there is none.

    All `candidates` are in the model; one without a score on this attribute is drawn from what
    the others are like.
    """
    rows = [score for score in scores if score.attribute == attribute and score.score is not None]
    if not rows:
        return None
    terms, own_taste = _terms(rows, Priors())
    posterior = answer(
        [row.score for row in rows if row.score is not None],
        scale=scale,
        candidate=_among(candidates, [row.candidate for row in rows]),
        terms=terms,
        link=link,
        draws=draws,
        random_state=random_state,
    )
    return Scent(attribute=attribute, posterior=posterior, own_taste=own_taste, scores=len(rows))


def _among(candidates: Sequence[str], cells: Sequence[str]) -> Factor:
    """The candidates of the rows, numbered in the order of `candidates`."""
    place = {name: i for i, name in enumerate(candidates)}
    of_row = np.array([place[cell] for cell in cells], dtype=np.intp)
    return Factor(name="candidate", levels=tuple(candidates), of_row=of_row)


def _terms(rows: Sequence[Score], priors: Priors) -> tuple[list[tuple[Factor, float]], bool]:
    """The terms that these rows can carry.

    An assessor's use of the scale is always in: with one nose it says that another may differ.
    Rooms, sittings and test candles enter where there are several and they are not another term
    under a second name; an assessor's own taste enters where candidates were sniffed again.
    """
    assessor = factor("assessor", [row.assessor for row in rows])
    terms = [(assessor, priors.assessor)]
    room = factor("room", [row.room for row in rows])
    if len(room.levels) > 1:
        terms.append((room, priors.other))
    sitting = crossing("sitting", [r.assessor for r in rows], [r.sitting for r in rows])
    seats = crossing("", [r.assessor for r in rows], [r.room for r in rows])
    if len(seats.levels) < len(sitting.levels) <= len(rows) / 2:
        terms.append((sitting, priors.other))
    candle = factor("test candle", [row.candle for row in rows])
    if len(candle.levels) > len({row.candidate for row in rows}):
        terms.append((candle, priors.other))
    taste = crossing("own taste", [r.assessor for r in rows], [r.candidate for r in rows])
    own_taste = len(rows) >= REPLICATED * len(taste.levels)
    if own_taste:
        terms.append((taste, priors.taste))
    return terms, own_taste


def summarise(
    scent: Scent, *, bands: Sequence[Band], counted: Sequence[Score], shown: Sequence[Score]
) -> dict[str, AttributeResult]:
    """Per candidate: the expected score with its intervals, and the raw scores behind it."""
    names = scent.posterior.candidates
    expected = scent.expected()
    inside = chance_inside(scent, bands) if scent.attribute == "hot_throw" and bands else None
    low, high = np.quantile(expected, (0.025, 0.975), axis=0)
    nine_low, nine_high = np.quantile(expected, (0.05, 0.95), axis=0)
    eight_low, eight_high = np.quantile(expected, (0.1, 0.9), axis=0)
    return {
        name: AttributeResult(
            attribute=scent.attribute,
            expected=float(expected[:, i].mean()),
            middle=float(np.median(expected[:, i])),
            eight_in_ten=Interval(float(eight_low[i]), float(eight_high[i])),
            nine_in_ten=Interval(float(nine_low[i]), float(nine_high[i])),
            nineteen_in_twenty=Interval(float(low[i]), float(high[i])),
            chance_in_band=None if inside is None else float(inside[i]),
            counted=raw(counted, name, scent.attribute),
            not_counted=raw(shown, name, scent.attribute),
        )
        for i, name in enumerate(names)
    }


def raw(scores: Sequence[Score], candidate: str, attribute: str) -> tuple[int, ...]:
    """The scores of one candidate on one attribute, in ascending order."""
    mine = (s.score for s in scores if s.candidate == candidate and s.attribute == attribute)
    return tuple(sorted(score for score in mine if score is not None))


def chance_inside(scent: Scent, bands: Sequence[Band]) -> Draws:
    """(candidates,) chance that the expected hot throw is inside the band of every room named."""
    inside = [
        (band.low <= scent.expected(band.room)) & (scent.expected(band.room) <= band.high)
        for band in bands
    ]
    return np.asarray(np.logical_and.reduce(inside).mean(axis=0))


def opinions_split(scores: Sequence[Score], candidate: str, scale: tuple[int, int]) -> str | None:
    """'loved by 2, disliked by 3' where at least two noses like every time and two never do.

    An assessor loves a candidate whose every liking is in the top quarter of the scale, and
    dislikes one whose every liking is in the bottom quarter: 4 or 5, and 1 or 2, of five steps.
    Where there are two noses in all, one of each is a split if both met it more than once.
    """
    span = scale[1] - scale[0]
    by_nose: dict[str, list[int]] = {}
    for score in scores:
        mine = score.candidate == candidate and score.attribute == "liking"
        if mine and score.score is not None:
            by_nose.setdefault(score.assessor, []).append(score.score)
    words = Counter(
        "loved" if min(given) >= scale[1] - span / 4 else "disliked"
        for given in by_nose.values()
        if min(given) >= scale[1] - span / 4 or max(given) <= scale[0] + span / 4
    )
    two = len(by_nose) == 2 and min(map(len, by_nose.values())) > 1
    needed = 1 if two else 2
    if words["loved"] >= needed and words["disliked"] >= needed:
        return f"loved by {words['loved']}, disliked by {words['disliked']}"
    return None
