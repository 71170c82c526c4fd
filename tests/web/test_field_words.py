"""What a box says that was filled in wrongly is a sentence of the house, on every page."""

import importlib
import pkgutil
from collections.abc import Iterator

import pytest
from django import forms
from django.core.exceptions import ValidationError

import throwbench.web
import throwbench.workshop

STOCK = (
    *("This field", "This value", "Select a valid", "Enter a", "Enter one", "Ensure ", "Null "),
    *("Value ", "No file was", "The submitted file", "Upload a"),
)
NOT_SHOWN = (forms.UUIDField,)
"""A box that nobody fills in."""


def parts(package) -> Iterator[object]:
    for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
        if "form" in found.name and ".migrations" not in found.name:
            yield importlib.import_module(found.name)


def forms_of_the_house() -> list[type[forms.Form]]:
    found = {}
    for part in (*parts(throwbench.web), *parts(throwbench.workshop)):
        for one in vars(part).values():
            if isinstance(one, type) and issubclass(one, forms.Form):
                found[f"{one.__module__}.{one.__name__}"] = one
    return [found[name] for name in sorted(found) if name.startswith("throwbench.")]


def said_by(field: forms.Field) -> Iterator[str]:
    yield from map(str, field.error_messages.values())
    yield from (str(one.message) for one in field.validators if hasattr(one, "message"))
    for inner in getattr(field, "fields", ()):
        yield from said_by(inner)


@pytest.mark.parametrize("form", forms_of_the_house(), ids=lambda form: form.__name__)
def test_no_box_speaks_in_stock_words(form):
    for name, field in form.base_fields.items():
        if not isinstance(field, NOT_SHOWN):
            stock = [words for words in said_by(field) if words.startswith(STOCK)]
            assert not stock, f"{name}: {stock}"


def test_there_are_forms():
    assert len(forms_of_the_house()) > 30


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        (forms.CharField(), "", "This is empty. It is needed here. Fill it in."),
        (forms.ChoiceField(choices=[("1", "one")]), "9", "“9” is not among the choices. Only"),
        (forms.MultipleChoiceField(choices=[("1", "one")]), ["9"], "“9” is not among"),
        (forms.IntegerField(), "x", "That is no whole number."),
        (forms.IntegerField(min_value=1), "0", "0 is too low. It is 1 or more."),
        (forms.IntegerField(max_value=1), "2", "2 is too high. It is 1 or less."),
        (forms.CharField(max_length=2), "abc", "This has 3 characters. At most 2 are kept."),
        (forms.CharField(), "a\0b", "An invisible character stands in it"),
        (forms.DateField(), "soon", "That is no day."),
        (forms.SplitDateTimeField(), ["soon", "09:05"], "That is no day."),
    ],
)
def test_a_sentence_says_what_is_there_what_is_allowed_and_what_to_do(field, value, said):
    with pytest.raises(ValidationError) as refused:
        field.clean(value)
    (sentence,) = refused.value.messages
    assert sentence.startswith(said)
    assert sentence.count(". ") >= 2 or "choices. Only those of the list are." in sentence
