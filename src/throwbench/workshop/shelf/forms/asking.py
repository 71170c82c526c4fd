"""A form in groups, that asks about what is unlikely before it keeps it."""

from collections.abc import Iterator, Mapping
from typing import Any, ClassVar

from django import forms
from django.forms import BoundField

from throwbench.science.units import mg_of
from throwbench.workshop.house.forms import FigureField
from throwbench.workshop.house.forms_change import ChangeForm
from throwbench.workshop.shelf.models import Supplier

THREE_WAYS = {"": None, "yes": True, "no": False}
WHY = forms.CharField(
    label="Why it changes",
    max_length=200,
    required=False,
    help_text="Empty is noted as “new paper”. What it was stays visible.",
)


class AskingForm(ChangeForm):
    """`groups` name the fields under each head; `unlikely` says what to ask about."""

    sure = forms.BooleanField(required=False, label="I looked again: these figures are right")
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = ()
    may_fold: ClassVar[tuple[str, ...]] = ()
    in_pairs = False

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.asks = False
        for field in self.fields.values():
            field.error_messages["required"] = (
                f"{field.label} is empty. It is needed here. Fill it in."
            )

    def unlikely(self, told: Mapping[str, Any]) -> list[str]:
        """Questions about what was told; none by default."""
        return []

    def clean(self) -> dict[str, Any]:
        told = super().clean()
        questions = self.unlikely(told)
        self.asks = bool(questions)
        for question in [] if told.get("sure") else questions:
            self.add_error(None, question)
        return told

    def facts(self) -> dict[str, Any]:
        """What was told, without the answer to a question."""
        return {name: value for name, value in self.cleaned_data.items() if name != "sure"}

    def grouped(self) -> Iterator[tuple[str, list[BoundField]]]:
        """The fields under their heads, in the order in which they are asked."""
        for head, names in self.groups:
            shown = [self[name] for name in names if name in self.fields]
            if shown:
                yield head, shown

    def folded(self) -> list[str]:
        """Heads of `may_fold` under which nothing stands and nothing is wrong."""
        return [
            head
            for head, fields in self.grouped()
            if head in self.may_fold and not any(one.value() or one.errors for one in fields)
        ]

    def suppliers(self) -> list[str]:
        """Names to choose from while typing."""
        return list(Supplier.objects.values_list("name", flat=True))


class AmountField(FigureField):
    """A weight as people write it, kept in mg."""

    def __init__(self, **options: Any) -> None:
        super().__init__(unit="g", possible=(0.001, 10_000_000), **options)

    def clean(self, value: Any) -> Any:
        return mg_of(super().clean(value))


class PriceField(FigureField):
    """A price in euros, kept in cents."""

    def __init__(self, **options: Any) -> None:
        super().__init__(shown_unit="€", possible=(0, 1_000_000), **options)

    def clean(self, value: Any) -> Any:
        euros = super().clean((value or "").replace("€", ""))
        return None if euros is None else round(euros * 100)


class DayField(forms.DateField):
    """A day; empty is not known."""

    def __init__(self, **options: Any) -> None:
        super().__init__(
            widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
            required=False,
            error_messages={
                "invalid": "That is not a day. A day has year, month and day. "
                "Write it like 2027-05-24."
            },
            **options,
        )


def three_ways(label: str) -> forms.TypedChoiceField:
    """A tick that may be unknown."""
    return forms.TypedChoiceField(
        label=label,
        choices=[("", "not known"), ("yes", "yes"), ("no", "no")],
        coerce=THREE_WAYS.__getitem__,
        empty_value=None,
        required=False,
    )


def three_ways_word(value: bool | None) -> str:
    """The choice that stands for a value."""
    return {kept: word for word, kept in THREE_WAYS.items()}[value]


def supplier_field() -> forms.CharField:
    """A supplier by name, made in passing."""
    return forms.CharField(
        label="Supplier",
        max_length=80,
        required=False,
        widget=forms.TextInput(attrs={"list": "suppliers", "autocomplete": "off"}),
        help_text="A new name makes a new supplier.",
    )
