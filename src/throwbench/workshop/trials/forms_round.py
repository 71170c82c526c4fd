"""The burn round: one form for each candle that is lit."""

from collections.abc import Mapping
from datetime import datetime, time, timedelta
from typing import Any

from django import forms
from django.utils import timezone

from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.house.models import Person
from throwbench.workshop.house.selectors import people
from throwbench.workshop.trials.asking import Question
from throwbench.workshop.trials.forms_burn import figure_box
from throwbench.workshop.trials.models import Burn
from throwbench.workshop.trials.selectors.burns import Lit
from throwbench.workshop.trials.services.together import Look
from throwbench.workshop.trials.sights import COLUMNS, LOOKS, label_of

ANSWERS = [
    ("same", "No change"),
    ("changed", "Changed"),
    ("out", "Put out"),
    ("not seen", "Not seen"),
]
FIGURES = tuple(name for name in LOOKS if COLUMNS[name].unit)
"""What may be measured."""
GRADED = tuple(
    name for name in LOOKS if COLUMNS[name].words and name not in ("flame", "flare_up", "soot")
)
"""What is looked at beside the list of what everybody looks at."""
END_TICKS = ("crack", "itself", "end")
AFTER_TICKS = ("relit", "wick_moved", "chip", "cracked", "leak")
DAMAGES = {"leak": "leak", "cracked": "crack", "chip": "chip"}
"""The worst one counts."""


def grades(name: str) -> list[tuple[str, str]]:
    """The words of a sight, as its record has them."""
    return COLUMNS[name].choices


def tick(label: str) -> forms.BooleanField:
    return forms.BooleanField(label=label, required=False)


