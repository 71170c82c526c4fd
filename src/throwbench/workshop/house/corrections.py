"""Slips put right: the row changes, the first entry stays visible beside it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Model

from throwbench.science.errors import UnclearError
from throwbench.science.units import named, said_in_its_unit
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
    _reasoned(why)
    was = getattr(row, field)
    setattr(row, field, value)
    row.full_clean()
    row.save(update_fields=[field])
    return _kept(row, field, was=was, became=value, why=why, who=who, now=now)


@transaction.atomic
def put_all_right(
    row: Model, *, values: Mapping[str, Any], why: str, who: Person, now: datetime
) -> list[Correction]:
    """Change several fields of a row at once, and keep each that really changed.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    _reasoned(why)
    was = {name: getattr(row, name) for name in values if getattr(row, name) != values[name]}
    for name in was:
        setattr(row, name, values[name])
    row.full_clean()
    row.save(update_fields=list(was))
    return [
        _kept(row, name, was=value, became=getattr(row, name), why=why, who=who, now=now)
        for name, value in was.items()
    ]


@transaction.atomic
def put_anew(
    row: Model, *, field: str, value: Any, why: str, who: Person, now: datetime
) -> Correction:
    """A slip in what was read off once: the row stays, and a new one of the same moment counts.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    _reasoned(why)
    names = [each.attname for each in row._meta.concrete_fields if not each.primary_key]
    right = type(row)(**{name: getattr(row, name) for name in names})
    setattr(right, field, value)
    right.who = who  # type: ignore[attr-defined]
    right.full_clean()
    right.save()
    was = getattr(row, field)
    return _kept(row, field, was=was, became=value, why=why, who=who, now=now)


def _reasoned(why: str) -> None:
    if not why.strip():
        raise UnclearError(
            "There is no reason.", "A slip is put right with one.", "Say why in a few words."
        )


def _kept(
    row: Model, field: str, *, was: Any, became: Any, why: str, who: Person, now: datetime
) -> Correction:
    return Correction.objects.create(
        table=row._meta.label_lower,
        row=row.pk,
        field=field,
        was=_words(was),
        became=_words(became),
        why=why.strip(),
        who=who,
        at=now,
    )


def _words(value: Any) -> str:
    """A value as it is kept: empty where it was not known, a figure without a tail of zeros."""
    if value is None:
        return ""
    return f"{value:.10g}" if isinstance(value, float) else str(value)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A correction as it is read: what was put right, and both values with their unit."""

    name: str
    was: str
    became: str


def said_of(slip: Correction) -> Said:
    """'mass after', '469 g', '468 g'; what was not there is 'nothing'."""
    was, became = (_said(value, slip.field) for value in (slip.was, slip.became))
    return Said(name=named(slip.field)[0], was=was, became=became)


def _said(value: str, field: str) -> str:
    if not value:
        return "nothing"
    if value in ("True", "False"):
        return "yes" if value == "True" else "no"
    return said_in_its_unit(value, field=field)
