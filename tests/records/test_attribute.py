"""What is scored, and what a panel is asked."""

import pytest

from throwbench.records.attribute import ALL, KINDS


@pytest.mark.parametrize(
    ("kind", "names"),
    [
        ("lit", ("liking", "hot_throw")),
        ("unlit", ("cold_throw",)),
        ("likeness", ("likeness",)),
        ("blotter", ("liking", "cold_throw")),
        ("uniqueness", ("uniqueness",)),
    ],
)
def test_a_panel_asks_its_own_attributes_in_this_order(kind, names):
    assert KINDS[kind].names == names


def test_hot_throw_is_asked_of_a_lit_candle_alone():
    assert [name for name, kind in KINDS.items() if "hot_throw" in kind.names] == ["lit"]


def test_every_attribute_is_asked_somewhere():
    asked = {name for kind in KINDS.values() for name in kind.names}
    assert asked == {one.name for one in ALL}


def test_every_attribute_has_a_word_for_each_of_five_steps():
    assert {len(one.steps) for one in ALL} == {5}
