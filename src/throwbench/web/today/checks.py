"""What wants a look before it matters: flawed vessels, changed lots, papers that run out."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from django.utils import timezone

from throwbench.documents.words import date_words, day_words
from throwbench.verdict.words import number
from throwbench.web.today.finding import Finding
from throwbench.web.today.lots import low_lots
from throwbench.workshop.shelf.models import Paper, Wick
from throwbench.workshop.shelf.selectors.lots import changed_lots
from throwbench.workshop.shelf.selectors.papers import PaperEnding, papers_running_out
from throwbench.workshop.shelf.selectors.vessels import structural_flaws
from throwbench.workshop.trials.models import Burn, TestCandle

LOOK_BACK = timedelta(days=28)
"""A flaw or a change of lot older than this is no news."""


def checks(*, now: datetime, today: date) -> tuple[Finding, ...]:
    """The heaviest first."""
    return (*_flaws(now), *_changed_wick_lots(today), *_papers(today), *low_lots())


def _flaws(now: datetime) -> Iterator[Finding]:
    for piece in structural_flaws().filter(flaw_seen_at__gt=now - LOOK_BACK):
        what = piece.flaw_note or "chip, crack or other structural flaw"
        assert piece.flaw_seen_at is not None
        seen = timezone.localtime(piece.flaw_seen_at)
        by = f" by {piece.flaw_seen_by.name}" if piece.flaw_seen_by else ""
        yield Finding(
            mark="broken",
            what=f"{piece.name} ({piece.vessel.name}): {what}. It is barred from every burn.",
            why=(
                f"Seen{by} on {day_words(seen.date())} at {seen:%H:%M}. "
                "A flawed vessel can crack when hot."
            ),
        )


def _changed_wick_lots(today: date) -> Iterator[Finding]:
    """A new lot of a wick that candles on an older one still stand for."""
    for change in changed_lots(today - LOOK_BACK):
        if isinstance(change.material, Wick) and change.came_on <= today:
            burned = Burn.objects.filter(candle__wick_lot=change.lot).exists()
            old = _on_older_lots(change.material, change.came_on)
            if old and not burned:
                yield Finding(mark="late", what=change.sentence(), why=_stand(old))


def _on_older_lots(wick: Wick, came_on: date) -> int:
    return TestCandle.objects.filter(
        wick_lot__wick=wick, wick_lot__came_on__lt=came_on, ended_at=None
    ).count()


def _stand(old: int) -> str:
    stand = "candle stands" if old == 1 else "candles stand"
    return (
        f"{number(old).capitalize()} {stand} on an older lot. "
        "Burn one on the new lot before you pour the line."
    )


def _papers(today: date) -> Iterator[Finding]:
    """The newest version of each paper that has run out or soon will."""
    ending = papers_running_out(today)
    asked = Paper.objects.filter(dated=None, oil__in=[one.oil for one in ending])
    asked_on = {(paper.oil_id, paper.kind): paper.asked_on for paper in asked.order_by("asked_on")}
    for one in ending:
        day = asked_on.get((one.oil.pk, one.kind))
        yield Finding(mark="paper", what=one.sentence(), why=_until_a_new_one(one, day))


def _until_a_new_one(one: PaperEnding, asked_on: date | None) -> str:
    sender = one.oil.supplier.name if one.oil.supplier else "its supplier"
    when = "before" if one.has_run_out else "after that until"
    asked = f" Asked for on {date_words(asked_on)}." if asked_on else ""
    return f"You can burn and sniff it. Sell none {when} {sender} has sent a new one.{asked}"
