"""What the shelf and the maker's notes say beside a verdict: papers, vanillin, browning.

Nothing of it is judged, and nothing of it is in the kept verdict: it is what stands there today.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from django.db.models import Q

from throwbench.documents.nameless import nameless
from throwbench.verdict.burns_well import NOTHING
from throwbench.verdict.result import CandidateVerdict, Verdict
from throwbench.verdict.words import listed
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.shelf.selectors.papers import papers_of, papers_said
from throwbench.workshop.shelf.selectors.words import is_to_brown, vanillin_said
from throwbench.workshop.trials.models import Burn, Pour, Trial

TELLS = ("brown", "discolo")
"""Beginnings of the words by which a note is found; it is quoted whole and not judged."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Noted:
    """A note of the maker's: the candle, where in its life, and the words."""

    code: str
    where: str
    words: str

    def sentence(self) -> str:
        return f"Your note on {self.code}, {self.where}: “{self.words}”."


def with_the_shelf(
    verdict: Verdict, trial: Trial, *, today: date, hide: frozenset[str] = frozenset()
) -> Verdict:
    """The verdict for a reader, with what the shelf says today and what the maker noted.

    hide : names of assessors that a quoted note must not carry
    """
    oils, notes = _oils(trial), _browning(trial)
    names = [one.candidate for one in verdict.candidates]
    quoted = {
        oil: [replace(one, words=nameless(one.words, hide, oils=names)) for one in its]
        for oil, its in notes.items()
    }
    return replace(
        verdict,
        holds=(*_papers(verdict, oils, today), *verdict.holds),
        candidates=tuple(
            _beside(one, oils.get(one.candidate), quoted.get(one.candidate, ()))
            for one in verdict.candidates
        ),
    )


def _oils(trial: Trial) -> dict[str, Oil]:
    members = trial.candidates.select_related("oil").prefetch_related("oil__papers")
    return {str(member): member.oil for member in members}


def _papers(verdict: Verdict, oils: Mapping[str, Oil], today: date) -> Iterator[str]:
    """What there is to choose by, of each oil that is to be chosen by its papers."""
    for one in verdict.candidates:
        oil = oils.get(one.candidate)
        if one.equally_good and oil is not None:
            yield f"{one.candidate}: {papers_said(papers_of(oil, today=today))}."


def _beside(one: CandidateVerdict, oil: Oil | None, notes: Sequence[Noted]) -> CandidateVerdict:
    vanillin = None if oil is None else oil.vanillin_percent
    said = [each.sentence() for each in notes]
    if oil is not None and (notes or one.equally_good or is_to_brown(vanillin)):
        said.append(f"On the shelf: {vanillin_said(vanillin)}.")
    codes = list(dict.fromkeys(each.code for each in notes))
    well = one.burns_well
    if codes:
        noted = f"browning in your notes on {listed(codes)}"
        well = (*(words for words in well if words != NOTHING), noted)
    return replace(one, reasons=(*one.reasons, *said), burns_well=well)


def _browning(trial: Trial) -> Mapping[str, list[Noted]]:
    """By oil, the notes of burns and of pours that speak of browning, in the order of time."""
    found: dict[str, list[Noted]] = defaultdict(list)
    of_trial = "candle__combination__candidate"
    burns = Burn.objects.filter(_tells(), **{f"{of_trial}__trial": trial})
    for burn in burns.select_related("candle", f"{of_trial}__oil").order_by("lit_at", "pk"):
        oil = str(burn.candle.combination.candidate)
        noted = Noted(code=burn.candle.code, where=f"burn {burn.number}", words=burn.note)
        found[oil].append(noted)
    pours = Pour.objects.filter(_tells(), candidate__trial=trial).exclude(poured_at=None)
    for pour in pours.select_related("candidate__oil").prefetch_related("candles"):
        codes = listed([candle.code for candle in pour.candles.all()])
        found[str(pour.candidate)].append(Noted(code=codes, where="its pour", words=pour.note))
    return found


def _tells() -> Q:
    asked = Q()
    for beginning in TELLS:
        asked |= Q(note__icontains=beginning)
    return asked
