"""Wicks, and what holds them."""

from typing import ClassVar

from django.db import models

from throwbench.workshop.shelf.models.oil import Supplier
from throwbench.workshop.shelf.models.wording import taken


class Wick(models.Model):
    series = models.CharField(max_length=60)
    size = models.CharField(max_length=20)
    material = models.CharField(max_length=60, blank=True)
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, null=True, blank=True)

    class Meta:
        ordering = ("series", "size")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["series", "size"],
                name="one_wick_a_series_and_size",
                violation_error_message="This wick stands on the shelf already. Open it there.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.series} {self.size}"


class FixingKind(models.TextChoices):
    GLUE = "glue", "glue"
    STICKER = "sticker", "sticker"


class Fixing(models.Model):
    """What holds the wick."""

    name = models.CharField(max_length=80, unique=True, error_messages=taken("A fixing"))
    kind = models.CharField(max_length=10, choices=FixingKind)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name
