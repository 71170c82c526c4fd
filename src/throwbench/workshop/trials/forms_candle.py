"""What is put right on the page of one candle."""

from typing import Any

from django import forms

from throwbench.workshop.house.forms import FigureField
from throwbench.workshop.shelf.models import Flaw, Lot, Piece
from throwbench.workshop.trials.models import TestCandle


class SwapForm(forms.Form):
    """Two tags were swapped."""

    other = forms.CharField(
        label="Code on the other tag", max_length=8, help_text="Three characters, as in K7F."
    )
    why = forms.CharField(label="How do you know", max_length=300)


class SlipForm(forms.Form):
    """A weighing that was typed wrongly."""

    grams = FigureField(label="It was", unit="g", possible=(0.001, 50_000))
    why = forms.CharField(label="What happened", max_length=300)


class ReadingSlipForm(forms.Form):
    """A temperature that was read or typed wrongly."""

    celsius = FigureField(label="It was", unit="°C", possible=(-20, 300))
    why = forms.CharField(label="What happened", max_length=300)


class FitOutForm(forms.Form):
    """What one candle stands on, in and with."""

    shelf = forms.CharField(label="Where it stands", max_length=60, required=False)
    piece = forms.ModelChoiceField(
        Piece.objects.none(), label="Single vessel", required=False, empty_label="not named"
    )
    wick_lot = forms.ModelChoiceField(
        Lot.objects.none(), label="Lot of the wick", required=False, empty_label="not known"
    )

    def __init__(self, candle: TestCandle, *args: Any, **options: Any) -> None:
        known = {"shelf": candle.shelf, "piece": candle.piece, "wick_lot": candle.wick_lot}
        super().__init__(*args, **{"initial": known, **options})
        made = candle.combination
        pieces = Piece.objects.filter(vessel=made.vessel_id).exclude(flaw=Flaw.STRUCTURAL)
        for name, found in (("piece", pieces), ("wick_lot", Lot.objects.filter(wick=made.wick_id))):
            field = self.fields[name]
            assert isinstance(field, forms.ModelChoiceField)
            field.queryset = found
        if made.candidate.trial.is_sealed:  # a lot names its wick, and a wick may tell the oil
            del self.fields["wick_lot"]
