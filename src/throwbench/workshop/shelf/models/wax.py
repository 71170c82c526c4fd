"""Waxes, each with its wax card."""

from typing import ClassVar

from django.db import models
from django.db.models import CheckConstraint, F, Q

from throwbench.workshop.shelf.models.oil import Supplier
from throwbench.workshop.shelf.models.wording import taken, within

HEATS = (
    "melts_at_c", "never_above_c", "add_oil_low_c", "add_oil_high_c", "pour_low_c", "pour_high_c",
)  # fmt: skip


class Wax(models.Model):
    """A wax with its wax card: the steps and limits its maker gives."""

    name = models.CharField(max_length=80, unique=True, error_messages=taken("A wax"))
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, null=True, blank=True)
    melts_at_c = models.FloatField(null=True, blank=True)
    never_above_c = models.FloatField(null=True, blank=True)
    add_oil_low_c = models.FloatField(null=True, blank=True)
    add_oil_high_c = models.FloatField(null=True, blank=True)
    stir_min = models.FloatField(null=True, blank=True)
    pour_low_c = models.FloatField(null=True, blank=True)
    pour_high_c = models.FloatField(null=True, blank=True)
    cure_days = models.PositiveSmallIntegerField(null=True, blank=True)
    max_load_percent = models.FloatField(null=True, blank=True, help_text="% of wax")
    liquid_g_ml = models.FloatField(null=True, blank=True)
    solid_g_ml = models.FloatField(null=True, blank=True)
    note = models.TextField(blank=True)

    class Meta:
        ordering = ("name",)
        constraints: ClassVar = [
            CheckConstraint(
                condition=Q(melts_at_c__lt=F("never_above_c")),
                name="a_wax_melts_below_its_maximum",
                violation_error_message="The wax would melt above its own maximum. It melts below "
                "“never above”. Check both figures and their units.",
            ),
            CheckConstraint(
                condition=Q(add_oil_low_c__lte=F("add_oil_high_c")),
                name="add_oil_from_low_to_high",
                violation_error_message="“Add oil at” begins above its end. It goes from low to "
                "high. Check the two figures.",
            ),
            CheckConstraint(
                condition=Q(add_oil_high_c__lte=F("never_above_c"))
                & Q(add_oil_low_c__lte=F("never_above_c")),
                name="add_oil_below_the_maximum",
                violation_error_message="“Add oil at” goes above “never above”. The oil goes in "
                "below the wax's maximum. Check the figures and their units.",
            ),
            CheckConstraint(
                condition=Q(pour_low_c__lte=F("pour_high_c")),
                name="pour_from_low_to_high",
                violation_error_message="“Pour at” begins above its end. It goes from low to "
                "high. Check the two figures.",
            ),
            CheckConstraint(
                condition=Q(pour_high_c__lte=F("never_above_c"))
                & Q(pour_low_c__lte=F("never_above_c")),
                name="pour_below_the_maximum",
                violation_error_message="“Pour at” goes above “never above”. Wax is poured below "
                "its maximum. Check the figures and their units.",
            ),
            *(
                within(
                    heat, 0, 200, name=f"wax_{heat}_0_to_200",
                    said="A temperature of a wax card is 0 to 200 °C. Check it and its unit.",
                )
                for heat in HEATS
            ),
            within(
                "stir_min", 0, 120, name="stir_0_to_120_min",
                said="Stirring takes 0 to 120 min. Check the figure and its unit.",
            ),
            within(
                "cure_days", 0, 365, name="cure_0_to_365_days",
                said="A candle cures 0 to 365 days. Check the figure.",
            ),
            within(
                "max_load_percent", 0.01, 40, name="maximum_load_0_01_to_40_percent",
                said="A maximum load is 0.01 to 40 % of wax. Check the figure.",
            ),
            within(
                "liquid_g_ml", 0.5, 1.5, name="liquid_wax_0_5_to_1_5_g_ml",
                said="Liquid wax weighs 0.5 to 1.5 g/ml. Check the figure and its unit.",
            ),
            within(
                "solid_g_ml", 0.5, 1.5, name="solid_wax_0_5_to_1_5_g_ml",
                said="Solid wax weighs 0.5 to 1.5 g/ml. Check the figure and its unit.",
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name
