"""One pitcher: every weighing, every temperature, and what was poured from it."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Lot, Wax
from throwbench.workshop.trials.models.plan import Candidate


class Basis(models.TextChoices):
    WAX = "wax", "% of wax"
    TOTAL = "total", "% of total"


class Pour(models.Model):
    """One pitcher of wax and one oil. What was planned stands beside what was weighed."""

    candidate = models.ForeignKey(Candidate, on_delete=models.PROTECT, related_name="pours")
    wax = models.ForeignKey(Wax, on_delete=models.PROTECT)
    wax_lot = models.ForeignKey(
        Lot, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    oil_lot = models.ForeignKey(
        Lot, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    load_percent = models.FloatField(help_text="planned")
    basis = models.CharField(max_length=6, choices=Basis, default=Basis.WAX)
    wax_mg = models.BigIntegerField(null=True, blank=True, help_text="planned")
    begun_at = models.DateTimeField()
    begun_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    stirred_s = models.PositiveIntegerField(null=True, blank=True)
    poured_at = models.DateTimeField(null=True, blank=True)
    poured_by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, blank=True)
    note = models.TextField(blank=True)

    class Meta:
        ordering = ("id",)

    def __str__(self) -> str:
        return f"pitcher of {self.candidate}"


class Weighed(models.TextChoices):
    WAX = "wax", "wax in the pitcher"
    OIL = "oil", "oil poured in"


class Weighing(models.Model):
    """What the scale showed. The last weighing of the wax counts; a lower one took some back."""

    pour = models.ForeignKey(Pour, on_delete=models.PROTECT, related_name="weighings")
    what = models.CharField(max_length=4, choices=Weighed)
    mg = models.BigIntegerField()
    scale_step_mg = models.PositiveIntegerField(null=True, blank=True)
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    at = models.DateTimeField()

    class Meta:
        ordering = ("at", "id")
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(mg__gt=0, mg__lte=50_000_000),
                name="weighed_above_0_to_50_kg",
                violation_error_message="A weighing is above 0 g and at most 50 kg. Weigh again.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.what} {self.mg / 1000:g} g"


class Step(models.TextChoices):
    MELTED = "melted", "melted"
    ADDED = "added oil", "oil added"
    POURED = "poured", "poured"


class Temperature(models.Model):
    """One reading of a thermometer, with the instrument that gave it."""

    pour = models.ForeignKey(Pour, on_delete=models.PROTECT, related_name="temperatures")
    step = models.CharField(max_length=10, choices=Step)
    celsius = models.FloatField()
    instrument = models.CharField(max_length=60, blank=True)
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    at = models.DateTimeField()

    class Meta:
        ordering = ("at", "id")

    def __str__(self) -> str:
        return f"{self.step} at {self.celsius:g} °C"
