"""Burns and their checks. Empty was not looked at; nothing is copied."""

from datetime import timedelta
from typing import ClassVar

from django.db import models
from django.db.models import F, Q

from throwbench.rules.rule import rules
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.trials.models.candle import TestCandle
from throwbench.workshop.trials.sights import COLUMNS

SPARE = timedelta(hours=next(rule.allowance for rule in rules() if rule.id == "burn-length"))
"""What the rule of the burn's length lets pass."""


class BurnKind(models.TextChoices):
    WICK = "wick", "wick burn"
    NOSE = "nose", "nose burn"
    LONG = "long", "watched long burn"


class Burn(models.Model):
    """One lit period of one test candle; lit until it has an `out_at`."""

    candle = models.ForeignKey(TestCandle, on_delete=models.PROTECT, related_name="burns")
    number = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=4, choices=BurnKind)
    room = models.ForeignKey(Room, on_delete=models.PROTECT, null=True, blank=True)
    lit_at = models.DateTimeField()
    lit_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    out_by_at = models.DateTimeField(help_text="when it has to be put out")
    handed_to = models.ForeignKey(
        Person, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    out_at = models.DateTimeField(null=True, blank=True)
    put_out = models.CharField(max_length=8, choices=COLUMNS["put_out"].choices, blank=True)
    room_c = models.FloatField(null=True, blank=True)
    trim_mm = models.FloatField(null=True, blank=True)
    mass_before_mg = models.BigIntegerField(null=True, blank=True)
    mass_after_mg = models.BigIntegerField(null=True, blank=True)
    scale_step_mg = models.PositiveIntegerField(null=True, blank=True)
    wax_left_mm = models.FloatField(null=True, blank=True)
    afterglow_s = models.FloatField(null=True, blank=True)
    relit = models.BooleanField(null=True, blank=True)
    wick_moved = models.BooleanField(null=True, blank=True)
    vessel_damage = models.CharField(
        max_length=5, choices=COLUMNS["vessel_damage"].choices, blank=True
    )
    frosting = models.BooleanField(null=True, blank=True)
    wet_spots = models.BooleanField(null=True, blank=True)
    note = models.TextField(blank=True)

    class Meta:
        ordering = ("candle", "number")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["candle", "number"],
                name="one_burn_a_number",
                violation_error_message="This candle has a burn of that number.",
            ),
            models.UniqueConstraint(
                fields=["candle"],
                condition=Q(out_at__isnull=True),
                name="a_candle_is_lit_once",
                violation_error_message="This candle is lit already. Put it out first.",
            ),
            models.CheckConstraint(
                condition=Q(out_at__isnull=True) | Q(out_at__gt=F("lit_at")),
                name="out_after_lit",
                violation_error_message="A candle is put out after it was lit. Check both times.",
            ),
        ]
        indexes: ClassVar = [models.Index(fields=["out_at"])]

    def __str__(self) -> str:
        return f"{self.candle}, burn {self.number}"

    @property
    def lasted(self) -> timedelta | None:
        """How long it burned; None while it is lit."""
        return None if self.out_at is None else self.out_at - self.lit_at

    @property
    def over_by(self) -> timedelta | None:
        """How long it was left on over its limit; None within what the rule lets pass."""
        if self.out_at is None or self.out_at <= self.out_by_at + SPARE:
            return None
        return self.out_at - self.out_by_at


class Check(models.Model):
    """One look at a lit candle."""

    burn = models.ForeignKey(Burn, on_delete=models.PROTECT, related_name="checks")
    at = models.DateTimeField()
    noted_at = models.DateTimeField(null=True, blank=True)
    """When it was pressed, to the second: it orders checks of one minute."""
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    no_change = models.BooleanField(null=True, blank=True)
    pool_width_mm = models.FloatField(null=True, blank=True)
    pool_full = models.BooleanField(null=True, blank=True)
    pool_depth_mm = models.FloatField(null=True, blank=True)
    flame = models.CharField(max_length=5, choices=COLUMNS["flame"].choices, blank=True)
    flame_mm = models.FloatField(null=True, blank=True)
    flare_up = models.CharField(max_length=5, choices=COLUMNS["flare_up"].choices, blank=True)
    flare_up_s = models.FloatField(null=True, blank=True)
    vessel_c = models.FloatField(null=True, blank=True)
    soot = models.CharField(max_length=7, choices=COLUMNS["soot"].choices, blank=True)
    mushroom = models.CharField(max_length=5, choices=COLUMNS["mushroom"].choices, blank=True)

    class Meta:
        ordering = ("burn", "at", "noted_at", "id")

    def __str__(self) -> str:
        return f"{self.burn}, check of {self.at:%H:%M}"
