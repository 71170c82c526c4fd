"""Wicks, fixings, vessels, single pieces and lots."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms

from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.shelf import plausible
from throwbench.workshop.shelf.forms.asking import (
    WHY,
    AmountField,
    AskingForm,
    DayField,
    PriceField,
    supplier_field,
)
from throwbench.workshop.shelf.models import FixingKind, Flaw, Vessel
from throwbench.workshop.shelf.services.vessels import LESS

FLAW_NOTE_HELP = "What and where: a chip at the rim."


class WickForm(AskingForm):
    series = forms.CharField(label="Series", max_length=60, help_text="As it is sold: flat cotton.")
    size = forms.CharField(label="Size", max_length=20)
    material = forms.CharField(label="Material", max_length=60, required=False)
    supplier = supplier_field()
    groups: ClassVar = (("", ("series", "size", "material", "supplier")),)


class FixingForm(AskingForm):
    name = forms.CharField(label="Name", max_length=80)
    kind = forms.ChoiceField(label="Kind", choices=FixingKind)
    groups: ClassVar = (("", ("name", "kind")),)


class VesselForm(AskingForm):
    name = forms.CharField(label="Name", max_length=80)
    material = forms.CharField(
        label="Material", max_length=40, required=False, help_text="Glass, tin, stoneware."
    )
    inside_mm = FigureField(
        label="Inside diameter",
        unit="mm",
        possible=(10, 500),
        required=False,
        help_text="Where the wax stands. “3 in” is read too.",
    )
    height_mm = FigureField(label="Height inside", unit="mm", possible=(5, 1000), required=False)
    brim_ml = FigureField(
        label="Volume to the brim",
        unit="ml",
        possible=(1, 20_000),
        required=False,
        help_text="Fill it with water on the scale: 1 g is 1 ml.",
    )
    groups: ClassVar = (
        ("The vessel", ("name", "material")),
        ("Measures", ("inside_mm", "height_mm", "brim_ml")),
        ("Besides", ("why",)),
    )

    def unlikely(self, told: Mapping[str, Any]) -> list[str]:
        return plausible.of_vessel(told)


class VesselChangeForm(VesselForm):
    why = WHY

    @classmethod
    def of(cls, vessel: Vessel, sent: Any = None) -> "VesselChangeForm":
        known = (name for name in VesselForm.base_fields if name != "sure")
        return cls(sent, known={name: getattr(vessel, name) for name in known})


class PieceForm(AskingForm):
    name = forms.CharField(label="Name", max_length=40, help_text="Write it under the base.")
    flaw = forms.ChoiceField(label="Flaw", choices=Flaw)
    flaw_note = forms.CharField(
        label="What it is", max_length=200, required=False, help_text=FLAW_NOTE_HELP
    )
    groups: ClassVar = (("", ("name", "flaw", "flaw_note")),)


class FlawForm(AskingForm):
    """A flaw that was seen; only what is as bad or worse than the one noted."""

    flaw = forms.ChoiceField(label="What was seen")
    note = forms.CharField(
        label="What it is", max_length=200, required=False, help_text=FLAW_NOTE_HELP
    )
    groups: ClassVar = (("", ("flaw", "note")),)

    def __init__(self, noted: str, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["flaw"]
        assert isinstance(field, forms.ChoiceField)
        least = max(LESS[Flaw(noted)], 1)
        field.choices = [choice for choice in Flaw.choices if LESS[Flaw(choice[0])] >= least]


class FlawRightForm(AskingForm):
    flaw = forms.ChoiceField(label="What is right", choices=Flaw)
    note = forms.CharField(label="What it is", max_length=200, required=False)
    why = forms.CharField(
        label="Why it was noted by mistake",
        max_length=200,
        help_text="It stays visible, with what was noted before.",
    )
    groups: ClassVar = (("", ("flaw", "note", "why")),)


class WashForm(EntryForm):
    """Only the press and its id."""


class LotForm(AskingForm):
    """A delivery: a weight of wax and oil, a count of wicks and vessels."""

    code = forms.CharField(label="Lot", max_length=40, help_text="As it stands on the label.")
    came_on = DayField(label="Came on")
    amount_mg = AmountField(
        label="Amount", required=False, help_text="“16 oz” is read too. Empty is not known."
    )
    count = FigureField(label="Count", shown_unit="pieces", possible=(1, 1_000_000), required=False)
    price_cents = PriceField(label="Price of all of it", required=False)
    groups: ClassVar = (("", ("code", "came_on", "amount_mg", "count", "price_cents")),)

    def __init__(self, *args: Any, is_counted: bool, **options: Any) -> None:
        super().__init__(*args, **options)
        del self.fields["amount_mg" if is_counted else "count"]

    def clean_count(self) -> int | None:
        count: float | None = self.cleaned_data["count"]
        if count is not None and count != int(count):
            raise forms.ValidationError(
                f"The count is {count:g}. Pieces are counted whole. Write a whole number."
            )
        return None if count is None else int(count)
