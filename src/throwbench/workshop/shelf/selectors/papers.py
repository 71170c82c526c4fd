"""Suppliers' papers, and how long they hold."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Exists, OuterRef, Q, QuerySet

from throwbench.verdict.words import listed
from throwbench.workshop.shelf.models import Oil, Paper, PaperKind
from throwbench.workshop.shelf.selectors.words import with_year

SOON = timedelta(days=30)


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperShown:
    """The newest paper of a kind; the state is a word that has a shape of its own."""

    kind: str
    version: str = ""
    dated: date | None = None
    state: str
    words: str
    asked: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperEnding:
    """A paper that ran out, or soon does."""

    oil: Oil
    kind: str
    valid_until: date
    has_run_out: bool

    def sentence(self) -> str:
        verb = "ran out on" if self.has_run_out else "runs out on"
        return f"The {self.kind} of {self.oil} {verb} {with_year(self.valid_until)}."


def papers_of(oil: Oil, *, today: date) -> tuple[PaperShown, ...]:
    """One row per kind of paper; a kind of which nothing is known has one too."""
    rows = list(oil.papers.all())
    return tuple(
        _shown(kind, [row for row in rows if row.kind == kind], today) for kind in PaperKind
    )


def papers_said(papers: Sequence[PaperShown]) -> str:
    """What wants a hand first: run out, then missing, then that all are in date."""
    out = [f"its {row.kind.lower()} {row.words}" for row in papers if row.state == "late"]
    missing = [row.kind.lower() for row in papers if row.state == "not yet known"]
    if len(missing) == len(papers):
        return "none of its papers is here yet"
    if missing:
        is_ = "is" if len(missing) == 1 else "are"
        out.append(f"its {listed(missing)} {is_} not yet known")
    return "; ".join(out) or "its papers are in date"


def older_papers(oil: Oil) -> list[Paper]:
    """Dated papers that a newer one of their kind took the place of."""
    dated = [row for row in oil.papers.all() if row.dated]
    newest = _newest(dated)
    return [row for row in dated if row not in newest]


def papers_running_out(today: date, *, within: timedelta = SOON) -> tuple[PaperEnding, ...]:
    """The newest papers that ran out or do so soon, the longest overdue first."""
    ending = [
        PaperEnding(oil=row.oil, kind=row.kind, valid_until=end, has_run_out=end < today)
        for row in _without_a_newer_one().filter(valid_until__lte=today + within)
        if (end := row.valid_until) is not None
    ]
    return tuple(sorted(ending, key=lambda row: (row.valid_until, row.oil.name)))


def _without_a_newer_one() -> QuerySet[Paper]:
    newer = Paper.objects.filter(oil=OuterRef("oil"), kind=OuterRef("kind")).filter(
        Q(dated__gt=OuterRef("dated")) | Q(dated=OuterRef("dated"), pk__gt=OuterRef("pk"))
    )
    return Paper.objects.filter(~Exists(newer), dated__isnull=False).select_related("oil__supplier")


def _newest(dated: Iterable[Paper]) -> list[Paper]:
    newest: dict[tuple[int, str], Paper] = {}
    for row in sorted(dated, key=lambda row: (row.dated or date.min, row.pk)):
        newest[row.oil_id, row.kind] = row
    return list(newest.values())


def _shown(kind: PaperKind, rows: list[Paper], today: date) -> PaperShown:
    asked = next((f"asked for on {with_year(row.asked_on)}" for row in rows if not row.dated), "")
    paper = next(iter(_newest(row for row in rows if row.dated)), None)
    if paper is None:
        return PaperShown(
            kind=kind.label, state="not yet known", words="not yet known", asked=asked
        )
    state, words = _held(paper.valid_until, today)
    return PaperShown(
        kind=kind.label,
        version=paper.version,
        dated=paper.dated,
        state=state,
        words=words,
        asked=asked,
    )


def _held(valid_until: date | None, today: date) -> tuple[str, str]:
    if valid_until is None:
        return "in date", "in date, no end named"
    if valid_until < today:
        return "late", f"ran out on {with_year(valid_until)}"
    return "in date", f"in date until {with_year(valid_until)}"
