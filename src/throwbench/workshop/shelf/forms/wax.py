"""A wax with its wax card."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms

from throwbench.workshop.house.forms import FigureField
from throwbench.workshop.shelf import plausible
from throwbench.workshop.shelf.forms.asking import WHY, AskingForm, supplier_field
from throwbench.workshop.shelf.models import Wax


def _heat(label: str, hint: str = "") -> FigureField:
    return FigureField(label=label, unit="°C", possible=(0, 200), required=False, help_text=hint)


def _density(label: str) -> FigureField:
    return FigureField(label=label, unit="g/ml", possible=(0.5, 1.5), required=False)


class WaxForm(AskingForm):
    name = forms.CharField(label="Name", max_length=80)
    supplier = supplier_field()
    melts_at_c = _heat("Melts at", "“185F” is read too.")
    never_above_c = _heat("Never above", "The card's maximum temperature.")
    add_oil_low_c = _heat("Add oil from")
    add_oil_high_c = _heat("Add oil up to")
    stir_min = FigureField(label="Stir", unit="min", possible=(0, 120), required=False)
    pour_low_c = _heat("Pour from")
    pour_high_c = _heat("Pour up to")
    cure_days = FigureField(
        label="Cure",
        shown_unit="days",
        possible=(0, 365),
        required=False,
        help_text="Days from pouring to the first sniff that counts.",
    )
    max_load_percent = FigureField(
        label="Maximum load of wax",
        unit="%",
        shown_unit="% of wax",
        possible=(0.01, 40),
        required=False,
        help_text="Oil for 100 g of wax. “1 oz per lb” is read too.",
    )
    liquid_g_ml = _density("Density, liquid")
    solid_g_ml = _density("Density, solid")
    note = forms.CharField(label="Note", required=False, widget=forms.Textarea(attrs={"rows": 3}))
    groups: ClassVar = (
        ("The wax", ("name", "supplier")),
        ("Limits", ("melts_at_c", "never_above_c", "max_load_percent")),
        ("Add oil, stir", ("add_oil_low_c", "add_oil_high_c", "stir_min")),
        ("Pour, cure", ("pour_low_c", "pour_high_c", "cure_days")),
        ("Densities", ("liquid_g_ml", "solid_g_ml")),
        ("Besides", ("note", "why")),
    )

    def clean_cure_days(self) -> int | None:
        days: float | None = self.cleaned_data["cure_days"]
        if days is not None and days != int(days):
            raise forms.ValidationError(
                f"The cure is {days:g} days. It is counted in whole days. Round it up."
            )
        return None if days is None else int(days)

    def unlikely(self, told: Mapping[str, Any]) -> list[str]:
        return plausible.of_wax(told)


class WaxChangeForm(WaxForm):
    why = WHY

    @classmethod
    def of(cls, wax: Wax, sent: Any = None) -> "WaxChangeForm":
        known = {name: getattr(wax, name) for name in WaxForm.base_fields if hasattr(wax, name)}
        return cls(sent, known={**known, "supplier": wax.supplier or ""})
