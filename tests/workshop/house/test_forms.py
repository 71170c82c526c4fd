"""A box helps in the unit that it asks for."""

from typing import Any

import pytest
from django.core.exceptions import ValidationError

from throwbench.workshop.house.forms import FigureField


def refused(field: FigureField, typed: str) -> str:
    with pytest.raises(ValidationError) as error:
        field.clean(typed)
    return " ".join(error.value.messages)


@pytest.mark.parametrize(
    ("unit", "example"),
    [("°C", "“72” or “162F”"), ("g", "“5.5 oz” or “5,5 oz”"), ("", "“3.2” or “3,2”")],
)
def test_the_example_is_of_the_unit_of_the_box(unit: str, example: str) -> None:
    assert f"Write it like {example}" in refused(FigureField(unit=unit), "warm")


@pytest.mark.parametrize(("typed", "figure"), [("3.2", 3.2), ("3,2", 3.2), (" 4 ", 4), ("", None)])
def test_a_box_without_a_unit_takes_a_number(typed: str, figure: Any) -> None:
    assert FigureField(required=False).clean(typed) == figure


def test_a_box_without_a_unit_takes_no_unit() -> None:
    assert "is not a number" in refused(FigureField(), "3.2 g")
