"""What a box says that was filled in wrongly: sentences of the house for Django's own."""

from typing import Any

from django import forms
from django.core import validators
from django.db import models

EMPTY = "This is empty. It is needed here. Fill it in."
ONE_OF_THE_LIST = "is not among the choices. Only those of the list are. Choose one of them."
DAY = "That is no day. A day has year, month and day. Write it like 2027-05-24."
TIME = "That is no time. A time has hour and minute. Write it like 09:05."
MOMENT = "That is no day and time. Both are needed. Write them like 2027-05-24 and 09:05."
OF_FIELDS: dict[type[Any], dict[str, str]] = {
    forms.Field: {"required": EMPTY},
    forms.ChoiceField: {"invalid_choice": f"“%(value)s” {ONE_OF_THE_LIST}"},
    forms.MultipleChoiceField: {
        "invalid_choice": f"“%(value)s” {ONE_OF_THE_LIST}",
        "invalid_list": f"What came {ONE_OF_THE_LIST}",
    },
    forms.ModelChoiceField: {"invalid_choice": f"What came {ONE_OF_THE_LIST}"},
    forms.ModelMultipleChoiceField: {
        "invalid_choice": f"“%(value)s” {ONE_OF_THE_LIST}",
        "invalid_list": f"What came {ONE_OF_THE_LIST}",
        "invalid_pk_value": f"“%(pk)s” {ONE_OF_THE_LIST}",
    },
    forms.IntegerField: {"invalid": "That is no whole number. One is needed. Write it like 12."},
    forms.DateField: {"invalid": DAY},
    forms.TimeField: {"invalid": TIME},
    forms.DateTimeField: {"invalid": MOMENT},
    forms.MultiValueField: {"invalid": MOMENT, "incomplete": MOMENT},
    forms.SplitDateTimeField: {"invalid_date": DAY, "invalid_time": TIME},
    forms.FileField: {
        "invalid": "What came is no file. One is needed. Choose it once more.",
        "missing": "No file came. One is needed. Choose it once more.",
        "empty": "The file is empty. One that holds something is needed. Choose another.",
    },
    models.Field: {
        "blank": EMPTY,
        "null": EMPTY,
        "invalid_choice": f"“%(value)s” {ONE_OF_THE_LIST}",
    },
}
OF_VALIDATORS: dict[type[Any], str] = {
    validators.ProhibitNullCharactersValidator: "An invisible character stands in it, which no "
    "keyboard makes. Letters, digits and signs are kept. Write it anew.",
    validators.MaxLengthValidator: "This has %(show_value)d characters. At most %(limit_value)d "
    "are kept. Shorten it.",
    validators.MinValueValidator: "%(show_value)s is too low. It is %(limit_value)s or more. "
    "Check the figure.",
    validators.MaxValueValidator: "%(show_value)s is too high. It is %(limit_value)s or less. "
    "Check the figure.",
}


def speak_as_the_house_does() -> None:
    """Once, before any form is made: what a field says is read from its class."""
    for kind, words in OF_FIELDS.items():
        kind.default_error_messages = {**kind.default_error_messages, **words}
    for checked, sentence in OF_VALIDATORS.items():
        checked.message = sentence
