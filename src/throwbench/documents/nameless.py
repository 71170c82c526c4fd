"""What leaves the workshop carries no name of an assessor."""

import re
from collections import Counter
from collections.abc import Iterable

from throwbench.documents.words import number
from throwbench.verdict.result import NoseNote, Verdict


def nameless(text: str, names: Iterable[str]) -> str:
    """Return `text` with each assessor's name, as a whole word, put as 'one assessor'."""
    known = sorted({name for name in names if name.strip()}, key=len, reverse=True)
    if not known:
        return text
    pattern = "|".join(re.escape(name) for name in known)
    return re.sub(rf"(?<!\w)(?:{pattern})(?!\w)", "one assessor", text)


def assessors(verdict: Verdict, others: Iterable[str] = ()) -> frozenset[str]:
    """Return the names that a document of this verdict must not carry."""
    return frozenset(note.assessor for note in verdict.noses) | frozenset(others)


def scale_use(notes: Iterable[NoseNote]) -> tuple[str, ...]:
    """Say how the scale is used, without saying by whom."""
    counted = Counter(_shift_words(note.shift) for note in notes)
    return tuple(
        f"{number(count).capitalize()} {'assessor scores' if count == 1 else 'assessors score'} "
        f"{shift} on all oils; this is taken into account."
        for shift, count in counted.items()
    )


def _shift_words(shift: float) -> str:
    direction = "higher" if shift > 0 else "lower"
    halves = max(1, round(abs(shift) * 2))
    if halves == 1:
        return f"about half a step {direction}"
    if halves == 2:
        return f"about one step {direction}"
    return f"about {halves / 2:g} steps {direction}"
