"""Times in which this machine did not watch, and what was due in them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Q
from django.utils import timezone

from throwbench.documents.words import day_words
from throwbench.verdict.words import listed
from throwbench.workshop.house.models import Timer, Unwatched
from throwbench.workshop.trials.models import Burn

SHOWN_FOR = timedelta(hours=12)
"""So long after a missed candle was out, it is still said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Due:
    at: datetime
    name: str
    was: str
    ended: datetime | None

    def lay_in(self, gap: Unwatched) -> bool:
        """Whether it came due in that time and was still open."""
        in_it = gap.from_at < self.at <= gap.to_at
        return in_it and (self.ended is None or self.ended > self.at)

    def is_told(self, now: datetime) -> bool:
        return self.ended is None or now - self.ended < SHOWN_FOR


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """What to say of the times without a watch."""

    sentences: tuple[str, ...]
    """Something was due in that time."""
    quiet: tuple[str, ...]
    """Nothing was due in that time; of the last hours."""


def missed(now: datetime) -> Missed:
    """All that is still told; the latest time first."""
    dues = _dues(now)
    oldest = min((one.at for one in dues), default=now)
    told = Unwatched.objects.filter(to_at__gte=min(oldest, now - SHOWN_FOR), from_at__lt=now)
    sentences, quiet = [], []
    for gap in told.order_by("-from_at"):
        found = [one for one in dues if one.lay_in(gap)]
        if found:
            sentences.append(f"Alarm missed {_span(gap, now)}: {_were(found, now)}.")
        elif now - gap.to_at < SHOWN_FOR:
            quiet.append(f"Nobody watched {_span(gap, now)}.")
    return Missed(sentences=tuple(sentences), quiet=tuple(quiet))


def _dues(now: datetime) -> tuple[_Due, ...]:
    """What was due and is not done, or was done lately."""
    lately = now - SHOWN_FOR
    burns = Burn.objects.filter(Q(out_at=None) | Q(out_at__gt=lately), out_by_at__lte=now)
    timers = Timer.objects.filter(Q(done_at=None) | Q(done_at__gt=lately), due_at__lte=now)
    found = [
        *(
            _Due(at=burn.out_by_at, name=burn.candle.code, was="out", ended=burn.out_at)
            for burn in burns.select_related("candle")
        ),
        *(
            _Due(at=timer.due_at, name=f"“{timer.what}”", was="done", ended=timer.done_at)
            for timer in timers
        ),
    ]
    return tuple(
        one for one in sorted(found, key=lambda one: (one.at, one.name)) if one.is_told(now)
    )


def _span(gap: Unwatched, now: datetime) -> str:
    """'from 12:50 to 13:22', with the day where it is another one."""
    return f"from {_time(gap.from_at, now)} to {_time(gap.to_at, now)}"


def _were(found: Iterable[_Due], now: datetime) -> str:
    """'K2F and W8R were to be out by 13:05; “stir” was to be done by 13:10'."""
    groups: dict[tuple[datetime, str], list[str]] = {}
    for one in found:
        groups.setdefault((one.at, one.was), []).append(one.name)
    return "; ".join(
        f"{listed(names)} {'was' if len(names) == 1 else 'were'} to be {was} by {_time(at, now)}"
        for (at, was), names in groups.items()
    )


def _time(moment: datetime, now: datetime) -> str:
    local = timezone.localtime(moment)
    same_day = local.date() == timezone.localdate(now)
    return f"{local:%H:%M}" if same_day else f"{day_words(local.date())}, {local:%H:%M}"
