"""Forms that change what is there, while another browser, or another tab, may change it too."""

from collections.abc import Mapping
from copy import copy
from typing import Any

from django import forms

LINE_END = "\r\n"
"""As browsers send it, whatever was kept."""


class ChangeForm(forms.Form):
    """Writes what was changed in it, and leaves alone what was not.

    Each box carries, hidden, what stood in it when the page was opened. A box that was left alone
    takes up what is kept now; where both changed, the form comes back and asks.
    """

    def __init__(self, *args: Any, known: Mapping[str, Any] | None = None, **options: Any) -> None:
        """`known` is what is kept now, by field; None where something new is made."""
        if known is not None:
            options["initial"] = known
        super().__init__(*args, **options)
        self.meanwhile: dict[str, str] = {}
        self.stands_as(known or {})

    def stands_as(self, known: Mapping[str, Any]) -> None:
        """Say what is kept now in these boxes, before the form is read."""
        for name in known:
            self.fields[name].show_hidden_initial = True
        if self.is_bound:
            self._take_up(known)

    def _take_up(self, known: Mapping[str, Any]) -> None:
        told: Any = copy(self.data)
        for name in known:
            box, hidden = self.add_prefix(name), self.add_initial_prefix(name)
            seen, wrote = _plain(told.get(hidden, "")), _plain(told.get(box, ""))
            now = _plain(self._text(name, known[name]))
            if hidden not in told or seen == now:
                continue
            if wrote == seen:
                told[box] = now
            elif wrote != now:
                self.meanwhile[name] = self._question(name, seen=seen, now=now, wrote=wrote)
            told[hidden] = now  # who sends it again has read what it is now
        self.data = told

    def clean(self) -> dict[str, Any]:
        told = super().clean() or self.cleaned_data
        for name, question in self.meanwhile.items():
            self.add_error(name, question)
        return told

    def _text(self, name: str, value: Any) -> str:
        """As the box carries it."""
        field = self.fields[name]
        return str(field.hidden_widget().format_value(field.prepare_value(value)) or "")

    def _question(self, name: str, *, seen: str, now: str, wrote: str) -> str:
        was, found, own = (self._shown(name, text) for text in (seen, now, wrote))
        return (
            f"{self.fields[name].label} was {was} when this page was opened, and was changed to "
            f"{found} meanwhile. One of them is kept. Send this once more to keep {own}, or "
            f"write {found}."
        )

    def _shown(self, name: str, text: str) -> str:
        field = self.fields[name]
        choices: Any = field.choices if isinstance(field, forms.ChoiceField) else ()
        words = dict(choices)
        unit = getattr(field, "unit", "") if text else ""
        return f"“{words.get(text, text)}{unit and f' {unit}'}”" if text or words else "empty"


def _plain(text: str) -> str:
    return text.strip().replace(LINE_END, "\n")
