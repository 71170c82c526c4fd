"""Fragrance oils, who supplies them, and the blends made of them."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from throwbench.workshop.shelf.models.wording import taken, within

STANDS_ALREADY = "This oil stands on the shelf already. Open it there, or name this one otherwise."


class Supplier(models.Model):
    name = models.CharField(max_length=80, unique=True, error_messages=taken("A supplier"))
    note = models.TextField(blank=True)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name


class Oil(models.Model):
    """A fragrance oil, or a blend of oils (then it has a `blend`)."""

    name = models.CharField(max_length=80)
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, null=True, blank=True)
    idea = models.CharField(max_length=60, blank=True, help_text="oils of one idea are compared")
    density_g_ml = models.FloatField(null=True, blank=True)
    flash_c = models.FloatField(null=True, blank=True)
    vanillin_percent = models.FloatField(null=True, blank=True)
    note = models.TextField(blank=True)
    as_typed = models.CharField(max_length=300, blank=True, help_text="the line it was made from")
    soap_thickens = models.BooleanField(null=True, blank=True)
    soap_seizes = models.BooleanField(null=True, blank=True)
    soap_browns = models.BooleanField(null=True, blank=True)
    soap_fades = models.BooleanField(null=True, blank=True)
    soap_max_percent = models.FloatField(null=True, blank=True)
    invented = models.BooleanField(default=False)

    class Meta:
        ordering = ("name",)
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["name", "supplier"],
                name="one_oil_a_name_and_supplier",
                violation_error_message=STANDS_ALREADY,
            ),
            models.UniqueConstraint(
                fields=["name"],
                condition=Q(supplier__isnull=True),
                name="one_oil_a_name_without_supplier",
                violation_error_message=STANDS_ALREADY,
            ),
            within(
                "density_g_ml", 0.5, 2, name="oil_density_0_5_to_2_g_ml",
                said="An oil's density is 0.5 to 2 g/ml. Check the figure and its unit.",
            ),
            within(
                "flash_c", -50, 400, name="oil_flash_point_minus_50_to_400_c",
                said="A flash point is -50 to 400 °C. Check the figure and its unit.",
            ),
            within(
                "vanillin_percent", 0, 100, name="oil_vanillin_0_to_100_percent",
                said="Vanillin is 0 to 100 % of the oil. Check the figure.",
            ),
            within(
                "soap_max_percent", 0, 100, name="oil_soap_maximum_0_to_100_percent",
                said="A soap maximum is 0 to 100 %. Check the figure.",
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name


class Blend(models.Model):
    """One version of a blend; a used version never changes, it gets a next one."""

    oil = models.OneToOneField(Oil, on_delete=models.PROTECT, related_name="blend")
    version = models.PositiveSmallIntegerField(default=1)
    made_from = models.ForeignKey(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="next_versions"
    )
    made_at = models.DateTimeField()

    def __str__(self) -> str:
        return str(self.oil)


class BlendPart(models.Model):
    blend = models.ForeignKey(Blend, on_delete=models.CASCADE, related_name="parts")
    oil = models.ForeignKey(Oil, on_delete=models.PROTECT, related_name="part_of")
    parts = models.FloatField(help_text="parts by weight")

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["blend", "oil"],
                name="one_part_an_oil_in_a_blend",
                violation_error_message="An oil is named twice. A blend names each oil once. "
                "Add its parts together.",
            ),
            models.CheckConstraint(
                condition=Q(parts__gt=0),
                name="parts_above_0",
                violation_error_message="A part of a blend is above 0. Leave the oil out instead.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.parts:g} parts {self.oil}"
