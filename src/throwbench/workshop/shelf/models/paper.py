"""Suppliers' papers on an oil."""

from typing import ClassVar

from django.db import models
from django.db.models import F, Q

from throwbench.workshop.shelf.models.oil import Oil


class PaperKind(models.TextChoices):
    SDS = "safety data sheet", "Safety data sheet"
    CERTIFICATE = "conformity certificate", "Conformity certificate"
    ALLERGENS = "allergen statement", "Allergen statement"


class Paper(models.Model):
    """One version of a supplier's paper on an oil. Without a date it was only asked for."""

    oil = models.ForeignKey(Oil, on_delete=models.CASCADE, related_name="papers")
    kind = models.CharField(max_length=30, choices=PaperKind)
    version = models.CharField(max_length=20, blank=True)
    dated = models.DateField(null=True, blank=True)
    valid_until = models.DateField(null=True, blank=True)
    asked_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ("kind", "dated")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["oil", "kind", "version", "dated"],
                name="one_paper_a_kind_version_and_date",
                violation_error_message="This paper is noted already. One version of one date is "
                "noted once. Check the version and the date.",
            ),
            models.CheckConstraint(
                condition=Q(dated__isnull=False) | Q(asked_on__isnull=False),
                name="a_paper_is_dated_or_asked_for",
                violation_error_message="This paper has no day. It is dated, or was asked for on "
                "a day. Give one of the two.",
            ),
            models.CheckConstraint(
                condition=Q(valid_until__gte=F("dated")),
                name="a_paper_ends_after_its_date",
                violation_error_message="This paper would run out before its own date. It is "
                "valid from its date on. Check both days.",
            ),
            models.CheckConstraint(
                condition=Q(dated__isnull=False) | Q(valid_until__isnull=True),
                name="a_paper_asked_for_has_no_end",
                violation_error_message="A day until which it is valid came without the paper's "
                "own date. A paper that was only asked for has no end. Give its date.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.version}".strip()
