"""The shelf as a whole: one sentence, and its oils in a list."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet
from django.db.models.functions import Lower

from throwbench.verdict.words import number
from throwbench.workshop.shelf.models import Oil, Paper, Supplier, Wick
from throwbench.workshop.shelf.selectors.lots import changed_lots
from throwbench.workshop.shelf.selectors.papers import PaperEnding, papers_running_out
from throwbench.workshop.shelf.selectors.vessels import never_lit_sentence, structural_flaws
from throwbench.workshop.shelf.selectors.words import with_year

MOST = 3
"""So many sentences of a kind; a longer list is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OilRow:
    """An oil in the list, with the paper that wants a hand."""

    oil: Oil
    state: str
    papers: str


def oils() -> QuerySet[Oil]:
    """All oils that are no blends."""
    return Oil.objects.filter(blend__isnull=True).select_related("supplier").order_by(Lower("name"))


def oil_rows(today: date, of: Iterable[Oil] | None = None) -> tuple[OilRow, ...]:
    """Oils, all where none are named, each with the state of its papers."""
    ending = {row.oil.pk: row for row in reversed(papers_running_out(today))}
    dated = Paper.objects.filter(dated__isnull=False).values_list("oil_id", flat=True)
    has_papers = set(dated.distinct())
    return tuple(
        _row(oil, ending.get(oil.pk), has_papers=oil.pk in has_papers)
        for oil in (oils() if of is None else of)
    )


def _row(oil: Oil, ending: PaperEnding | None, *, has_papers: bool) -> OilRow:
    if ending is None:
        state = "in date" if has_papers else "not yet known"
        return OilRow(oil=oil, state=state, papers=state if has_papers else "no papers")
    if ending.has_run_out:
        return OilRow(oil=oil, state="late", papers=f"ran out on {with_year(ending.valid_until)}")
    until = with_year(ending.valid_until)
    return OilRow(oil=oil, state="in date", papers=f"in date until {until}")


def wicks() -> QuerySet[Wick]:
    return Wick.objects.select_related("supplier")


def news(today: date, *, since: date) -> list[str]:
    """What changed lately or wants a hand: papers, lots, vessels that are never lit."""
    return [
        *_first([row.sentence() for row in papers_running_out(today)], "papers ran out or soon do"),
        *_first([row.sentence() for row in changed_lots(since)], "lots changed"),
        *_first(
            [never_lit_sentence(piece) for piece in structural_flaws()], "vessels are never lit"
        ),
    ]


def _first(sentences: list[str], rest: str) -> list[str]:
    """The first few, and how many more there are."""
    left = len(sentences) - MOST
    return sentences if left <= 1 else [*sentences[:MOST], f"{left} more {rest}."]


def overview(today: date) -> str:
    """'Nine oils from four suppliers; one certificate is out of date.'"""
    count = oils().count()
    if not count:
        return "The shelf is empty: it begins with one line per oil."
    suppliers = Supplier.objects.filter(oil__blend__isnull=True, oil__isnull=False).distinct()
    from_whom = _from(suppliers.count())
    sentence = f"{_counted(count, 'oil')}{from_whom}; {_papers_words(today)}."
    return sentence[0].upper() + sentence[1:]


def _from(suppliers: int) -> str:
    return f" from {_counted(suppliers, 'supplier')}" if suppliers else ""


def _papers_words(today: date) -> str:
    out = [row.kind for row in papers_running_out(today) if row.has_run_out]
    if not out:
        has_any = Paper.objects.filter(dated__isnull=False).exists()
        return "no paper is out of date" if has_any else "no papers are noted yet"
    what = out[0].rsplit(" ", 1)[-1] if len(set(out)) == 1 else "paper"
    return f"{_counted(len(out), what)} {'is' if len(out) == 1 else 'are'} out of date"


def _counted(count: int, one: str) -> str:
    return f"{number(count)} {one}{'' if count == 1 else 's'}"
