"""Tables whose rows stay as they were written, whatever a migration does to them."""

import re

import pytest
from django.apps import apps
from django.db import IntegrityError, connection, transaction

from throwbench.web.append_only import TABLES, put_back

pytestmark = pytest.mark.django_db

KEPT = {
    "house_correction",
    "house_heard",
    "house_ring",
    "house_there",
    "house_unwatched",
    "line_decision",
    "line_judgement",
    "trials_sealbreak",
    "trials_swap",
    "trials_temperature",
    "trials_weighing",
}


def triggers() -> set[str]:
    with connection.cursor() as cursor:
        cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
        return {name for (name,) in cursor.fetchall()}


def wanted() -> set[str]:
    return {f"{table}_keeps_{verb}" for table in KEPT for verb in ("update", "delete")}


def enter(table: str) -> None:
    """A row of made-up values in a table; what its keys point to does not matter here."""
    model = next(model for model in apps.get_models() if model._meta.db_table == table)
    fields = [field for field in model._meta.local_fields if not field.primary_key]
    values = [_made_up(field) for field in fields]
    names = ", ".join(f'"{field.column}"' for field in fields)
    with connection.cursor() as cursor:
        cursor.execute(
            f"INSERT INTO {table} ({names}) VALUES ({', '.join(['%s'] * len(values))})", values
        )


def _made_up(field) -> object:
    if field.is_relation:
        return 1
    kind = field.get_internal_type()
    if kind in ("DateTimeField", "DateField"):
        return "2027-05-24 09:35:00" if field.name == "to_at" else "2027-05-24 09:05:00"
    return 1 if re.search("Integer|Float|Boolean", kind) else "x"


def test_the_tables_that_keep_their_rows_are_these():
    assert set(TABLES) == KEPT


def test_every_model_that_says_append_only_is_one_of_them():
    said = {
        model._meta.db_table
        for model in apps.get_models()
        if re.search(r"append-only", model.__doc__ or "", re.IGNORECASE)
    }
    assert said <= KEPT


def test_every_such_table_has_both_triggers():
    assert triggers() == wanted()


@pytest.mark.parametrize("table", sorted(KEPT))
@pytest.mark.parametrize(
    ("verb", "done"),
    [("UPDATE {} SET id = id", "changed"), ("DELETE FROM {}", "taken out")],
)
def test_a_row_once_written_stays(table, verb, done):
    with transaction.atomic():
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA defer_foreign_keys = ON")
        if table == "trials_swap":  # two different candles
            _swap()
        else:
            enter(table)
        with (
            pytest.raises(IntegrityError, match=f"a row of {table} is never {done}"),
            transaction.atomic(),
            connection.cursor() as cursor,
        ):
            cursor.execute(verb.format(table))
        transaction.set_rollback(True)


def _swap() -> None:
    with connection.cursor() as cursor:
        cursor.execute(
            "INSERT INTO trials_swap (first_id, second_id, why, who_id, at)"
            " VALUES (1, 2, 'x', 1, '2027-05-24')"
        )


def test_a_migration_that_loses_a_trigger_gets_it_back():
    with connection.cursor() as cursor:
        cursor.execute("DROP TRIGGER house_correction_keeps_update")
        assert triggers() != wanted()
    put_back()
    assert triggers() == wanted()


def test_migrating_itself_puts_them_back():
    from django.core.management import call_command  # noqa: PLC0415

    with connection.cursor() as cursor:
        cursor.execute("DROP TRIGGER line_decision_keeps_delete")
    call_command("migrate", verbosity=0, interactive=False)
    assert triggers() == wanted()
