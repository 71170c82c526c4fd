"""Judgements that are kept, and the decisions that rest on them. Both are append-only."""

from typing import ClassVar

from django.db import models

from throwbench.workshop.house.models import Person
from throwbench.workshop.trials.models import Candidate, Combination, Trial


class Judgement(models.Model):
    """What the engine said of one archive, once per digest of archive and engine."""

    trial = models.ForeignKey(Trial, on_delete=models.PROTECT, related_name="judgements")
    digest = models.CharField(max_length=64)
    engine = models.CharField(max_length=40, help_text="version that judged")
    day = models.DateField(help_text="the day it was asked for")
    made_at = models.DateTimeField()
    archive = models.BinaryField(help_text="the trial as a zip: what was judged")
    verdict = models.TextField(help_text="the verdict as JSON")

    class Meta:
        ordering = ("-made_at", "-id")
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["trial", "digest", "engine"],
                name="judged_once_a_digest",
                violation_error_message="These notes have been judged already.",
            )
        ]

    def __str__(self) -> str:
        return f"verdict of {self.day:%-d %B %Y} on {self.trial}"


class Outcome(models.TextChoices):
    JOINS = "joins the line", "joins the line"
    AGAIN = "test again", "test again"
    DROPPED = "dropped", "dropped"


class Decision(models.Model):
    """Who decided what, when, why, and on which judgement. The last one counts."""

    candidate = models.ForeignKey(Candidate, on_delete=models.PROTECT, related_name="decisions")
    combination = models.ForeignKey(Combination, on_delete=models.PROTECT, null=True, blank=True)
    outcome = models.CharField(max_length=20, choices=Outcome)
    why = models.TextField(blank=True)
    sell_none_before = models.TextField(blank=True)
    judgement = models.ForeignKey(Judgement, on_delete=models.PROTECT, null=True, blank=True)
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    at = models.DateTimeField()

    class Meta:
        ordering = ("-at", "-id")

    def __str__(self) -> str:
        return f"{self.candidate}: {self.outcome}"
