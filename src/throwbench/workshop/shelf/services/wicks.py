"""Wicks, and what holds them."""

from datetime import datetime

from django.db import transaction

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Fixing, Supplier, Wick
from throwbench.workshop.shelf.services.keeping import kept


@transaction.atomic
def add_wick(
    *,
    series: str,
    size: str,
    material: str = "",
    supplier: Supplier | None = None,
    who: Person,
    now: datetime,
) -> Wick:
    """One size of a series of wicks."""
    return kept(
        Wick(series=series.strip(), size=size.strip(), material=material.strip(), supplier=supplier)
    )


@transaction.atomic
def add_fixing(*, name: str, kind: str, who: Person, now: datetime) -> Fixing:
    """A glue or a sticker."""
    return kept(Fixing(name=name.strip(), kind=kind))
