"""Oils: one line, the whole form, and papers."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms

from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.shelf import plausible
from throwbench.workshop.shelf.forms.asking import (
    WHY,
    AskingForm,
    DayField,
    supplier_field,
    three_ways,
    three_ways_word,
)
from throwbench.workshop.shelf.models import Oil, PaperKind
from throwbench.workshop.shelf.one_line import EXAMPLE

SHOWN = EXAMPLE.replace(" %", "\N{NO-BREAK SPACE}%")
TICKS = ("soap_thickens", "soap_seizes", "soap_browns", "soap_fades")


class LineForm(EntryForm):
    line = forms.CharField(
        label="One line per oil",
        max_length=300,
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "off"}),
        help_text=f"Type “{SHOWN}”: a name, then whatever you know. The oil's page says "
        "back what was read.",
        error_messages={
            "required": f"The line is empty. It begins with a name. Type it like “{EXAMPLE}”."
        },
    )


class OilForm(AskingForm):
    name = forms.CharField(label="Name", max_length=80)
    supplier = supplier_field()
    idea = forms.CharField(
        label="Idea",
        max_length=60,
        required=False,
        help_text="Oils of one idea are compared: rhubarb, harbour.",
    )
    flash_c = FigureField(
        label="Flash point",
        unit="°C",
        possible=(-50, 400),
        required=False,
        help_text="Its safety data sheet names it. “200F” is read too.",
    )
    density_g_ml = FigureField(
        label="Density at 20 °C", unit="g/ml", possible=(0.5, 2), required=False
    )
    vanillin_percent = FigureField(
        label="Vanillin", unit="%", possible=(0, 100), required=False, help_text="Of the oil."
    )
    soap_thickens = three_ways("Thickens")
    soap_seizes = three_ways("Seizes")
    soap_browns = three_ways("Browns")
    soap_fades = three_ways("Fades")
    soap_max_percent = FigureField(
        label="Own soap maximum",
        unit="%",
        possible=(0, 100),
        required=False,
        help_text="Of the soap. Your own limit.",
    )
    note = forms.CharField(label="Note", required=False, widget=forms.Textarea(attrs={"rows": 3}))
    groups: ClassVar = (
        ("The oil", ("name", "supplier", "idea")),
        ("From its papers", ("flash_c", "density_g_ml", "vanillin_percent")),
        ("In soap", (*TICKS, "soap_max_percent")),
        ("Besides", ("note", "why")),
    )
    may_fold = ("In soap",)

    def unlikely(self, told: Mapping[str, Any]) -> list[str]:
        return plausible.of_oil(told)


class OilChangeForm(OilForm):
    why = WHY

    @classmethod
    def of(cls, oil: Oil, sent: Any = None) -> "OilChangeForm":
        known = {name: getattr(oil, name) for name in OilForm.base_fields if hasattr(oil, name)}
        ticks = {name: three_ways_word(getattr(oil, name)) for name in TICKS}
        return cls(sent, known={**known, **ticks, "supplier": oil.supplier or ""})


class PaperForm(AskingForm):
    kind = forms.ChoiceField(label="Paper", choices=PaperKind)
    version = forms.CharField(label="Version", max_length=20, required=False)
    dated = DayField(label="Dated", help_text="Empty: it was only asked for.")
    valid_until = DayField(label="Valid until", help_text="Empty: it names no end.")
    asked_on = DayField(label="Asked for on")
    groups: ClassVar = (
        ("The paper", ("kind", "version", "dated", "valid_until")),
        ("Not there yet", ("asked_on",)),
    )
