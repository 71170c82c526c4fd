"""The records list what is scored and asked; every page, paper and file takes it from there."""

import pytest

from throwbench.records.attribute import ALL, ATTRIBUTES, KINDS, LIT, MODELLED
from throwbench.workshop.panel.forms_panel import OFFERED
from throwbench.workshop.panel.models import Panel, Score


@pytest.mark.parametrize("attribute", ALL, ids=ATTRIBUTES)
def test_an_attribute_is_asked_somewhere_and_has_five_answers(attribute):
    assert any(attribute.name in kind.names for kind in KINDS.values())
    assert len(set(attribute.steps)) == 5
    assert attribute.said.endswith("?")


def test_what_a_verdict_answers_on_stands_first_and_in_its_order():
    """Chance is drawn by place: another order would change every kept verdict."""
    assert MODELLED[:3] == ("liking", "hot_throw", "cold_throw")
    assert ATTRIBUTES[:5] == (*MODELLED[:3], "likeness", "uniqueness")
    assert LIT[:2] == MODELLED[:2]


@pytest.mark.parametrize(
    ("field", "names"),
    [
        (Panel._meta.get_field("asks"), tuple(KINDS)),
        (Score._meta.get_field("attribute"), ATTRIBUTES),
    ],
)
def test_the_tables_keep_each_and_have_room_for_its_name(field, names):
    assert tuple(name for name, _ in field.choices) == names
    assert max(map(len, names)) <= field.max_length


def test_a_kind_is_offered_for_candles_or_sniffed_from_the_blotter():
    assert set(KINDS) - {name for name, _ in OFFERED} == {"blotter"}
