"""Photos of a lit candle: kept now, read tonight, or put aside."""

import hashlib
from datetime import datetime
from typing import Any
from uuid import UUID

from django.conf import settings
from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person
from throwbench.workshop.trials.lighting import AHEAD
from throwbench.workshop.trials.models import Burn, Check, Photo
from throwbench.workshop.trials.photo_file import keep_file, reencoded
from throwbench.workshop.trials.selectors.photos import A_MINUTE, may_be_added
from throwbench.workshop.trials.services.burn import check, fresh, given, to_the_minute
from throwbench.workshop.trials.sights import LOOKS
from throwbench.workshop.trials.times import clock


def keep_photo(
    burn: Burn,
    *,
    picture: bytes,
    at: datetime,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Photo:
    """A photo of this burn, taken at a time: while it is lit, or up to 12 h after.

    The file is on the disk before the row is: what ends in between leaves a file that no row
    names, never a row without its file. The same picture of the same burn is kept once.

    Raises
    ------
    UnclearError
        It is no picture that is read here, the time is not within the burn or soon after, or the
        disk does not take it.
    """
    _is_of(fresh(burn), at, now=now)
    kept = reencoded(picture)
    keep_file(kept, folder=settings.FOLDER.photos)
    with transaction.atomic():
        content = {"burn": burn.pk, "picture": hashlib.sha256(picture).hexdigest()}
        if seen_before(entry, what="photo", content=content, who=who, now=now):
            return burn.photos.order_by("-pk")[0]
        _is_of(fresh(burn), at, now=now)
        known = burn.photos.filter(digest=kept.digest).first()
        if known is not None:
            return known
        photo = Photo(
            burn=burn, at=at, who=who, digest=kept.digest, width=kept.width, height=kept.height
        )
        photo.full_clean()
        photo.save()
        return photo


@transaction.atomic
def read_photo(
    photo: Photo,
    *,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
    **seen: Any,
) -> Check:
    """What a photo shows becomes a check at its time. Only what is told is noted.

    Parameters
    ----------
    seen : some of `sights.LOOKS`

    Raises
    ------
    UnclearError
        It was read already, was taken once the candle was out, nothing is told, or a figure is
        not possible.
    QuestionsError
        A figure is unusual and `sure` is not said.
    """
    content = {"photo": photo.pk, **seen}
    if seen_before(entry, what="read a photo", content=content, who=who, now=now):
        return _read(photo)
    photo = _as_it_is(photo)
    _can_be_read(photo)
    _says_something(photo, seen)
    photo.read_as = check(photo.burn, at=_minute_of(photo), sure=sure, who=who, now=now, **seen)
    photo.full_clean()
    photo.save(update_fields=["read_as"])
    return photo.read_as


@transaction.atomic
def put_photo_aside(
    photo: Photo, *, who: Person, now: datetime, entry: UUID | None = None
) -> Photo:
    """Nothing can be read from it: it waits no more, and stays where it is.

    Raises
    ------
    UnclearError
        It was read already.
    """
    if seen_before(entry, what="photo aside", content={"photo": photo.pk}, who=who, now=now):
        return _as_it_is(photo)
    photo = _as_it_is(photo)
    if photo.read_as is not None:
        raise _was_read(photo)
    photo.aside_at, photo.aside_by = now, who
    photo.full_clean()
    photo.save(update_fields=["aside_at", "aside_by"])
    return photo


def _as_it_is(photo: Photo) -> Photo:
    return Photo.objects.select_related("burn__candle", "read_as").get(pk=photo.pk)


def _read(photo: Photo) -> Check:
    found = _as_it_is(photo).read_as
    assert found is not None
    return found


def _minute_of(photo: Photo) -> datetime:
    """The minute of the check: of the photo, but no earlier than a check can be."""
    return max(to_the_minute(photo.at), photo.burn.lit_at + A_MINUTE)


def _says_something(photo: Photo, seen: dict[str, Any]) -> None:
    if not given(seen, allowed=LOOKS):
        raise UnclearError(
            f"Nothing is filled in of {photo.burn.candle} at {clock(photo.at)}.",
            "A photo shows at least one thing, or nothing.",
            "Fill in what you see, or press “Nothing can be read from it”.",
        )


def _can_be_read(photo: Photo) -> None:
    if photo.read_as is not None:
        raise _was_read(photo)
    out_at = photo.burn.out_at
    if out_at is not None and _minute_of(photo) > out_at:
        raise UnclearError(
            f"This photo was taken at {clock(photo.at)}; {photo.burn.candle} was out at "
            f"{clock(out_at)}.",
            "What is seen once a candle is out belongs to its burn.",
            "Note it on the page of the burn, under “When it is cold”.",
        )


def _was_read(photo: Photo) -> UnclearError:
    return UnclearError(
        f"The photo of {photo.burn.candle} at {clock(photo.at)} was read already.",
        "What was noted stays.",
        "A slip is put right on the page of the burn, with its reason.",
    )


def _is_of(burn: Burn, at: datetime, *, now: datetime) -> None:
    """Raises UnclearError for a photo that cannot be of this burn."""
    if at > now + AHEAD:
        raise UnclearError(
            f"A photo of {clock(at)} is not taken yet; it is {clock(now)}.",
            "A photo is of now or of earlier.",
            "Check the clock of the phone.",
        )
    if at < burn.lit_at:
        raise UnclearError(
            f"This photo is of {clock(at)}; {burn.candle} was lit at {clock(burn.lit_at)}.",
            "A photo of a burn is taken once the candle is lit.",
            "Check the code on the vessel and the clock of the phone.",
        )
    if not may_be_added(burn, at):
        assert burn.out_at is not None
        raise UnclearError(
            f"{burn.candle} was out at {clock(burn.out_at)}, over 12 h before this photo.",
            "A photo belongs to a burn while it is lit, and for 12 h after.",
            "Note what you see in words, on the page of the burn.",
        )
