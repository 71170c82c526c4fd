"""What is put right on the page of one candle."""

from django import forms

from throwbench.workshop.house.forms import FigureField


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


class ShelfForm(forms.Form):
    shelf = forms.CharField(label="Where it cures", max_length=60, required=False)
