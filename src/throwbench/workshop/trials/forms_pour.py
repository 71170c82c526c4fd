"""What is asked at the bench. Every form carries an entry of its own."""

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.forms.boundfield import BoundWidget

from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.shelf.models import Lot
from throwbench.workshop.trials.forms_plan import DayInput
from throwbench.workshop.trials.models import Pour, TestCandle
from throwbench.workshop.trials.models.pour import Basis, Step
from throwbench.workshop.trials.selectors.pour_page import Waiting, can_be_poured, planned_for

SURE = "sure"
"""Name of the buttons that answer a question: "guess" takes what was meant, "typed" what was."""


class BeginForm(EntryForm):
    """A pitcher for one oil."""

    load_percent = FigureField(label="Load", unit="%", possible=(0.01, 40))
    basis = forms.ChoiceField(
        label="Counted against",
        choices=Basis,
        help_text="8 % of wax is 7.41 % of the total; 8 % of total is 8.7 % of wax.",
    )
    wax_g = FigureField(label="Wax planned", unit="g", possible=(0.001, 50_000), required=False)
    wax_lot = forms.ModelChoiceField(
        Lot.objects.none(), label="Lot of wax", required=False, empty_label="not known"
    )
    oil_lot = forms.ModelChoiceField(
        Lot.objects.none(), label="Lot of oil", required=False, empty_label="not known"
    )

    def __init__(self, oil: int, wax: int, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for name, lots in (("oil_lot", Lot.objects.filter(oil=oil)), ("wax_lot", _of(wax))):
            field = self.fields[name]
            assert isinstance(field, forms.ModelChoiceField)
            field.queryset = lots

    @staticmethod
    def of(sums: Waiting) -> dict[str, Any]:
        """What is planned, ready in the form."""
        return {"load_percent": sums.load_percent, "wax_g": sums.wax_g}


def _of(wax: int) -> QuerySet[Lot]:
    return Lot.objects.filter(wax=wax)


class WeighForm(EntryForm):
    """What the scale shows."""

    grams = FigureField(label="The scale shows", unit="g", possible=(0.001, 50_000))
    step_g = FigureField(label="Step of the scale", unit="g", possible=(0.001, 50), required=False)


class TemperatureForm(EntryForm):
    """One reading, with its instrument."""

    step = forms.ChoiceField(label="When", choices=Step)
    celsius = FigureField(label="It shows", unit="°C", possible=(-20, 300))
    instrument = forms.CharField(label="Read with", max_length=60, required=False)

    def __init__(self, last: str, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["celsius"].help_text = last


class CandlesField(forms.ModelMultipleChoiceField):  # type: ignore[type-arg]
    """Test candles by their code, with what stands ready for each."""

    def label_from_instance(self, obj: TestCandle) -> str:
        ready = [str(obj.combination.wick), str(obj.piece or obj.combination.vessel)]
        return f"{obj.code}|{', '.join(ready)}"


class PouredForm(EntryForm):
    """Which candles were poured, and how long it was stirred."""

    candles = CandlesField(
        TestCandle.objects.none(), label="Poured", widget=forms.CheckboxSelectMultiple
    )
    stirred_min = FigureField(label="Stirred for", unit="min", possible=(0, 120), required=False)
    poured_on = forms.DateField(
        label="Poured on another day",
        required=False,
        widget=DayInput(),
        help_text="Empty is today. For a candle that was poured before you began here.",
    )
    note = forms.CharField(label="Note", max_length=400, required=False)

    def __init__(self, pour: Pour, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["candles"]
        assert isinstance(field, forms.ModelMultipleChoiceField)
        field.queryset = can_be_poured(pour)
        field.initial = [one.pk for one in planned_for(pour)]
        field.error_messages["required"] = (
            "No candle is ticked. A pour fills at least one. Tick the candles you poured."
        )

    def boxes(self) -> list[tuple[BoundWidget, str, str]]:
        """Each box with its code and with what stands ready."""
        split = [(box, str(box.choice_label).partition("|")) for box in self["candles"]]
        return [(box, code, ready) for box, (code, _, ready) in split]

    @property
    def stirred_s(self) -> int | None:
        minutes = self.cleaned_data["stirred_min"]
        return None if minutes is None else round(minutes * 60)
