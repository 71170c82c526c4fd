"""What a trial asks: the question, the candidates, what is right for a room."""

from typing import ClassVar

from django.db import models
from django.db.models import F, Q

from throwbench.workshop.house.models import Person, RoomKind
from throwbench.workshop.shelf.models import Oil, Vessel, Wax


class Trial(models.Model):
    """A planned comparison of oils."""

    name = models.CharField(max_length=80, unique=True)
    question = models.CharField(max_length=200, blank=True)
    choose = models.PositiveSmallIntegerField(default=1)
    scale_low = models.SmallIntegerField(default=1)
    scale_high = models.SmallIntegerField(default=5)
    load_percent = models.FloatField(
        null=True, blank=True, help_text="% of wax, for new candidates"
    )
    fill_mg = models.BigIntegerField(null=True, blank=True, help_text="wax and oil in one vessel")
    residue_mg = models.BigIntegerField(null=True, blank=True, help_text="left in each pitcher")
    pot_residue_mg = models.BigIntegerField(null=True, blank=True, help_text="left in the pot")
    wax = models.ForeignKey(Wax, on_delete=models.PROTECT, null=True, blank=True)
    vessel = models.ForeignKey(Vessel, on_delete=models.PROTECT, null=True, blank=True)
    pour_on = models.DateField(null=True, blank=True)
    decide_on = models.DateField(null=True, blank=True)
    sealed = models.BooleanField(default=False)
    unsealed_at = models.DateTimeField(null=True, blank=True)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(Person, on_delete=models.PROTECT)
    fixed_at = models.DateTimeField(null=True, blank=True, help_text="when the plan was fixed")

    class Meta:
        ordering = ("-made_at",)
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(choose__gte=1),
                name="choose_at_least_1",
                violation_error_message="At least 1 oil is chosen. Say how many may join.",
            ),
            models.CheckConstraint(
                condition=Q(scale_low__lt=F("scale_high")),
                name="scale_goes_up",
                violation_error_message="A scale goes from a lower to a higher step: 1 to 5.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def is_sealed(self) -> bool:
        """Pages show codes and no names: until its sittings are closed, or somebody opens it."""
        return self.sealed and self.unsealed_at is None


class Band(models.Model):
    """Right hot throw for a kind of room; without a kind, for all rooms."""

    trial = models.ForeignKey(Trial, on_delete=models.CASCADE, related_name="bands")
    room_kind = models.CharField(max_length=12, choices=RoomKind, blank=True)
    low = models.FloatField()
    high = models.FloatField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["trial", "room_kind"],
                name="one_band_a_kind_of_room",
                violation_error_message="This kind of room has its band. Change that one.",
            ),
            models.CheckConstraint(
                condition=Q(low__lt=F("high")),
                name="band_goes_up",
                violation_error_message="A band goes from a lower to a higher score: 3.2 to 4.4.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.low:g} to {self.high:g}"


class CandidateRole(models.TextChoices):
    CANDIDATE = "candidate", "candidate"
    REFERENCE = "reference", "reference candle"


class Candidate(models.Model):
    """The oil compared."""

    trial = models.ForeignKey(Trial, on_delete=models.CASCADE, related_name="candidates")
    oil = models.ForeignKey(Oil, on_delete=models.PROTECT, related_name="candidacies")
    role = models.CharField(max_length=10, choices=CandidateRole, default=CandidateRole.CANDIDATE)
    group = models.CharField(max_length=60, blank=True, help_text="at most one of a theme joins")
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("position", "id")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["trial", "oil"],
                name="an_oil_once_a_trial",
                violation_error_message="This oil is in the trial already.",
            )
        ]

    def __str__(self) -> str:
        return self.oil.name


class SealBreak(models.Model):
    """Somebody opened a sealed trial before its sittings were closed. Append-only."""

    trial = models.ForeignKey(Trial, on_delete=models.PROTECT, related_name="seal_breaks")
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    at = models.DateTimeField()
    why = models.TextField()

    def __str__(self) -> str:
        return f"{self.trial} opened by {self.who}"
