"""Photos as pages show them: of one burn, and those that wait for their numbers."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from django.conf import settings
from django.db.models import F, Q, QuerySet
from django.utils.timezone import localtime

from throwbench.workshop.trials.models import Burn, Check, Photo
from throwbench.workshop.trials.photo_file import path_of
from throwbench.workshop.trials.selectors.broken import to_be_put_out
from throwbench.workshop.trials.selectors.burn_pages import Cell, cells_of
from throwbench.workshop.trials.times import local_day

A_MINUTE = timedelta(minutes=1)
AFTERWARDS = timedelta(hours=12)
"""So long after it is out a candle may still be photographed: its afterglow, its cold wax."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One photo with what was made of it. No oil: the code alone."""

    photo: Photo
    is_there: bool
    """Whether its file lies in the folder."""

    @property
    def words(self) -> str:
        """What it is, for who does not see it: 'K7F at 12:05, burn 8'."""
        burn = self.photo.burn
        return f"{burn.candle} at {localtime(self.photo.at):%H:%M}, burn {burn.number}"

    @property
    def is_afterwards(self) -> bool:
        """Taken once the candle was out: what it shows belongs to the burn."""
        out_at = self.photo.burn.out_at
        return out_at is not None and self.photo.at >= out_at + A_MINUTE

    @property
    def waits(self) -> bool:
        photo = self.photo
        return photo.read_as_id is None and photo.aside_at is None and not self.is_afterwards

    @property
    def noted(self) -> tuple[Cell, ...]:
        """What was read from it, without what was left blank."""
        check: Check | None = self.photo.read_as
        return () if check is None else tuple(c for c in cells_of(check) if not c.is_rest)


def file_of(photo: Photo) -> Path:
    """Where its picture lies."""
    return path_of(settings.FOLDER.photos, photo.digest)


def shown(photo: Photo) -> Shown:
    return Shown(photo=photo, is_there=file_of(photo).is_file())


def photos_of(burn: Burn) -> tuple[Shown, ...]:
    """The photos of one burn, in the order in which they were taken."""
    return _shown(_told(Photo.objects.filter(burn=burn)))


def may_be_added(burn: Burn, now: datetime) -> bool:
    """While it is lit, and for 12 h after."""
    return burn.out_at is None or now <= burn.out_at + AFTERWARDS


def unread() -> tuple[Shown, ...]:
    """Photos that wait for their numbers, the oldest first."""
    return _shown(_told(_waiting()))


def to_put_out(photo: Photo, now: datetime) -> bool:
    """Whether its candle is lit and something was seen of it over a limit."""
    burn = photo.burn
    return burn.out_at is None and bool(to_be_put_out([burn], local_day(now)))


def unread_count() -> int:
    return _waiting().count()


def _waiting() -> QuerySet[Photo]:
    lit = Q(burn__out_at=None) | Q(at__lt=F("burn__out_at") + A_MINUTE)
    return Photo.objects.filter(lit, read_as=None, aside_at=None)


def _told(found: QuerySet[Photo]) -> QuerySet[Photo]:
    return found.select_related(
        "burn__candle__combination__candidate__trial", "burn__room", "read_as", "who", "aside_by"
    )


def _shown(found: Iterable[Photo]) -> tuple[Shown, ...]:
    return tuple(map(shown, found))
