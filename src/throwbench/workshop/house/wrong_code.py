"""A wrong code that somebody typed. Rows, so that a restart forgives nothing."""

from typing import ClassVar

from django.db import models


class WrongCode(models.Model):
    """When it was typed; what was typed and by whom is not kept."""

    at = models.DateTimeField()

    class Meta:
        app_label = "house"
        indexes: ClassVar = [models.Index(fields=["at"], name="house_wrong_at_idx")]

    def __str__(self) -> str:
        return f"wrong code at {self.at:%H:%M}"
