"""People, rooms, settings, one-time links, and the two tables that keep what happened."""

from typing import ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models import Q


class Role(models.TextChoices):
    OWNER = "owner", "owner"
    HELPER = "helper", "helper"
    ASSESSOR = "assessor", "assessor"


class Person(AbstractBaseUser):
    """Somebody of the workshop. Blanked, the name goes and the rows keep the id."""

    name = models.CharField(
        max_length=80,
        unique=True,
        error_messages={
            "unique": "Somebody of that name is here already. Names differ. Add a letter to one."
        },
    )
    role = models.CharField(max_length=10, choices=Role, default=Role.ASSESSOR)
    is_active = models.BooleanField(default=True)
    blanked_at = models.DateTimeField(null=True, blank=True)

    USERNAME_FIELD = "name"
    objects = BaseUserManager()

    def __str__(self) -> str:
        return self.name

    @property
    def makes(self) -> bool:
        """Owner or helper: may see the maker's pages."""
        return self.role in (Role.OWNER, Role.HELPER)


class RoomKind(models.TextChoices):
    SMALL = "small room", "small room"
    LIVING = "living room", "living room"
    LARGE = "large room", "large room"


class Room(models.Model):
    """A room in which candles are burned or sniffed."""

    name = models.CharField(
        max_length=60,
        unique=True,
        error_messages={
            "unique": "A room of that name is here already. Names differ. Name it otherwise."
        },
    )
    kind = models.CharField(max_length=12, choices=RoomKind)
    has_door = models.BooleanField(null=True, blank=True)
    airing_h = models.FloatField(null=True, blank=True, help_text="hours to air between nose burns")

    class Meta:
        ordering = ("name",)
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(airing_h__isnull=True) | Q(airing_h__gte=0, airing_h__lte=72),
                name="airing_between_0_and_72_h",
                violation_error_message="A room airs for 0 to 72 h. Check the hours.",
            )
        ]

    def __str__(self) -> str:
        return self.name


class Units(models.TextChoices):
    METRIC = "metric", "grams, millimetres, °C"
    OUNCES = "ounces", "ounces, inches, °F"


class Workshop(models.Model):
    """The settings of the one workshop of a folder."""

    name = models.CharField(max_length=80)
    zone = models.CharField(max_length=40, default="Europe/Oslo")
    units = models.CharField(max_length=8, choices=Units, default=Units.METRIC)
    address = models.CharField(max_length=200, blank=True, help_text="where a phone reaches it")
    address_answered_at = models.DateTimeField(null=True, blank=True)
    """When this server last found itself at the address."""
    address_reached_at = models.DateTimeField(null=True, blank=True)
    """When another device last opened a page at the address."""
    invented = models.BooleanField(default=False, help_text="all data of this workshop is invented")

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(id=1),
                name="one_workshop_a_folder",
                violation_error_message="A folder holds one workshop. Begin another folder.",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class HouseLimit(models.Model):
    """A limit that the maker set, by the id of its rule."""

    rule = models.CharField(max_length=40, unique=True)
    value = models.FloatField()
    set_by = models.ForeignKey(Person, on_delete=models.PROTECT)
    set_at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(value__gt=0),
                name="house_limit_above_0",
                violation_error_message="A house limit is above 0. Give a figure, or none.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.rule}: {self.value:g}"


class SignInLink(models.Model):
    """A one-time link. Only the hash is stored; a POST spends it."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE)
    token_hash = models.CharField(max_length=64, unique=True)
    code_hash = models.CharField(max_length=64, blank=True, db_index=True)
    """Of the short code that is typed where no camera reads the square one."""
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    spent_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"link for {self.person}"


class Entry(models.Model):
    """One press of a button, by the id its page made: pressed twice, it happens once."""

    id = models.UUIDField(primary_key=True)
    what = models.CharField(max_length=60)
    digest = models.CharField(max_length=64)
    who = models.ForeignKey(Person, on_delete=models.PROTECT, null=True)
    at = models.DateTimeField()
    sent_digest = models.CharField(max_length=64, blank=True)
    """Of the bytes in which a device sent it; empty where a plain form did."""
    device = models.CharField(max_length=36, blank=True)
    turn = models.PositiveBigIntegerField(null=True, blank=True)
    """The device's own count of its entries: it orders what one clock cannot."""
    pressed_at = models.DateTimeField(null=True, blank=True)
    """When it was pressed, by the device's clock put right by `skew_ms`."""
    skew_ms = models.BigIntegerField(null=True, blank=True)
    """How far the device's clock was behind the server's when it sent this."""

    class Meta:
        indexes: ClassVar = [
            models.Index(fields=["device", "turn"]),
            models.Index(fields=["at"]),
        ]

    def __str__(self) -> str:
        return f"{self.what} {self.id}"


class Correction(models.Model):
    """A slip put right: the first entry stays visible, with the reason. Append-only."""

    table = models.CharField(max_length=40)
    row = models.BigIntegerField()
    field = models.CharField(max_length=40)
    was = models.TextField(blank=True)
    became = models.TextField(blank=True)
    why = models.TextField()
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    at = models.DateTimeField()

    class Meta:
        indexes: ClassVar = [models.Index(fields=["table", "row"])]

    def __str__(self) -> str:
        return f"{self.table} {self.row}, {self.field}: {self.was} became {self.became}"
