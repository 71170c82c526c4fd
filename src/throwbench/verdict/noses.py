"""How each assessor uses the scale: for the owner only, never on what leaves the workshop."""

from collections.abc import Mapping

import numpy as np

from throwbench.verdict.result import NoseNote
from throwbench.verdict.scent import Scent

NOTED = 0.5
"""Steps from which a habit is worth a word."""
SURE = 0.9


def nose_notes(scents: Mapping[str, Scent]) -> tuple[NoseNote, ...]:
    """Assessors who stand at least half a step above or below the others, and how sure that is.

    The shift is the mean over the attributes scored, each against the panel's own mean.
    """
    terms = [scent.posterior.terms["assessor"] for scent in scents.values()]
    names = dict.fromkeys(name for levels, _ in terms for name in levels)
    notes = []
    for name in names:
        shift = np.mean(
            [
                draws[:, levels.index(name)] - draws.mean(axis=1)
                for levels, draws in terms
                if name in levels
            ],
            axis=0,
        )
        end = "upper" if shift.mean() > 0 else "lower"
        chance = float(np.mean(np.sign(shift.mean()) * shift > 0.0))
        if abs(shift.mean()) >= NOTED and chance >= SURE:
            words = f"uses the {end} end of the scale; this is taken into account"
            notes.append(
                NoseNote(assessor=name, shift=float(shift.mean()), chance=chance, words=words)
            )
    return tuple(notes)
