"""What the maker fills in when an oil joins, is tested again, or is dropped."""

from collections.abc import Sequence
from typing import Any

from django import forms

from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.line.joining import Tried
from throwbench.workshop.line.models import Judgement, Outcome
from throwbench.workshop.line.pick import Waiting
from throwbench.workshop.trials.models import Candidate, Combination

WHY = "In your own words. It stands with the decision, and is never changed."


def _which(label: str, its: Sequence[Tried]) -> forms.TypedChoiceField:
    """One of its combinations, the best known chosen already."""
    made = {str(one.combination.pk): one.combination for one in its}
    return forms.TypedChoiceField(
        label=label,
        choices=[(str(one.combination.pk), one.joins_on) for one in its],
        coerce=lambda key: made[key],
        empty_value=None,
        initial=str(its[0].combination.pk),
        widget=forms.RadioSelect,
        required=False,
    )


class DecideForm(EntryForm):
    """One oil. The button that is pressed says what was decided."""

    outcome = forms.ChoiceField(choices=Outcome, label="What is decided")
    why = forms.CharField(label="Why", required=False, max_length=500, help_text=WHY)

    def __init__(self, *args: Any, its: Waiting, **options: Any) -> None:
        super().__init__(*args, **options)
        if its.to_choose:
            self.fields["combination"] = _which("Which combination joins?", its.to_choose)

    @property
    def named(self) -> Combination | None:
        chosen: Combination | None = self.cleaned_data.get("combination")
        return chosen


class JoinForm(EntryForm):
    """The whole pick: which combination, where an oil has more than one that is open."""

    why = forms.CharField(label="Why", required=False, max_length=500, help_text=WHY)
    seen = forms.CharField(required=False)

    def __init__(
        self, *args: Any, pick: Sequence[Waiting], judgement: Judgement, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.pick = [one for one in pick if not one.cannot]
        keys = [judgement.pk, *(one.candidate.pk for one in self.pick)]
        self.as_shown = ",".join(map(str, keys))
        for one in self.pick:
            if one.to_choose:
                label = f"{one.candidate}: which combination joins?"
                self.fields[one.field] = _which(label, one.to_choose)
        self.fields["why"] = self.fields.pop("why")

    def clean(self) -> dict[str, Any]:
        """Only what stood on the page joins."""
        if self.cleaned_data.get("seen") != self.as_shown:
            raise forms.ValidationError(
                "The verdict, or what may join, has changed since this page was opened. What is "
                "pressed has to be what was seen. Look at the list below, then press again."
            )
        return self.cleaned_data

    @property
    def chosen(self) -> dict[Candidate, Combination | None]:
        return {one.candidate: self.cleaned_data.get(one.field) for one in self.pick}
