"""Why each oil stands where it stands, with single scores where an average would hide them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from throwbench.documents import sheets
from throwbench.verdict.result import CandidateVerdict, Verdict
from throwbench.workshop.line.drawings import rugs_of
from throwbench.workshop.line.models import Judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class Rug:
    """Single scores, drawn and in words."""

    words: str
    scores: tuple[int, ...]
    svg: str = ""

    @property
    def said(self) -> str:
        return f"{self.words}: {', '.join(map(str, self.scores))}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Because:
    oil: str
    anchor: str
    sentences: tuple[str, ...]
    rugs: tuple[Rug, ...]


def because(judgement: Judgement, verdict: Verdict) -> tuple[Because, ...]:
    """One for each oil of which something stands out."""
    told = [(index, one) for index, one in enumerate(verdict.candidates) if sheets.stands_out(one)]
    rugs = {one.candidate: tuple(_rugs(one)) for _, one in told}
    runs = [rug.scores for its in rugs.values() for rug in its]
    drawn = iter(rugs_of(judgement, runs) if runs else ())
    return tuple(
        Because(
            oil=one.candidate,
            anchor=f"why-{index}",
            sentences=sheets.stands_out(one),
            rugs=tuple(replace(rug, svg=next(drawn)) for rug in rugs[one.candidate]),
        )
        for index, one in told
    )


def _rugs(one: CandidateVerdict) -> Iterator[Rug]:
    """Of opinions that split, and of a scent that rises with its cure."""
    liking, hot = one.of("liking"), one.of("hot_throw")
    if one.split and liking:
        yield Rug(words="liking", scores=liking.counted)
    if hot and hot.not_counted and any("before its cure" in said for said in one.reasons):
        yield Rug(words="hot throw, not counted", scores=hot.not_counted)
        yield Rug(words="hot throw, counted", scores=hot.counted)
