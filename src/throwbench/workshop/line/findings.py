"""How sure a verdict is, finding by finding: what rules out little, what stands out, what was put
right."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet

from throwbench.documents import sheets
from throwbench.documents.nameless import nameless, scale_use
from throwbench.verdict.result import Verdict
from throwbench.verdict.words import in_100
from throwbench.workshop.house.corrections import corrections_of, said_of
from throwbench.workshop.house.models import Correction, Person, Role
from throwbench.workshop.trials.models import Burn, Check, Swap, Trial

_ASKED = "Asked about in the notes."


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A statement in one line, and its because in a second; several of a kind have `more`."""

    mark: str
    what: str
    why: str
    more: tuple[str, ...] = ()


def findings_of(
    verdict: Verdict, trial: Trial, *, reader: Person, assessors: Sequence[str]
) -> tuple[Finding, ...]:
    """What tells how far the verdict can be trusted. Only the owner reads who sniffed how."""
    return (
        _none_broken(),
        *_scores(verdict),
        *_knew(trial),
        *_noses(verdict, reader),
        *_problems(verdict, reader, assessors),
        *_put_right(trial),
    )


def noses_of(trial: Trial) -> frozenset[str]:
    """Who was asked to sniff in a trial: names that only the owner reads."""
    sat = Person.objects.filter(sittings__panel__trial=trial)
    return frozenset(sat.values_list("name", flat=True))


def _none_broken() -> Finding:
    why = sheets.none_broken().partition(". ")[2]
    return Finding(mark="eye", what="“None broken” rules out gross faults only.", why=why)


def _scores(verdict: Verdict) -> Iterator[Finding]:
    first, *others = verdict.reasons
    yield Finding(mark="sniff", what=first, why=" ".join(others))


def _knew(trial: Trial) -> Iterator[Finding]:
    """Whoever makes the candles reads which is which, unless the trial is sealed."""
    makers = Person.objects.filter(role__in=(Role.OWNER, Role.HELPER))
    if (
        not trial.sealed
        and makers.filter(sittings__panel__trial=trial, sittings__sniffs__isnull=False).exists()
    ):
        yield Finding(
            mark="eye",
            what="A nose could know the names.",
            why=(
                "The trial is not sealed, and somebody who makes the candles sniffed. "
                "Seal the next trial, or let others sniff."
            ),
        )


def _noses(verdict: Verdict, reader: Person) -> Iterator[Finding]:
    if reader.role == Role.OWNER:
        for note in verdict.noses:
            direction = "higher" if note.shift > 0 else "lower"
            yield Finding(
                mark="sniff",
                what=f"{note.assessor} {note.words}.",
                why=(
                    f"About {abs(note.shift):.1f} step {direction} than the others on all oils, "
                    f"{in_100(note.chance)}. Only the owner reads this."
                ),
            )
        return
    for said in scale_use(verdict.noses):
        yield Finding(mark="sniff", what=said, why="")


def _problems(verdict: Verdict, reader: Person, names: Sequence[str]) -> Iterator[Finding]:
    oils = [one.candidate for one in verdict.candidates]
    told = [
        said if reader.role == Role.OWNER else nameless(said, names, oils=oils)
        for said in verdict.problems
    ]
    if told:
        yield Finding(mark="bell", what=_ASKED, why=told[0], more=tuple(told[1:]))


def _put_right(trial: Trial) -> Iterator[Finding]:
    """Swapped tags and slips of the pen; what was first written stays visible."""
    swaps = Swap.objects.filter(first__combination__candidate__trial=trial)
    for swap in swaps.select_related("first", "second"):
        yield Finding(
            mark="again",
            what=f"The tags of {swap.first} and {swap.second} were swapped, and put right.",
            why=f"On {swap.at:%-d %B}. {_sentence(swap.why)} Both entries are kept.",
        )
    yield from _slips(
        Check.objects.filter(burn__candle__combination__candidate__trial=trial).select_related(
            "burn__candle"
        ),
        where=lambda row: str(row.burn),
    )
    yield from _slips(
        Burn.objects.filter(candle__combination__candidate__trial=trial).select_related("candle"),
        where=str,
    )


def _slips(rows: QuerySet[Any], *, where: Callable[[Any], str]) -> Iterator[Finding]:
    """Only rows that were put right are fetched."""
    table = rows.model._meta.label_lower
    put_right = Correction.objects.filter(table=table).values("row")
    found = {row.pk: row for row in rows.filter(pk__in=put_right)}
    for made in corrections_of(found.values()):
        yield _slip(made, where(found[made.row]))


def _slip(made: Correction, where: str) -> Finding:
    said = said_of(made)
    return Finding(
        mark="again",
        what=f"Put right: {said.name} was {said.was}, it is {said.became}.",
        why=f"{where}. {_sentence(made.why)} The first entry is kept.",
    )


def _sentence(words: str) -> str:
    text = words.strip().rstrip(".")
    return f"{text[:1].upper()}{text[1:]}."
