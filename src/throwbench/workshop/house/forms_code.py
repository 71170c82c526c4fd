"""The box for a typed code."""

from typing import Any

from django import forms


class TypedCodeForm(forms.Form):
    """Read as it is typed: in small letters, with spaces or dashes, O for 0, I or L for 1."""

    code = forms.CharField(
        label="Type the code from the laptop",
        max_length=40,
        help_text="Eight letters and digits, as in K2F8 9QTM. Small letters and spaces are read.",
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["code"].widget.attrs |= {
            "autocomplete": "off",
            "autocapitalize": "characters",
            "spellcheck": "false",
        }
