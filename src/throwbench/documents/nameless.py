"""What leaves the workshop carries no name of an assessor."""

import re
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
    shifts = [note.shift for note in notes]
    if not shifts:
        return ()
    up, down = sum(shift > 0 for shift in shifts), sum(shift <= 0 for shift in shifts)
    most = _steps(max(map(abs, shifts)))
    who = " and ".join(
        f"{number(count)} {direction}"
        for count, direction in ((up, "higher"), (down, "lower"))
        if count
    )
    if len(shifts) == 1:
        said = f"One assessor scores about {most} {who.removeprefix('one ')} on all oils"
    else:
        said = f"Assessors use the scale apart ({who}, by about {most} at most)"
    return (f"{said}; this is taken into account.",)


def _steps(size: float) -> str:
    halves = max(1, round(size * 2))
    return {1: "half a step", 2: "one step"}.get(halves, f"{halves / 2:g} steps")
