"""Scores, and what is believed after them, for tests: small enough to work out by hand."""

from types import SimpleNamespace

import numpy as np

from throwbench.records import Score
from throwbench.verdict.result import AttributeResult, CandidateVerdict, Interval


def score(step, candidate="Slate", *, assessor="Odd", attribute="liking", **changes):
    """One score of one nose; the test candle is called after its oil."""
    facts = {"candle": candidate, "room": "loft", "sitting": "May 9"}
    return Score(
        candidate=candidate,
        assessor=assessor,
        attribute=attribute,
        score=step,
        **(facts | changes),
    )


def scores(given, **changes):
    """`{oil: "445 344"}`: one word per nose, one digit per sniff."""
    noses = ("Odd", "Pernille", "Isak", "Maren", "Tor", "Åse")
    return [
        score(int(step), oil, assessor=nose, sitting=f"{nose} {sniff}", **changes)
        for oil, words in given.items()
        for nose, word in zip(noses, words.split(), strict=False)
        for sniff, step in enumerate(word)
    ]


def believed(expected, *, attribute="liking", candidates=None, rooms=None, noses=None):
    """A scent whose draws are written by hand: one row per draw, one column per candidate.

    rooms : what is added to the expected score in a room. noses : assessor to draws.
    """
    draws = np.array(expected, dtype=float)
    names = tuple("ABCDEFGH"[: draws.shape[1]]) if candidates is None else candidates
    effects = np.array(list((noses or {}).values()), dtype=float).T
    return SimpleNamespace(
        attribute=attribute,
        expected=lambda room=None: draws + (rooms or {}).get(room, 0.0),
        posterior=SimpleNamespace(
            candidates=names, terms={"assessor": (tuple(noses or {}), effects)}, spreads={}
        ),
        own_taste=True,
    )


def heard(expected, *, attribute="liking", counted=(3,), not_counted=()):
    """A result on one attribute."""
    around = Interval(expected - 1, expected + 1)
    return AttributeResult(
        attribute=attribute,
        expected=expected,
        middle=expected,
        eight_in_ten=around,
        nine_in_ten=around,
        nineteen_in_twenty=around,
        chance_in_band=None,
        counted=counted,
        not_counted=not_counted,
    )


def oil(name, place="in the pick", *, belongs=0.95, **changes):
    """A candidate of a verdict; without a chance to belong it is not ranked."""
    facts = {
        "supplier": None,
        "group": None,
        "limits": (),
        "burns_well": ("nothing noted",),
        "scent": (),
        "worth": None if belongs is None else 3.0,
        "chance_to_belong": belongs,
        "chance_best": belongs,
        "placed": belongs is not None and not 0.1 < belongs < 0.9,
        "swap_cost": None,
        "equally_good": False,
        "split": None,
        "reasons": (),
        "not_ranked_because": "no score counts" if place == "not ranked" else None,
    }
    return CandidateVerdict(candidate=name, place=place, **(facts | changes))
