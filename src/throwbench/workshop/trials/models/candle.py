"""Test candles, what each is made of, and tags that were swapped."""

from typing import ClassVar

from django.db import models
from django.db.models import F, Q

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Fixing, Lot, Piece, Vessel, Wax, Wick
from throwbench.workshop.trials.models.plan import Candidate
from throwbench.workshop.trials.models.pour import Pour


class Combination(models.Model):
    """Oil x load x wax x wick x vessel, with the fixing that holds the wick."""

    candidate = models.ForeignKey(Candidate, on_delete=models.PROTECT, related_name="combinations")
    wax = models.ForeignKey(Wax, on_delete=models.PROTECT)
    load_percent = models.FloatField(help_text="% of wax")
    wick = models.ForeignKey(Wick, on_delete=models.PROTECT)
    vessel = models.ForeignKey(Vessel, on_delete=models.PROTECT)
    fixing = models.ForeignKey(Fixing, on_delete=models.PROTECT, null=True, blank=True)
    fill_mg = models.BigIntegerField(null=True, blank=True, help_text="wax and oil in the vessel")
    fill_mm = models.FloatField(null=True, blank=True, help_text="depth of wax when new")

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["candidate", "wax", "load_percent", "wick", "vessel", "fixing"],
                name="a_combination_once_a_trial",
                violation_error_message="This combination is planned already.",
            ),
            # Unknown fixings are not alike to the database, so that they have a rule of their own.
            models.UniqueConstraint(
                fields=["candidate", "wax", "load_percent", "wick", "vessel"],
                condition=Q(fixing__isnull=True),
                name="a_combination_of_unknown_fixing_once_a_trial",
                violation_error_message="This combination is planned already.",
            ),
            models.CheckConstraint(
                condition=Q(load_percent__gte=0, load_percent__lte=40),
                name="load_between_0_and_40_percent_of_wax",
                violation_error_message="A load is from 0 to 40 %% of wax.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.candidate}, {self.load_percent:g} % of wax, {self.wick}, {self.vessel}"


class TestCandle(models.Model):
    """One candle. The code is printed and stands under the base, with the name."""

    __test__ = False

    code = models.CharField(max_length=8, unique=True)
    combination = models.ForeignKey(Combination, on_delete=models.PROTECT, related_name="candles")
    pour = models.ForeignKey(
        Pour, on_delete=models.PROTECT, null=True, blank=True, related_name="candles"
    )
    piece = models.ForeignKey(Piece, on_delete=models.PROTECT, null=True, blank=True)
    wick_lot = models.ForeignKey(Lot, on_delete=models.PROTECT, null=True, blank=True)
    poured_on = models.DateField(null=True, blank=True)
    shelf = models.CharField(max_length=60, blank=True, help_text="where it cures")
    made_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_because = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("code",)

    def __str__(self) -> str:
        return self.code


class Swap(models.Model):
    """Two tags were swapped, and put right. Append-only."""

    first = models.ForeignKey(TestCandle, on_delete=models.PROTECT, related_name="+")
    second = models.ForeignKey(TestCandle, on_delete=models.PROTECT, related_name="+")
    why = models.TextField()
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=~Q(first=F("second")),
                name="two_candles_are_swapped",
                violation_error_message="Two candles are swapped. Name another one.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.first} and {self.second} were swapped"
