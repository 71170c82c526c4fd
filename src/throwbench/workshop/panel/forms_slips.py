"""Slips typed in fast: a small box a question, "?" for "cannot tell", an empty row for no slip."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.panel.asks import Asked
from throwbench.workshop.panel.models import Seat, Sniff
from throwbench.workshop.panel.services import TypedSlip

CANNOT_TELL = "?"
_WHOLE = re.compile(r"-?\d{1,3}")


class StepField(forms.CharField):
    """A step of the scale, "?" or nothing. Cleaned: the text as it is meant."""

    def __init__(self, asked: Asked, **options: Any) -> None:
        self.low, self.high = asked.answers[0][0], asked.answers[-1][0]
        longest = max(len(str(self.low)), len(str(self.high)))
        attrs = {"inputmode": "numeric", "autocomplete": "off", "class": "step"}
        attrs["maxlength"] = str(longest)
        super().__init__(label=asked.said, widget=forms.TextInput(attrs=attrs), **options)

    def clean(self, value: Any) -> str:
        text: str = super().clean(value).strip()
        is_step = _WHOLE.fullmatch(text) and self.low <= int(text) <= self.high
        if text and text != CANNOT_TELL and not is_step:
            raise ValidationError(
                f"“{text}” is no step here. {self.low} to {self.high} is read, or ? for "
                "“cannot tell”. Type what stands on the slip."
            )
        return text


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipRow:
    """The boxes of one tag."""

    seat: Seat
    steps: tuple[forms.BoundField, ...]
    clock: forms.BoundField
    word: forms.BoundField
    known: forms.BoundField

    @property
    def errors(self) -> list[str]:
        return [
            str(error) for field in (*self.steps, self.clock, self.word) for error in field.errors
        ]


class SlipsForm(EntryForm):
    """One assessor's slips: a row for each tag that is not given yet; how the nose is, once."""

    tired = forms.BooleanField(label="The nose is tired", required=False)
    perfume = forms.BooleanField(label="Wears perfume", required=False)

    def __init__(self, asked: Sequence[Asked], seats: Sequence[Seat], *args: Any, **options: Any):
        super().__init__(*args, **options)
        self.asked, self.seats = asked, seats
        for seat in seats:
            for one in asked:
                self.fields[_name(seat, one.attribute)] = StepField(one, required=False)
            self.fields[_name(seat, "clock")] = _time_as_written()
            self.fields[_name(seat, "word")] = forms.CharField(required=False, max_length=80)
            self.fields[_name(seat, "known")] = forms.BooleanField(required=False)

    def rows(self) -> Iterator[SlipRow]:
        for seat in self.seats:
            yield SlipRow(
                seat=seat,
                steps=tuple(self[_name(seat, one.attribute)] for one in self.asked),
                clock=self[_name(seat, "clock")],
                word=self[_name(seat, "word")],
                known=self[_name(seat, "known")],
            )

    def clean(self) -> dict[str, Any]:
        told = super().clean() or self.cleaned_data
        for seat in self.seats:
            self._whole_or_empty(seat, told)
        if not self.errors and not any(self._is_typed(seat, told) for seat in self.seats):
            raise ValidationError("No slip is typed. A row without a step is no slip. Type one.")
        return told

    def slips(self) -> list[TypedSlip]:
        """What was typed; rows that stayed empty are no slips."""
        told = self.cleaned_data
        return [
            TypedSlip(
                seat=seat,
                scores={a.attribute: meant(told[_name(seat, a.attribute)]) for a in self.asked},
                clock=told[_name(seat, "clock")],
                word=told[_name(seat, "word")],
                recognised=True if told[_name(seat, "known")] else None,
            )
            for seat in self.seats
            if self._is_typed(seat, told)
        ]

    def _is_typed(self, seat: Seat, told: dict[str, Any]) -> bool:
        names = (*(one.attribute for one in self.asked), "clock", "word", "known")
        return any(told.get(_name(seat, name)) for name in names)

    def _whole_or_empty(self, seat: Seat, told: dict[str, Any]) -> None:
        for one in self.asked:
            name = _name(seat, one.attribute)
            if self._is_typed(seat, told) and told.get(name) == "":
                self.add_error(
                    name,
                    f"“{one.said}” is empty for {seat.tag}. A step or ? is read. Type one, or "
                    "leave the whole row empty.",
                )


class PutRightForm(forms.Form):
    """What one nose gave at one tag, as noted; a change needs its reason."""

    word = forms.CharField(label="One word for it", required=False, max_length=80)
    why = forms.CharField(label="Why it is put right", max_length=200)

    def __init__(self, asked: Sequence[Asked], *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.asked = asked
        for one in asked:
            self.fields[one.attribute] = StepField(one, required=True)
        self.order_fields([one.attribute for one in asked])

    @classmethod
    def of(cls, sniff: Sniff, asked: Sequence[Asked]) -> "PutRightForm":
        """The form with what is noted now."""
        noted = {
            one.attribute: CANNOT_TELL if one.value is None else one.value
            for one in sniff.scores.all()
        }
        return cls(asked, initial={**noted, "word": sniff.word})

    def scores(self) -> dict[str, int | None]:
        return {one.attribute: meant(self.cleaned_data[one.attribute]) for one in self.asked}


def _time_as_written() -> forms.TimeField:
    attrs = {"type": "time", "autocomplete": "off"}
    widget = forms.TimeInput(attrs=attrs, format="%H:%M")
    return forms.TimeField(label="Time, as written", required=False, widget=widget)


def meant(text: str) -> int | None:
    return None if text == CANNOT_TELL else int(text)


def _name(seat: Seat, what: str) -> str:
    return f"{seat.tag}_{what}"
