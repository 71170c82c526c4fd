"""What leaves the workshop carries no name of an assessor."""

import re
from collections.abc import Iterable

from throwbench.verdict.result import NoseNote, Verdict
from throwbench.verdict.words import number


def nameless(text: str, names: Iterable[str], *, oils: Iterable[str] = ()) -> str:
    """Return `text` with each assessor's name, as a whole word, put as 'one assessor'.

    Notes
    -----
    For sentences that quote a file; the program's own sentences hold no name. The name of an oil
    stays whole. A number or a single letter in place of a name is a code, and tells nobody.
    """
    struck = {name for name in names if len(name.strip()) > 1 and not name.strip().isdecimal()}
    known = sorted(struck | set(oils), key=len, reverse=True)
    if not struck:
        return text
    pattern = "|".join(re.escape(name) for name in known)

    def put(found: re.Match[str]) -> str:
        return "one assessor" if found[0] in struck else found[0]

    return re.sub(rf"(?<!\w)(?:{pattern})(?!\w)", put, text)


def quotes_a_file(sentence: str) -> bool:
    """Whether one of the sentences that bind a pick names a row that was not used."""
    return sentence.startswith("Not used: ")


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
