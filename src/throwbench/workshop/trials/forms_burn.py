"""One burn afterwards: what is noted when it is cold, and slips put right."""

from typing import Any

from django import forms
from django.db.models import Field

from throwbench.science.units import mg_of
from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.trials.asking import Question
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.sights import BEGUN, COLUMNS, ENDS, LOOKS, kept_as, label_of

YES_NO = {"": None, "yes": True, "no": False}


def yes_no(label: str, *, yes: str, no: str) -> forms.TypedChoiceField:
    return forms.TypedChoiceField(
        label=label,
        choices=[("", "not looked at"), ("yes", yes), ("no", no)],
        coerce=YES_NO.__getitem__,
        empty_value=None,
        required=False,
    )


def figure_box(name: str, *, label: str = "", required: bool = False) -> FigureField:
    """The box of one figure, by the field that keeps it; seconds have no other unit."""
    unit = COLUMNS[name].unit
    inside = "" if unit == "s" else unit
    return FigureField(
        label=label or label_of(name), unit=inside, shown_unit=unit, required=required
    )


class AskedForm(EntryForm):
    """A form that may be asked back; `sure` confirms what was typed."""

    sure = forms.BooleanField(label="It is so: note it", required=False)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.questions: tuple[Question, ...] = ()

    def shown(self) -> list[forms.BoundField]:
        """The boxes, without what is asked back."""
        return [field for field in self.visible_fields() if field.name != "sure"]


class AfterForm(AskedForm):
    """What is weighed and seen once a candle is out or cold; what is noted is not asked again."""

    mass_after_g = FigureField(label="Mass, cold", unit="g", possible=(0, 50_000), required=False)
    wax_left_mm = FigureField(
        label=label_of("wax_left_mm"), unit="mm", required=False,
        help_text="depth, measured with a stick",
    )  # fmt: skip
    frosting = yes_no("Frosting", yes="pale crystals", no="none")
    wet_spots = yes_no("Wet spots", yes="wax has let go of the vessel", no="none")
    relit = yes_no("Once it was put out", yes="it burned again by itself", no="it stayed out")
    wick_moved = yes_no("Wick", yes="it floated or moved", no="it stands where it stood")
    vessel_damage = forms.ChoiceField(
        label="Vessel",
        choices=[
            ("", "not looked at"), ("none", "whole"), ("chip", "chip"), ("crack", "crack"),
            ("leak", "leak"),
        ],
        required=False,
    )  # fmt: skip
    afterglow_s = figure_box("afterglow_s")
    note = forms.CharField(label="In your own words", max_length=400, required=False)

    def __init__(self, burn: Burn, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in [name for name in self.fields if name not in ("sure", "entry")]:
            if getattr(burn, kept_as(name)) not in (None, ""):
                del self.fields[name]

    def told(self) -> dict[str, Any]:
        """What goes to the service."""
        told = dict(self.cleaned_data)
        grams = told.pop("mass_after_g", None)
        return {**told, "mass_after_mg": mg_of(grams)}


class SlipForm(AskedForm):
    """One field of a row, what it should have been, and why."""

    field = forms.ChoiceField(label="What was wrong")
    value = forms.CharField(
        label="What it should be",
        required=False,
        help_text="A figure, or one of its words. Empty takes it back: it was not looked at.",
    )
    why = forms.CharField(label="Why", max_length=200)

    def __init__(self, row: Burn | Check, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.row = row
        names = (*BEGUN, *ENDS, "put_out") if isinstance(row, Burn) else LOOKS
        there = [name for name in names if getattr(row, name) not in (None, "")]
        choices = [(name, f"{label_of(name)}: {_now(row, name)}") for name in there]
        self.fields["field"].choices = choices  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        told = super().clean() or {}
        name, text = told.get("field"), str(told.get("value", "")).strip()
        if name:
            told["value"] = self._read(name, text) if text else None
        return told

    def _read(self, name: str, text: str) -> Any:
        column: Field[Any, Any] = self.row._meta.get_field(name)  # type: ignore[assignment]
        kind = column.get_internal_type()
        if kind == "BooleanField":
            return YES_NO[_one_of(text.lower(), {"yes": "yes", "no": "no"})]
        if column.choices:
            words = {str(said).lower(): str(word) for word, said in column.flatchoices}
            return _one_of(text.lower(), {**{word: word for word in words.values()}, **words})
        if kind == "TextField":
            return text
        figure = _figure(name, text)
        return mg_of(figure) if name.endswith("_mg") else figure


def _one_of(text: str, words: dict[str, str]) -> str:
    if text not in words:
        raise forms.ValidationError(
            f"“{text}” is none of its words. Allowed: {', '.join(words)}. Write one of them."
        )
    return words[text]


def _figure(name: str, text: str) -> float:
    return float(figure_box(name, required=True).clean(text))


def _now(row: Burn | Check, name: str) -> str:
    """What the row says now, as it is shown in the list."""
    value = getattr(row, name)
    if isinstance(value, bool):
        return "yes" if value else "no"
    said = getattr(row, f"get_{name}_display", None)
    if said is not None:
        return str(said())
    return (
        f"{value / 1000:g} g"
        if name.endswith("_mg")
        else f"{value:g}"
        if isinstance(value, float)
        else str(value)
    )
