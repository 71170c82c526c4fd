"""What wants a look before it matters: flawed vessels, changed lots, papers that run out."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from django.utils import timezone

from throwbench.documents.words import date_words
from throwbench.verdict.words import number
from throwbench.web.today.finding import Finding
from throwbench.web.today.lots import low_lots
from throwbench.workshop.shelf.models import Flaw, Lot, Paper, PaperKind, Piece
from throwbench.workshop.trials.models import Burn, TestCandle

LOOK_BACK = timedelta(days=14)
"""A flaw or a change of lot older than this is no news."""
LOOK_AHEAD = timedelta(days=30)
"""A paper that runs out within this time can still be asked for."""


def checks(*, now: datetime, today: date) -> tuple[Finding, ...]:
    """The heaviest first."""
    return (*_flaws(now), *_changed_wick_lots(today), *_papers(today), *low_lots())


def _flaws(now: datetime) -> Iterator[Finding]:
    found = Piece.objects.filter(flaw=Flaw.STRUCTURAL, flaw_seen_at__gt=now - LOOK_BACK)
    for piece in found.select_related("flaw_seen_by", "vessel").order_by("-flaw_seen_at"):
        what = piece.flaw_note or "chip, crack or other structural flaw"
        assert piece.flaw_seen_at is not None
        seen = timezone.localtime(piece.flaw_seen_at)
        by = f" by {piece.flaw_seen_by.name}" if piece.flaw_seen_by else ""
        yield Finding(
            mark="broken",
            what=f"{piece.name} ({piece.vessel.name}): {what}. It is barred from every burn.",
            why=f"Seen{by}, {seen:%A %H:%M}. A flawed vessel can crack when hot.",
        )


def _changed_wick_lots(today: date) -> Iterator[Finding]:
    """A new lot of a wick that candles on an older one still stand for."""
    new = Lot.objects.filter(
        wick__isnull=False, came_on__gt=today - LOOK_BACK, came_on__lte=today
    ).select_related("wick")
    for lot in new:
        burned = Burn.objects.filter(candle__wick_lot=lot).exists()
        old = TestCandle.objects.filter(
            wick_lot__wick=lot.wick, wick_lot__came_on__lt=lot.came_on, ended_at=None
        ).count()
        if old and not burned:
            yield _wick_finding(lot, old)


def _wick_finding(lot: Lot, old: int) -> Finding:
    assert lot.came_on is not None
    stand = "candle stands" if old == 1 else "candles stand"
    return Finding(
        mark="late",
        what=f"The lot of wick {lot.wick} changed on {date_words(lot.came_on)}.",
        why=(
            f"{number(old).capitalize()} {stand} on an older lot. "
            "Burn one on the new lot before you pour the line."
        ),
    )


def _papers(today: date) -> Iterator[Finding]:
    """The newest version of each paper that has run out or soon will."""
    newest: dict[tuple[int, str], Paper] = {}
    asked: dict[tuple[int, str], date] = {}
    for paper in Paper.objects.select_related("oil__supplier").order_by("dated", "asked_on"):
        key = paper.oil_id, paper.kind
        if paper.dated is not None:
            newest[key] = paper
        elif paper.asked_on is not None:
            asked[key] = paper.asked_on
    for key, paper in newest.items():
        if paper.valid_until is not None and paper.valid_until < today + LOOK_AHEAD:
            yield _paper_finding(paper, paper.valid_until, today, asked_on=asked.get(key))


def _paper_finding(paper: Paper, until: date, today: date, *, asked_on: date | None) -> Finding:
    is_over = until < today
    name = PaperKind(paper.kind).label.lower()
    sender = paper.oil.supplier.name if paper.oil.supplier else "its supplier"
    asked = f" Asked for on {date_words(asked_on)}." if asked_on else ""
    return Finding(
        mark="paper",
        what=(
            f"{paper.oil.name}: the {name} {'ran' if is_over else 'runs'} out on "
            f"{date_words(until)}."
        ),
        why=(
            f"You can burn and sniff it. Sell none {'before' if is_over else 'after that until'} "
            f"{sender} has sent a new one.{asked}"
        ),
    )
