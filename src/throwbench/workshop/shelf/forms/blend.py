"""A blend: up to six oils and their parts."""

from difflib import get_close_matches
from typing import Any, ClassVar

from django import forms

from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.shelf.forms.asking import AskingForm
from throwbench.workshop.shelf.models import Blend, Oil
from throwbench.workshop.shelf.selectors.blends import full_name, parts_of

ROWS = range(1, 7)
HOW = "An oil of the shelf by its name, and its parts by weight; they need not add up to 100."


class PartsForm(AskingForm, EntryForm):
    in_pairs = True
    groups: ClassVar = tuple((f"Oil {row}", (f"oil_{row}", f"parts_{row}")) for row in ROWS)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.oils = list(Oil.objects.select_related("supplier"))
        for row in ROWS:
            self.fields[f"oil_{row}"] = forms.CharField(
                label="Its name",
                required=False,
                widget=forms.TextInput(attrs={"list": "oils", "autocomplete": "off"}),
            )
            self.fields[f"parts_{row}"] = FigureField(
                label="Parts", shown_unit="parts", required=False
            )

    @classmethod
    def of(cls, blend: Blend) -> "PartsForm":
        known: dict[str, Any] = {}
        for row, part in zip(ROWS, parts_of(blend), strict=False):
            known |= {f"oil_{row}": full_name(part.oil), f"parts_{row}": part.parts}
        return cls(initial=known)

    def names(self) -> list[str]:
        """Every oil as it can be typed."""
        return [full_name(oil) for oil in self.oils]

    def clean(self) -> dict[str, Any]:
        told = super().clean()
        self.parts: dict[Oil, float] = {}
        for row in ROWS:
            self._take(row, told.get(f"oil_{row}") or "", told.get(f"parts_{row}"))
        return told

    def _take(self, row: int, name: str, parts: float | None) -> None:
        if not name and parts is None:
            return
        oil = self._oil(row, name)
        if oil is None or f"parts_{row}" in self.errors:
            return
        if parts is None:
            self.add_error(
                f"parts_{row}",
                f"{oil} has no parts. Each oil has its parts by weight. Write a number.",
            )
        elif oil in self.parts:
            self.add_error(
                f"oil_{row}",
                f"{oil} is named twice. A blend names each oil once. Add its parts together.",
            )
        else:
            self.parts[oil] = parts

    def _oil(self, row: int, name: str) -> Oil | None:
        wanted = name.casefold().strip()
        by_name = [oil for oil in self.oils if oil.name.casefold() == wanted]
        found = by_name if len(by_name) == 1 else []
        found += [oil for oil in self.oils if full_name(oil).casefold() == wanted]
        if found:
            return found[0]
        self.add_error(f"oil_{row}", self._unknown(name, is_double=len(by_name) > 1))
        return None

    def _unknown(self, name: str, *, is_double: bool) -> str:
        if is_double:
            return (
                f"Two oils are called {name}. An oil is named with its supplier then. "
                "Choose one of the list."
            )
        near = get_close_matches(name, [oil.name for oil in self.oils], n=1)
        do = f"Did you mean {near[0]}?" if near else "Put it on the shelf first, or choose another."
        return f"“{name}” is not an oil of this shelf. A part is an oil by its name. {do}"


class BlendForm(PartsForm):
    name = forms.CharField(label="Name of the blend", max_length=70)
    groups: ClassVar = (("The blend", ("name",)), *PartsForm.groups)
