"""Lots: single deliveries."""

from typing import ClassVar

from django.db import models
from django.db.models import CheckConstraint, Q, UniqueConstraint

from throwbench.workshop.shelf.models.oil import Oil
from throwbench.workshop.shelf.models.vessel import Vessel
from throwbench.workshop.shelf.models.wax import Wax
from throwbench.workshop.shelf.models.wick import Wick

MATERIALS = ("wax", "oil", "wick", "vessel")


def _of(material: str) -> Q:
    return Q(**{f"{name}__isnull": name != material for name in MATERIALS})


class Lot(models.Model):
    """One delivery of one material."""

    code = models.CharField(max_length=40)
    came_on = models.DateField(null=True, blank=True)
    wax = models.ForeignKey(
        Wax, on_delete=models.PROTECT, null=True, blank=True, related_name="lots"
    )
    oil = models.ForeignKey(
        Oil, on_delete=models.PROTECT, null=True, blank=True, related_name="lots"
    )
    wick = models.ForeignKey(
        Wick, on_delete=models.PROTECT, null=True, blank=True, related_name="lots"
    )
    vessel = models.ForeignKey(
        Vessel, on_delete=models.PROTECT, null=True, blank=True, related_name="lots"
    )
    amount_mg = models.BigIntegerField(null=True, blank=True)
    count = models.PositiveIntegerField(null=True, blank=True)
    price_cents = models.BigIntegerField(null=True, blank=True)

    class Meta:
        ordering = ("-came_on", "code")
        constraints: ClassVar = [
            CheckConstraint(
                condition=_of("wax") | _of("oil") | _of("wick") | _of("vessel"),
                name="a_lot_is_of_one_material",
                violation_error_message="A lot is a delivery of one material. Note each by itself.",
            ),
            *(
                UniqueConstraint(
                    fields=[material, "code"],
                    name=f"one_lot_a_code_and_{material}",
                    violation_error_message=f"A lot of this {material} with that code is there "
                    "already. Each delivery has a code of its own. Add a letter to this one.",
                )
                for material in MATERIALS
            ),
            CheckConstraint(
                condition=Q(amount_mg__gt=0),
                name="amount_above_0",
                violation_error_message="The amount of a lot is above 0. Check the figure, or "
                "leave it empty: not known.",
            ),
            CheckConstraint(
                condition=Q(count__gt=0),
                name="count_above_0",
                violation_error_message="The count of a lot is above 0. Check the figure, or "
                "leave it empty: not known.",
            ),
            CheckConstraint(
                condition=Q(price_cents__gte=0),
                name="price_0_or_above",
                violation_error_message="A price is 0 or above. Check the figure, or leave it "
                "empty: not known.",
            ),
        ]

    def __str__(self) -> str:
        return self.code

    @property
    def material(self) -> Wax | Oil | Wick | Vessel:
        """What it is a delivery of."""
        found = self.wax or self.oil or self.wick or self.vessel
        assert found is not None  # the table refuses a lot of nothing
        return found
