"""A photo as it comes, and what is seen in it afterwards."""

from dataclasses import replace
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.trials.asking import Question
from throwbench.workshop.trials.forms_burn import AskedForm, figure_box, yes_no
from throwbench.workshop.trials.forms_round import FIGURES, grades
from throwbench.workshop.trials.photo_file import ALLOWED, LARGEST_BYTES, of_data_url
from throwbench.workshop.trials.sights import COLUMNS, LOOKS, label_of

NOT_LOOKED_AT = ("", "not looked at")
SIGHTS = tuple(name for name in LOOKS if COLUMNS[name].words)


class PhotoForm(EntryForm):
    """A picture: a file, or the text of one that the page made smaller."""

    photo = forms.FileField(required=False)
    photo_data = forms.CharField(required=False, strip=False)

    def clean_photo(self) -> bytes:
        file = self.cleaned_data["photo"]
        if file is not None and file.size > LARGEST_BYTES:
            raise ValidationError(
                f"“{file.name}” has {file.size / 1024**2:.1f} MB. {ALLOWED} Take it anew, smaller."
            )
        return b"" if file is None else bytes(file.read())

    def clean_photo_data(self) -> bytes:
        text = self.cleaned_data["photo_data"]
        try:
            return of_data_url(text) if text else b""
        except UnclearError as error:
            raise ValidationError(str(error)) from error

    def picture(self) -> bytes:
        """The bytes that came; what the page made smaller stands before the file."""
        told = self.cleaned_data
        return bytes(told["photo_data"] or told["photo"])


class ReadForm(AskedForm):
    """What a photo shows, which is no time. What stays empty was not looked at."""

    pool_full = yes_no("Melt pool", yes="full: it reaches the wall all round", no="not full")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in SIGHTS:
            self.fields[name] = forms.ChoiceField(
                label=label_of(name), choices=[NOT_LOOKED_AT, *grades(name)], required=False
            )
        for name in (name for name in FIGURES if COLUMNS[name].unit != "s"):
            wide = "Melt pool, widest" if name == "pool_width_mm" else ""
            self.fields[name] = figure_box(name, label=wide)

    @property
    def asked(self) -> list[Question]:
        """What is asked back. A photo cannot put a candle out; the round says that it must be."""
        return [replace(question, puts_out=False) for question in self.questions]
