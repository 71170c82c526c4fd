"""The scores of the panel evenings: truth, nose, room, evening and chance, on five steps."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from throwbench.demo.plan import BY_CODE, EVENINGS, Evening
from throwbench.demo.truths import (
    EARLY_DAYS,
    NOSE_SD,
    NOSES,
    OILS,
    ROOMS,
    SITTING_SD,
    SNIFF_SD,
    TASTE_SD,
)
from throwbench.records import Score
from throwbench.records.attribute import KINDS

LOWEST, HIGHEST = 1, 5
WALKS = (KINDS["unlit"].names, KINDS["lit"].names)
"""What a nose answers on its way round, unlit and lit."""
HASTY = ("Isak", "D5Q", 18)
"""One cold throw was scored 3 minutes after another candle."""
HASTY_MIN = 3
CANNOT_TELL = ("Tor", "K7F", 9)
"""One nose could not tell the cold throw."""
RECOGNISED = ("Maren", "D5Q", 12)
TIRED = ("Tor", "N3U", 18)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Panel:
    """What each nose brings to each oil, drawn once for all evenings."""

    offset: dict[str, float]
    taste: dict[tuple[str, str, str], float]


def scores(rng: np.random.Generator) -> tuple[Score, ...]:
    """All scores in the order in which they were given."""
    panel = _panel(rng)
    found = [
        score
        for evening in EVENINGS
        for place, nose in enumerate(evening.noses)
        for score in _sitting(rng, panel, evening, nose, place)
    ]
    return tuple(_planted(score, day) for score, day in found)


def _panel(rng: np.random.Generator) -> _Panel:
    offset = {
        nose: float(rng.normal(0.0, NOSE_SD)) if fixed is None else fixed
        for nose, fixed in NOSES.items()
    }
    taste = {
        (nose, oil, attribute): float(rng.normal(0.0, TASTE_SD))
        for nose in NOSES
        for oil in OILS
        for attributes in WALKS
        for attribute in attributes
    }
    return _Panel(offset=offset, taste=taste)


def _sitting(
    rng: np.random.Generator, panel: _Panel, evening: Evening, nose: str, place: int
) -> Iterator[tuple[Score, int]]:
    """One nose's walk round the three rooms: unlit before the candles are lit, then lit.

    Each nose begins in another room, so that no candle is always the first.
    """
    seats = evening.seats()
    walk = [seats[(place + step) % len(seats)] for step in range(len(seats))]
    mood = float(rng.normal(0.0, SITTING_SD))
    for attributes in WALKS:
        for step, (room, code) in enumerate(walk):
            minutes_lit = 75 + 25 * step + int(rng.integers(0, 15))
            clean_air_min = 30 if step == 0 else int(rng.integers(11, 21))
            for attribute in attributes:
                cure_days = (evening.date - BY_CODE[code].poured).days
                oil = BY_CODE[code].oil
                felt = _level(oil, attribute, nose=nose, room=room, cure_days=cure_days)
                felt += panel.offset[nose] + panel.taste[nose, oil, attribute] + mood
                felt += float(rng.normal(0.0, SNIFF_SD))
                unlit = attribute == "cold_throw"
                score = Score(
                    candle=code,
                    candidate=oil,
                    assessor=nose,
                    room=room,
                    sitting=f"{evening.day} May {nose}",
                    attribute=attribute,
                    score=int(np.clip(np.floor(felt + 0.5), LOWEST, HIGHEST)),
                    cure_days=cure_days,
                    minutes_lit=None if unlit else minutes_lit,
                    clean_air_min=clean_air_min,
                    burn_kind="unlit" if unlit else "nose",
                )
                yield score, evening.day


def _level(name: str, attribute: str, *, nose: str, room: str, cure_days: int) -> float:
    """What an average nose would feel, and what this one loves or hates."""
    oil = OILS[name]
    if attribute == "liking":
        return oil.liking + oil.loved_by.get(nose, 0.0)
    if attribute == "cold_throw":
        return oil.cold
    curing = cure_days < EARLY_DAYS and oil.early_hot is not None
    return ROOMS[room].hot + (oil.early_hot if curing and oil.early_hot is not None else oil.hot)


def _planted(score: Score, day: int) -> Score:
    """The few sniffs of which something is known beside the score."""
    where = (score.assessor, score.candle, day)
    unlit = score.attribute == "cold_throw"
    if unlit and where == HASTY:
        return replace(score, clean_air_min=HASTY_MIN)
    if unlit and where == CANNOT_TELL:
        return replace(score, score=None)
    if not unlit and where == RECOGNISED:
        return replace(score, recognised=True)
    if not unlit and where == TIRED:
        return replace(score, tired=True)
    return score
