"""Lighting: which candles, then how they are lit."""

import re
from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime
from typing import Any

from django import forms
from django.core.validators import MinValueValidator
from django.utils import timezone

from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.house.selectors import house_figure, rooms
from throwbench.workshop.trials.asking import Question
from throwbench.workshop.trials.models import BurnKind, TestCandle
from throwbench.workshop.trials.selectors.light_page import candles_named
from throwbench.workshop.trials.sights import label_of
from throwbench.workshop.trials.times import local_day

KINDS = {
    BurnKind.WICK: "tries the wick; several candles may burn at once; "
    "its hot scores do not count by default.",
    BurnKind.NOSE: "for sniffing: one candle in one room, with time to air; "
    "its hot scores count after the cure.",
    BurnKind.LONG: "longer than usual, and somebody stays in the room all the while; "
    "its hot scores do not count by default.",
}


class CodesForm(forms.Form):
    """Codes off the tags, and candles ticked in the list."""

    candle = forms.MultipleChoiceField(required=False)
    codes = forms.CharField(
        label="Other codes",
        required=False,
        max_length=200,
        help_text="As on the tags: K7F M9C.",
        widget=forms.TextInput(attrs={"autocapitalize": "characters", "autocomplete": "off"}),
    )

    def __init__(self, data: Any) -> None:
        super().__init__(data)
        self.fields["candle"].choices = [(code, code) for code in data.getlist("candle")]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        told = super().clean() or {}
        typed = re.findall(r"\w+", told.get("codes", "").upper())
        wanted = list(dict.fromkeys([*told.get("candle", []), *typed]))
        self.found: Sequence[TestCandle] = candles_named(wanted)
        missing = [code for code in wanted if code not in {one.code for one in self.found}]
        if missing:
            raise forms.ValidationError(
                f"There is no candle {', '.join(missing)}. "
                "A code has three characters, without 0, O, 1 and I. Read the tag again."
            )
        return told


EARLIEST = datetime(2000, 1, 1, tzinfo=UTC)
"""No candle of a workshop was lit before; a year typed as 27 would be one of antiquity."""


class LightForm(EntryForm):
    """How candles are lit. The mass stands beside each code."""

    kind = forms.ChoiceField(
        label="Kind of burn", choices=BurnKind, initial=BurnKind.WICK, widget=forms.RadioSelect
    )
    room = forms.ModelChoiceField(
        rooms(), label="Room", required=False, empty_label="no room named"
    )
    room_c = FigureField(label=label_of("room_c"), unit="°C", required=False)
    trim_mm = FigureField(label=label_of("trim_mm"), unit="mm", required=False)
    scale_step_g = FigureField(
        label="Step of the scale", unit="g", possible=(0.0001, 50), required=False
    )
    lit_at = forms.SplitDateTimeField(
        label="Lit at",
        validators=[MinValueValidator(EARLIEST, "That is too long ago. Check the day.")],
        widget=forms.SplitDateTimeWidget(
            date_attrs={"type": "date", "aria-label": "Lit on, day"},
            time_attrs={"type": "time", "aria-label": "Lit at, time"},
            date_format="%Y-%m-%d",
            time_format="%H:%M",
        ),
    )
    limit_h = FigureField(label="Out after", unit="h", possible=(0.25, 24), required=False)
    sure = forms.BooleanField(label="Light all the same", required=False)

    def __init__(
        self,
        candles: Sequence[TestCandle],
        *,
        now: datetime,
        data: Mapping[str, Any] | None = None,
    ) -> None:
        super().__init__(data, initial={"lit_at": timezone.localtime(now)})
        self.candles = candles
        if len(candles) == 1:
            self._offer_nose_first()
        self.questions: tuple[Question, ...] = ()
        self._say_limits(local_day(now))
        for candle in candles:
            self.fields[mass_of(candle)] = FigureField(
                label=f"{candle}: mass before, cold", unit="g", possible=(0, 50_000), required=False
            )

    def _say_limits(self, day: date) -> None:
        short, long = (house_figure(rule, day) for rule in ("trim-short", "trim-long"))
        self.fields["trim_mm"].help_text = f"house limits: {short:g} to {long:g} mm"
        self.fields["limit_h"].help_text = (
            f"Empty: {house_figure('burn-length', day):g} h (house limit). "
            "Only a watched long burn may be longer."
        )

    def _offer_nose_first(self) -> None:
        """One candle alone is mostly lit to be sniffed, and a wick burn would not count."""
        others = [kind for kind in BurnKind if kind != BurnKind.NOSE]
        field = self.fields["kind"]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [(kind, kind.label) for kind in (BurnKind.NOSE, *others)]
        field.initial = BurnKind.NOSE

    def clean(self) -> dict[str, Any]:
        told = super().clean() or {}
        if told.get("kind") == BurnKind.LONG and "limit_h" in told and told["limit_h"] is None:
            raise forms.ValidationError(
                "A watched long burn has no end yet. It is put out at a time of its own. "
                "Say after how many hours."
            )
        return told

    @property
    def masses(self) -> list[forms.BoundField]:
        return [self[mass_of(candle)] for candle in self.candles]

    @property
    def kinds(self) -> list[tuple[Any, str, str]]:
        """Each kind with its radio, its name and what it is for."""
        radios = ((radio, BurnKind(radio.data["value"])) for radio in self["kind"])
        return [(radio, kind.label, KINDS[kind]) for radio, kind in radios]

    def candles_told(self) -> dict[TestCandle, dict[str, Any]]:
        """What is told of each candle by itself."""
        return {
            candle: {"mass_before_mg": _mg(self.cleaned_data[mass_of(candle)])}
            for candle in self.candles
        }

    def alike(self) -> dict[str, Any]:
        """What holds for all of them."""
        names = ("kind", "room", "room_c", "trim_mm", "lit_at", "limit_h", "sure", "entry")
        told = {name: self.cleaned_data[name] for name in names}
        return {**told, "scale_step_mg": _mg(self.cleaned_data["scale_step_g"])}


def mass_of(candle: TestCandle) -> str:
    return f"mass_{candle.code}"


def _mg(grams: float | None) -> int | None:
    return None if grams is None else round(grams * 1000)
