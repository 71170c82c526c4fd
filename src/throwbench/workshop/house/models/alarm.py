"""Deadlines that somebody set, and what became of the alarm."""

from typing import ClassVar

from django.db import models
from django.db.models import F, Q

from throwbench.workshop.house.models.house import Person


class Timer(models.Model):
    """A deadline that somebody set: 'check K2F again', 'stir'. Lit candles have their own."""

    what = models.CharField(max_length=80)
    due_at = models.DateTimeField()
    set_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    set_at = models.DateTimeField()
    done_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("due_at", "id")
        indexes: ClassVar = [models.Index(fields=["done_at"])]
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(due_at__gt=F("set_at")),
                name="a_timer_ends_after_it_is_set",
                violation_error_message="A timer ends after it is set. Give it a minute or more.",
            )
        ]

    def __str__(self) -> str:
        return self.what


class Rung(models.TextChoices):
    """The steps of the ladder by which an alarm reaches an ear."""

    PAGE = "page", "sound in an open page"
    MACHINE = "machine", "this machine's own sound"
    NOTICE = "notice", "this machine's own notification"
    CALENDAR = "calendar", "calendar file"


class Ring(models.Model):
    """A deadline came and one rung rang, or could not. Append-only."""

    deadline = models.CharField(max_length=40, help_text="'burn 12', 'timer 3'")
    due_at = models.DateTimeField()
    rung = models.CharField(max_length=8, choices=Rung)
    at = models.DateTimeField()
    trouble = models.CharField(max_length=200, blank=True, help_text="why it could not ring")

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["deadline", "due_at", "rung"],
                name="a_rung_is_noted_once_a_deadline",
                violation_error_message="That this rung rang for this deadline is noted already.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.deadline}, {self.rung}"


class Heard(models.Model):
    """Somebody tried a rung and says whether it was heard. Append-only."""

    rung = models.CharField(max_length=8, choices=Rung)
    heard = models.BooleanField()
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    at = models.DateTimeField()

    class Meta:
        indexes: ClassVar = [models.Index(fields=["rung", "at"])]

    def __str__(self) -> str:
        return f"{self.rung}: {'heard' if self.heard else 'not heard'}"


class There(models.Model):
    """Somebody is there: what was due until then rings no more. Append-only."""

    who = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(db_index=True)

    def __str__(self) -> str:
        return f"{self.who} was there at {self.at:%H:%M}"


class Watch(models.Model):
    """When the server last looked at the deadlines; one row."""

    last_at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(id=1),
                name="one_watch_a_folder",
                violation_error_message="A folder has one watch.",
            )
        ]

    def __str__(self) -> str:
        return f"watched until {self.last_at:%H:%M}"


class Unwatched(models.Model):
    """A time in which something was lit or timed and no alarm could ring. Append-only."""

    from_at = models.DateTimeField()
    to_at = models.DateTimeField()

    class Meta:
        ordering = ("from_at",)
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(to_at__gt=F("from_at")),
                name="unwatched_from_before_to",
                violation_error_message="A time without a watch ends after it begins.",
            )
        ]

    def __str__(self) -> str:
        return f"unwatched from {self.from_at:%H:%M} to {self.to_at:%H:%M}"