class LookForm(forms.Form):
    """What is seen of one lit candle."""

    answer = forms.ChoiceField(choices=ANSWERS, initial="same", widget=forms.RadioSelect)
    over = tick("Flame over the mark")
    crack = tick("Crack or leak")
    itself = tick("Went out by itself")
    end = tick("Wax down to the end line")
    flare_up = forms.ChoiceField(
        label=label_of("flare_up"), choices=grades("flare_up"), initial="none",
        widget=forms.RadioSelect, required=False,
    )  # fmt: skip
    soot = forms.ChoiceField(
        label=label_of("soot"), choices=grades("soot"), initial="none",
        widget=forms.RadioSelect, required=False,
    )  # fmt: skip
    pool_full = tick("Liquid reaches the wall all round")
    until = tick("Until then: seen, no change")
    relit = tick("Burned again by itself")
    wick_moved = tick("The wick floated or moved")
    chip = tick("Chip in the vessel")
    cracked = tick("Crack in the vessel")
    leak = tick("The vessel leaks")
    none_of_these = tick("None of these: it stayed out, the wick stands, the vessel is whole")
    out_at = forms.TimeField(
        label="Out at, if that is not now",
        required=False,
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
    )
    afterglow_s = FigureField(
        label="Afterglow and aftersmoke", shown_unit="s", possible=(0, 3600), required=False
    )
    sure = tick("It is so: note it")
    out_now = tick("It is so, and it is out now")
    """A button of a question: over its limit, so it was put out."""

    def __init__(self, lit: Lit, now: datetime, data: Mapping[str, Any] | None = None) -> None:
        super().__init__(data, prefix=f"b{lit.burn.pk}")
        self.lit, self.now, self.about = lit, now, lit.code
        self.questions: tuple[Question, ...] = ()
        for name in FIGURES:
            self.fields[name] = figure_box(name)
        for name in GRADED:
            self.fields[name] = forms.ChoiceField(
                label=label_of(name),
                choices=[("", "not looked at"), *grades(name)],
                required=False,
            )

    def clean(self) -> dict[str, Any]:
        told = super().clean() or {}
        answer = told.get("answer")
        code = self.lit.code
        if answer == "same" and self._changes(told):
            raise forms.ValidationError(
                f"{code} stands on “No change”, and something is ticked below it. "
                "A change is noted under “Changed”. Press that, or take the tick out."
            )
        if answer == "changed" and not self._changes(told) and not self._figures(told):
            raise forms.ValidationError(
                f"{code} has changed, and nothing is ticked or measured. A change says what it is. "
                "Tick what you see, or press “No change”."
            )
        if told.get("none_of_these") and any(told.get(name) for name in AFTER_TICKS):
            raise forms.ValidationError(
                f"{code} has “none of these” and one of them. Only one can be so. Untick the other."
            )
        if answer == "changed" and told.get("flare_up") == "none" and told.get("flare_up_s"):
            raise forms.ValidationError(
                f"{code} has no flare-up and the length of one. Only one can be so. "
                "Choose how long it was, or empty the box."
            )
        return told

    @property
    def more(self) -> list[forms.BoundField]:
        """The boxes that need no words beside them."""
        names = [name for name in FIGURES if name not in ("pool_width_mm", "flame_mm")]
        return [self[name] for name in (*names, *GRADED)]

    @property
    def dashed(self) -> str:
        """What stands before the name of a field."""
        return f"{self.prefix}-"

    @property
    def puts_out(self) -> bool:
        """Whether it is asked about something for which a candle is put out at once."""
        return any(question.puts_out for question in self.questions)

    @property
    def figures_open(self) -> bool:
        """Whether the figures are shown: something is typed there, or asked about."""
        return bool(self.questions) or any(self[name].data for name in FIGURES if self.is_bound)

    @staticmethod
    def _changes(told: Mapping[str, Any]) -> bool:
        ticked = any(told.get(name) for name in ("over", "flare_up_s", *END_TICKS))
        return ticked or any(told.get(name) not in ("", "none") for name in ("flare_up", "soot"))

    @staticmethod
    def _figures(told: Mapping[str, Any]) -> dict[str, Any]:
        """What was measured or looked at beside the list."""
        names = (*FIGURES, *GRADED)
        found = {name: told[name] for name in names if told.get(name) not in (None, "")}
        return {**found, "pool_full": True} if told.get("pool_full") else found

    def look(self) -> Look | None:
        """What is to be noted; None where the candle was not seen."""
        told = self.cleaned_data
        answer = told["answer"]
        if answer == "not seen" and not told["out_now"]:
            return None
        is_out = answer == "out" or any(told[name] for name in ("out_now", *END_TICKS))
        return Look(
            burn=self.lit.burn,
            seen=self._seen(told),
            end=self._end(told) if is_out else None,
            out_at=self._out_at(told["out_at"]) if is_out and told["out_at"] else None,
            sure=told["sure"] or told["out_now"],
        )

    def _seen(self, told: Mapping[str, Any]) -> dict[str, Any]:
        if told["answer"] == "changed":
            flame = "over" if told["over"] else "" if told["out_now"] else "under"
            listed = {"flame": flame, "flare_up": told["flare_up"], "soot": told["soot"]}
            return {**listed, **self._figures(told)}
        if told["answer"] in ("out", "not seen") and not told["until"]:
            return self._figures(told)
        return {"no_change": True, **self._figures(told)}

    def _end(self, told: Mapping[str, Any]) -> dict[str, Any]:
        found: dict[str, Any] = {"put_out": "went out" if told["itself"] else "snuffed"}
        if told["none_of_these"] or any(told[name] for name in AFTER_TICKS):
            found["relit"], found["wick_moved"] = told["relit"], told["wick_moved"]
            damages = [word for name, word in DAMAGES.items() if told[name]]
            found["vessel_damage"] = (damages or ["none"])[0]
        if told["crack"] and found.get("vessel_damage") in (None, "none"):
            found["vessel_damage"] = "yes"
        if told["end"]:
            found["note"] = "down to the end line, as seen"
        return {**found, "afterglow_s": told["afterglow_s"]}

    def _out_at(self, clock: time) -> datetime:
        """The last time at which the clock showed this, if the candle was lit by then."""
        today = timezone.localtime(self.now)
        at = today.replace(hour=clock.hour, minute=clock.minute, second=0, microsecond=0)
        day_before = at - timedelta(days=1)
        return day_before if at > self.now and day_before > self.lit.burn.lit_at else at


class GoingForm(EntryForm):
    """The candles that the page showed as lit: all of them are out."""

    burns = forms.ModelMultipleChoiceField(
        Burn.objects.all(), widget=forms.MultipleHiddenInput,
        error_messages={"required": "No candle is lit. Nothing is to be put out. Go."},
    )  # fmt: skip


class HandedForm(GoingForm):
    """Who watches them from now on."""

    adult = forms.ModelChoiceField(
        Person.objects.none(), label="Handed to an adult who is in the room",
        empty_label="Choose a name", widget=forms.Select(attrs={"form": "hand-over"}),
    )  # fmt: skip

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["adult"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = people()
        field.error_messages["required"] = (
            "No name is chosen. A lit candle is handed to somebody who is there. Choose who."
        )
