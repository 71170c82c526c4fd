"""What pages tell of the alarm, and the timer that somebody sets."""

import re
from datetime import UTC, datetime
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.house.models import Rung

LATEST_MS = 253_402_300_799_000
"""The end of the year 9999."""
_DEADLINE = re.compile(r"(burn|timer) [1-9]\d{0,17}")


class HeardForm(EntryForm):
    """Somebody tried a step of the ladder and says whether it was heard."""

    rung = forms.ChoiceField(choices=Rung.choices)
    heard = forms.ChoiceField(choices=[("yes", "Yes"), ("no", "No")])

    def told(self) -> dict[str, Any]:
        return {**self.cleaned_data, "heard": self.cleaned_data["heard"] == "yes"}


class RangForm(EntryForm):
    """An open page rang for a deadline."""

    deadline = forms.CharField(max_length=40)
    due = forms.IntegerField(min_value=0, max_value=LATEST_MS)
    rung = forms.ChoiceField(choices=[(Rung.PAGE, Rung.PAGE)])

    def clean_deadline(self) -> str:
        found: str = self.cleaned_data["deadline"]
        if not _DEADLINE.fullmatch(found):
            raise ValidationError(
                f"“{found}” is no deadline. One is a candle's burn or a timer. Load the page anew."
            )
        return found

    def told(self) -> dict[str, Any]:
        data = self.cleaned_data
        return {
            "deadline": data["deadline"],
            "due_at": datetime.fromtimestamp(data["due"] / 1000, tz=UTC),
            "entry": data["entry"],
        }


class TimerForm(EntryForm):
    """Words and minutes."""

    what = forms.CharField(
        label="What is due?",
        max_length=80,
        error_messages={
            "required": "The timer has no words. It says what is due. Name it, as “stir”."
        },
    )
    minutes = FigureField(
        label="Time",
        unit="min",
        possible=(1, 24 * 60),
        error_messages={"required": "No minutes are given. A timer has 1 min to 24 h. Give them."},
    )
