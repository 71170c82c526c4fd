"""The records list what is told of a burn; the tables keep exactly that."""

import pytest

from throwbench import records
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.sights import COLUMNS, kept_as

OF_ITSELF = {
    Burn: {
        "id", "candle", "number", "kind", "room", "lit_at", "lit_by", "out_by_at", "handed_to",
        "out_at", "put_out",
    },
    Check: {"id", "burn", "at", "noted_at", "who"},
}  # fmt: skip
"""Who, where and when: a row has them from its place, not from what a person sees."""


@pytest.mark.parametrize(("table", "record"), [(Burn, records.Burn), (Check, records.Check)])
def test_a_table_keeps_what_its_record_says_a_person_tells(table, record):
    kept = {field.name for field in table._meta.fields} - OF_ITSELF[table]
    assert kept == {kept_as(column.name) for column in records.columns(record) if column.told}


@pytest.mark.parametrize(("table", "record"), [(Burn, records.Burn), (Check, records.Check)])
def test_a_field_takes_the_words_of_its_column(table, record):
    worded = {field.name: field for field in table._meta.fields if field.choices}
    of_record = [column for column in records.columns(record) if column.words]
    assert set(worded) == {column.name for column in of_record}
    assert all(worded[column.name].flatchoices == column.choices for column in of_record)


def test_whoever_is_told_what_a_weight_is_kept_as_finds_its_column_again():
    assert kept_as("mass_after_g") == "mass_after_mg"
    assert COLUMNS["mass_after_mg"].unit == "g"
    assert kept_as("flame_mm") == "flame_mm"
