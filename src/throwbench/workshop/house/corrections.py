"""Slips put right: the row changes, the first entry stays visible beside it."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Model

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Correction, Person


@transaction.atomic
def put_right(
    row: Model, *, field: str, value: Any, why: str, who: Person, now: datetime
) -> Correction:
    """Change one field of a row, and keep what it was, with the reason.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    if not why.strip():
        raise UnclearError(
            "There is no reason.", "A slip is put right with one.", "Say why in a few words."
        )
    was = getattr(row, field)
    setattr(row, field, value)
    row.full_clean()
    row.save(update_fields=[field])
    return Correction.objects.create(
        table=row._meta.label_lower,
        row=row.pk,
        field=field,
        was="" if was is None else str(was),
        became="" if value is None else str(value),
        why=why.strip(),
        who=who,
        at=now,
    )


def corrections_of(rows: Iterable[Model]) -> list[Correction]:
    """What was put right in rows of one table, in the order of time."""
    found = list(rows)
    if not found:
        return []
    return list(
        Correction.objects.filter(
            table=found[0]._meta.label_lower, row__in=[row.pk for row in found]
        )
        .select_related("who")
        .order_by("at", "id")
    )
