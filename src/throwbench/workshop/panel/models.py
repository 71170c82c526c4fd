"""Panels, sittings, sniffs and scores. The tag in front of a candle says nothing about it."""

from datetime import datetime
from enum import StrEnum
from typing import ClassVar

from django.db import models
from django.db.models import Q

from throwbench.records.attribute import ALL, KINDS
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.house.press import current_press
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.models import TestCandle, Trial


class Asks(StrEnum):
    """Kinds of panel that have a rule of their own; all of them stand in `KINDS`."""

    LIT = "lit"
    UNLIT = "unlit"
    BLOTTER = "blotter"


def kinds() -> list[tuple[str, str]]:
    """Of a panel; a function, so that one more needs no change of the database."""
    return [(name, kind.words) for name, kind in KINDS.items()]


def attributes() -> list[tuple[str, str]]:
    """Of a score; a function, so that one more needs no change of the database."""
    return [(one.name, one.words) for one in ALL]


class Panel(models.Model):
    """Some assessors asked on one day about some candles."""

    trial = models.ForeignKey(Trial, on_delete=models.PROTECT, related_name="panels")
    day = models.DateField()
    asks = models.CharField(max_length=20, choices=kinds, default="lit")
    clean_air_min = models.PositiveSmallIntegerField(
        default=5, help_text="minutes in clean air before the next candle"
    )
    opened_at = models.DateTimeField()
    opened_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    closed_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("-day", "-id")

    def __str__(self) -> str:
        return f"panel of {self.day:%-d %B %Y}"

    def is_closed_for(self, now: datetime) -> bool:
        """Whether it takes no answer that is pressed `now`.

        An entry that a device kept comes later than it was pressed. A plain form never does, even
        where the workshop's own clock was put back since.
        """
        if self.closed_at is None or current_press() is None:
            return self.closed_at is not None
        return self.closed_at <= now


class Seat(models.Model):
    """One candle (or one blotter) in one room, with the fresh tag of this panel in front."""

    panel = models.ForeignKey(Panel, on_delete=models.PROTECT, related_name="seats")
    candle = models.ForeignKey(TestCandle, on_delete=models.PROTECT, null=True, blank=True)
    oil = models.ForeignKey(Oil, on_delete=models.PROTECT, null=True, blank=True)
    room = models.ForeignKey(Room, on_delete=models.PROTECT)
    tag = models.CharField(max_length=3)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("position", "id")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["panel", "tag"],
                name="a_tag_once_a_panel",
                violation_error_message="This tag stands in front of another candle.",
            ),
            models.CheckConstraint(
                condition=Q(candle__isnull=False, oil__isnull=True)
                | Q(candle__isnull=True, oil__isnull=False),
                name="a_candle_or_a_blotter",
                violation_error_message="A seat holds one candle or one blotter.",
            ),
        ]

    def __str__(self) -> str:
        return self.tag


class Sitting(models.Model):
    """One assessor's run of sniffs at one panel."""

    panel = models.ForeignKey(Panel, on_delete=models.PROTECT, related_name="sittings")
    assessor = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="sittings")
    sits_out = models.BooleanField(default=False)
    tired = models.BooleanField(null=True, blank=True)
    perfume = models.BooleanField(null=True, blank=True)
    link_hash = models.CharField(
        max_length=64, blank=True, help_text="of the personal link; the link itself is not kept"
    )
    code_hash = models.CharField(
        max_length=64, blank=True, help_text="of the short code that is typed instead"
    )

    class Meta:
        ordering = ("id",)
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["panel", "assessor"],
                name="one_sitting_an_assessor",
                violation_error_message="This assessor sits at the panel already.",
            ),
            models.UniqueConstraint(
                fields=["link_hash"],
                condition=~Q(link_hash=""),
                name="a_personal_link_is_for_one_sitting",
                violation_error_message="This link is another sitting's. Make a new one.",
            ),
            models.UniqueConstraint(
                fields=["code_hash"],
                condition=~Q(code_hash=""),
                name="a_typed_code_is_for_one_sitting",
                violation_error_message="This code is another sitting's. Make a new link.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.assessor} at the {self.panel}"


class Way(models.TextChoices):
    HAND_ROUND = "hand-round", "phone handed round"
    SLIP = "slip", "slip on paper, typed in"
    LINK = "link", "own phone"


class Sniff(models.Model):
    """One assessor at one candle in one room."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="sniffs")
    seat = models.ForeignKey(Seat, on_delete=models.PROTECT, related_name="sniffs")
    at = models.DateTimeField()
    is_timed = models.BooleanField(
        default=True, help_text="the nose sniffed then; else a slip was typed in then"
    )
    way = models.CharField(max_length=10, choices=Way)
    minutes_lit = models.FloatField(null=True, blank=True)
    clean_air_min = models.FloatField(null=True, blank=True)
    tired = models.BooleanField(null=True, blank=True, help_text="at this one sniff")
    recognised = models.BooleanField(null=True, blank=True)
    word = models.CharField(max_length=80, blank=True)
    typed_by = models.ForeignKey(
        Person, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )

    class Meta:
        ordering = ("at", "id")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["sitting", "seat"],
                name="one_sniff_an_assessor_and_tag",
                violation_error_message="This nose has answered here already. The first is kept.",
            )
        ]
        indexes: ClassVar = [models.Index(fields=["at"])]

    def __str__(self) -> str:
        return f"{self.sitting.assessor} at {self.seat}"


class Score(models.Model):
    """One answer on one attribute; an empty value is "cannot tell"."""

    sniff = models.ForeignKey(Sniff, on_delete=models.PROTECT, related_name="scores")
    attribute = models.CharField(max_length=20, choices=attributes)
    value = models.SmallIntegerField(null=True, blank=True)

    class Meta:
        ordering = ("id",)
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["sniff", "attribute"],
                name="one_score_an_attribute",
                violation_error_message="This sniff has a score on that already.",
            ),
            models.CheckConstraint(
                condition=Q(value__isnull=True) | Q(value__gte=-100, value__lte=100),
                name="score_on_a_scale",
                violation_error_message="A score is a step of the trial's scale.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.attribute}: {'cannot tell' if self.value is None else self.value}"
