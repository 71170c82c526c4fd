"""Fields that every form of the house uses: figures with a unit, and the entry's own id."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from throwbench.formats.numbers import could_be_thousands, plain_number
from throwbench.formats.problem import shown
from throwbench.formats.quantities import QuantityError, read_quantity
from throwbench.workshop.house.entries import new_entry_id


class FigureField(forms.CharField):
    """A quantity as people write it ("6,5", "185F", "3 oz"), in the inside unit `unit`.

    Parameters
    ----------
    unit : inside unit, as `formats.quantities` knows it: "g", "ml", "°C", "mm", "min", "h", "%"
    possible : inclusive range; outside it the figure is refused with a sentence
    """

    def __init__(
        self,
        *,
        unit: str = "",
        possible: tuple[float, float] | None = None,
        shown_unit: str | None = None,
        **options: Any,
    ) -> None:
        super().__init__(**options)
        self.inside_unit = unit
        self.unit = unit if shown_unit is None else shown_unit
        self.possible = possible
        self.widget.attrs.setdefault("inputmode", "decimal")
        self.widget.attrs.setdefault("autocomplete", "off")

    def prepare_value(self, value: Any) -> Any:
        return f"{value:.10g}" if isinstance(value, float | int) else value

    def clean(self, value: Any) -> Any:
        text = super().clean(value).strip()
        if not text:
            return None
        figure = self._read(text)
        if self.possible and not self.possible[0] <= figure <= self.possible[1]:
            low, high = self.possible
            raise ValidationError(
                f"{self.label} is {figure:.10g} {self.unit}; possible is {low:g} to {high:g} "
                f"{self.unit}. Check the figure and its unit."
            )
        return figure

    def _read(self, text: str) -> float:
        if could_be_thousands(text):
            raise ValidationError(
                f"“{text}” can be {text.replace(',', '.')} or {text.replace(',', '')}. "
                "Write it with a point, or without the comma."
            )
        try:
            return read_quantity(text, self.inside_unit) if self.inside_unit else _bare(text)
        except QuantityError as error:
            raise ValidationError(str(error)) from error


def _bare(text: str) -> float:
    """A figure of a box without a unit, as a step of a scale."""
    value = plain_number(text)
    if value is None:
        raise ValidationError(
            f"“{shown(text)}” is not a number; one number with one decimal point or comma is read. "
            "Write it like “3.2” or “3,2”."
        )
    return value


class EntryForm(forms.Form):
    """A form whose page made an id for it: sent twice, it is noted once."""

    entry = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["entry"].initial = new_entry_id
