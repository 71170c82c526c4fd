"""Tables in which a row, once written, is neither changed nor taken out.

A migration that rebuilds a table loses its triggers, so they are put back after every migration.
"""

from typing import Any

from django.db import connections

TABLES = (
    "house_correction",
    "house_heard",
    "house_ring",
    "house_there",
    "house_unwatched",
    "trials_sealbreak",
    "trials_swap",
    "trials_temperature",
    "trials_weighing",
    "line_decision",
    "line_judgement",
)


def put_back(*, using: str = "default", **_: Any) -> None:
    """Make the triggers that are missing."""
    connection = connections[using]
    there = set(connection.introspection.table_names())
    with connection.cursor() as cursor:
        for table in TABLES:
            if table in there:
                for verb in ("UPDATE", "DELETE"):
                    cursor.execute(_trigger(table, verb))


def _trigger(table: str, verb: str) -> str:
    done = {"UPDATE": "changed", "DELETE": "taken out"}[verb]
    return (
        f"CREATE TRIGGER IF NOT EXISTS {table}_keeps_{verb.lower()} BEFORE {verb} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, 'a row of {table} is never {done}'); END"
    )
