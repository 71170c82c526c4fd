"""Photos of a lit candle: taken now, read tonight."""

from typing import ClassVar

from django.db import models

from throwbench.workshop.house.models import Person
from throwbench.workshop.trials.models.burn import Burn, Check


class Photo(models.Model):
    """A picture of one burn, kept in the folder under its digest.

    `read_as` is the check that tells what it shows; a photo of which nothing can be read is put
    aside, and may be read later all the same.
    """

    burn = models.ForeignKey(Burn, on_delete=models.PROTECT, related_name="photos")
    read_as = models.ForeignKey(
        Check, on_delete=models.PROTECT, null=True, blank=True, related_name="photos"
    )
    at = models.DateTimeField()
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    digest = models.CharField(max_length=64, help_text="SHA-256 of the file as it is kept")
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    aside_at = models.DateTimeField(null=True, blank=True)
    aside_by = models.ForeignKey(
        Person, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )

    class Meta:
        ordering = ("at", "id")
        indexes: ClassVar = [models.Index(fields=["digest"])]

    def __str__(self) -> str:
        return f"photo of {self.burn} at {self.at:%H:%M}"
