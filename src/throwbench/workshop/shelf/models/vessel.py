"""Vessels: their kinds, and single pieces with what is wrong with them."""

from typing import ClassVar

from django.db import models

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models.wording import taken, within


class Vessel(models.Model):
    """A kind of vessel: glass, tin or ceramic."""

    name = models.CharField(max_length=80, unique=True, error_messages=taken("A vessel"))
    inside_mm = models.FloatField(null=True, blank=True)
    height_mm = models.FloatField(null=True, blank=True)
    brim_ml = models.FloatField(null=True, blank=True)
    material = models.CharField(max_length=40, blank=True)

    class Meta:
        ordering = ("name",)
        constraints: ClassVar = [
            within(
                "inside_mm", 10, 500, name="inside_diameter_10_to_500_mm",
                said="A vessel is 10 to 500 mm wide inside. Check the figure and its unit.",
            ),
            within(
                "height_mm", 5, 1000, name="vessel_height_5_to_1000_mm",
                said="A vessel is 5 to 1000 mm high. Check the figure and its unit.",
            ),
            within(
                "brim_ml", 1, 20_000, name="brim_volume_1_to_20000_ml",
                said="A vessel holds 1 to 20000 ml to the brim. Check the figure and its unit.",
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name


class Flaw(models.TextChoices):
    NONE = "none", "no flaw"
    COSMETIC = "cosmetic", "cosmetic: for tests only"
    STRUCTURAL = "structural", "chip or crack: never lit"


class Piece(models.Model):
    """One single vessel with a name of its own, so that a flaw is remembered."""

    vessel = models.ForeignKey(Vessel, on_delete=models.PROTECT, related_name="pieces")
    name = models.CharField(max_length=40)
    flaw = models.CharField(max_length=12, choices=Flaw, default=Flaw.NONE)
    flaw_note = models.CharField(max_length=200, blank=True)
    flaw_seen_by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, blank=True)
    flaw_seen_at = models.DateTimeField(null=True, blank=True)
    times_washed = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("vessel", "name")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["vessel", "name"],
                name="one_piece_a_name",
                violation_error_message="A vessel of that name is there. Name it otherwise.",
            )
        ]

    def __str__(self) -> str:
        return self.name
