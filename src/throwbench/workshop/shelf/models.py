"""What stands on the shelf. An empty value is unknown, and unknown is a value."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from throwbench.workshop.house.models import Person


class Supplier(models.Model):
    name = models.CharField(max_length=80, unique=True)
    note = models.TextField(blank=True)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name


class Wax(models.Model):
    """A wax with its wax card: the steps and limits its maker gives."""

    name = models.CharField(max_length=80, unique=True)
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
                nulls_distinct=False,
                violation_error_message="This oil stands on the shelf already. Open it there.",
            )
        ]

    def __str__(self) -> str:
        return self.name


class Blend(models.Model):
    """One version of a blend; a used version never changes, it gets a next one."""

    oil = models.OneToOneField(Oil, on_delete=models.PROTECT, related_name="blend")
    version = models.PositiveSmallIntegerField(default=1)
    made_from = models.ForeignKey("self", on_delete=models.PROTECT, null=True, blank=True)
    made_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"{self.oil}, version {self.version}"


class BlendPart(models.Model):
    blend = models.ForeignKey(Blend, on_delete=models.CASCADE, related_name="parts")
    oil = models.ForeignKey(Oil, on_delete=models.PROTECT, related_name="part_of")
    parts = models.FloatField(help_text="parts by weight")

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["blend", "oil"], name="one_part_an_oil_in_a_blend"),
            models.CheckConstraint(
                condition=Q(parts__gt=0),
                name="parts_above_0",
                violation_error_message="A part of a blend is above 0. Leave the oil out instead.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.parts:g} parts {self.oil}"


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

    def __str__(self) -> str:
        return f"{self.kind} {self.version}".strip()


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


class Vessel(models.Model):
    """A kind of vessel: glass, tin or ceramic."""

    name = models.CharField(max_length=80, unique=True)
    inside_mm = models.FloatField(null=True, blank=True)
    height_mm = models.FloatField(null=True, blank=True)
    brim_ml = models.FloatField(null=True, blank=True)
    material = models.CharField(max_length=40, blank=True)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name


class Flaw(models.TextChoices):
    NONE = "none", "no flaw"
    COSMETIC = "cosmetic", "cosmetic flaw: for tests only"
    STRUCTURAL = "structural", "chip, crack or other structural flaw: never lit"


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


class FixingKind(models.TextChoices):
    GLUE = "glue", "glue"
    STICKER = "sticker", "sticker"


class Fixing(models.Model):
    """What holds the wick."""

    name = models.CharField(max_length=80, unique=True)
    kind = models.CharField(max_length=10, choices=FixingKind)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name


class Lot(models.Model):
    """One delivery of one material."""

    code = models.CharField(max_length=40)
    came_on = models.DateField(null=True, blank=True)
    wax = models.ForeignKey(Wax, on_delete=models.PROTECT, null=True, blank=True)
    oil = models.ForeignKey(Oil, on_delete=models.PROTECT, null=True, blank=True)
    wick = models.ForeignKey(Wick, on_delete=models.PROTECT, null=True, blank=True)
    vessel = models.ForeignKey(Vessel, on_delete=models.PROTECT, null=True, blank=True)
    amount_mg = models.BigIntegerField(null=True, blank=True)
    count = models.PositiveIntegerField(null=True, blank=True)
    price_cents = models.BigIntegerField(null=True, blank=True)

    class Meta:
        ordering = ("-came_on", "code")
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=(
                    Q(wax__isnull=False, oil__isnull=True, wick__isnull=True, vessel__isnull=True)
                    | Q(wax__isnull=True, oil__isnull=False, wick__isnull=True, vessel__isnull=True)
                    | Q(wax__isnull=True, oil__isnull=True, wick__isnull=False, vessel__isnull=True)
                    | Q(wax__isnull=True, oil__isnull=True, wick__isnull=True, vessel__isnull=False)
                ),
                name="a_lot_is_of_one_material",
                violation_error_message="A lot is a delivery of one material. Note each by itself.",
            )
        ]

    def __str__(self) -> str:
        return self.code
