"""What a guest answers at one tag: one press each, and "cannot tell" is a full answer."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.house.names import for_a_list
from throwbench.workshop.panel.asks import Asked

CANNOT_TELL = "none"
NO_ANSWER = "Nothing is pressed here. One step or “cannot tell” is an answer. Press one of them."


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One question as it stands on the page."""

    asked: Asked
    pressed: str
    errors: Sequence[str]

    @property
    def answers(self) -> tuple[tuple[int, str, bool], ...]:
        """Step, word, and whether it is pressed."""
        return tuple((step, word, str(step) == self.pressed) for step, word in self.asked.answers)

    @property
    def cannot_tell(self) -> bool:
        return self.pressed == CANNOT_TELL


class ScoreForm(EntryForm):
    """One radio group a question; `nose` says whom the page was for."""

    nose = forms.IntegerField(widget=forms.HiddenInput)
    word = forms.CharField(required=False, max_length=80)
    known = forms.BooleanField(required=False)

    def __init__(self, asked: Sequence[Asked], *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.asked = asked
        for question in asked:
            steps = [(str(step), word) for step, word in question.answers]
            self.fields[question.attribute] = forms.ChoiceField(
                label=question.said,
                widget=forms.RadioSelect,
                choices=[*steps, (CANNOT_TELL, "cannot tell")],
                error_messages={"required": NO_ANSWER},
            )

    def questions(self) -> Iterator[Shown]:
        for question in self.asked:
            field = self[question.attribute]
            errors = [str(error) for error in field.errors]
            yield Shown(asked=question, pressed=str(field.value() or ""), errors=errors)

    def scores(self) -> dict[str, int | None]:
        """The step of each attribute; None is "cannot tell"."""
        pressed = {one.attribute: self.cleaned_data[one.attribute] for one in self.asked}
        return {name: None if it == CANNOT_TELL else int(it) for name, it in pressed.items()}


class SomeoneElseForm(forms.Form):
    """A name; where somebody has it already, whether that is who types, and the digits."""

    name = forms.CharField(label="Your name", max_length=200)
    same = forms.BooleanField(required=False)
    code = forms.CharField(required=False, max_length=4)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        del self.fields["name"].widget.attrs["maxlength"]  # else it is cut without a word

    def clean_name(self) -> str:
        try:
            return for_a_list(self.cleaned_data["name"])
        except UnclearError as error:
            raise ValidationError(str(error)) from error


class WayBackForm(forms.Form):
    """The digits are hidden as they are typed: others look on."""

    code = forms.CharField(
        label="The four digits",
        max_length=4,
        widget=forms.PasswordInput(attrs={"inputmode": "numeric", "autocomplete": "off"}),
    )
