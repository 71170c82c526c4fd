"""Suppliers, mostly made in passing."""

from datetime import datetime

from django.db import transaction

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Supplier
from throwbench.workshop.shelf.services.keeping import kept


@transaction.atomic
def add_supplier(*, name: str, who: Person, now: datetime) -> Supplier:
    """A supplier by name."""
    return kept(Supplier(name=name.strip()))


@transaction.atomic
def supplier_named(name: str) -> Supplier | None:
    """The supplier of that name, made in passing; None for an empty name.

    Capitals do not matter, and the first word is enough where only one supplier begins with it:
    "tarnholt" finds Tarnholt Riechstoffe.
    """
    wanted = " ".join(name.split())
    if not wanted:
        return None
    there = {row.name.casefold(): row for row in Supplier.objects.all()}
    if wanted.casefold() in there:
        return there[wanted.casefold()]
    begin = [row for known, row in there.items() if known.startswith(f"{wanted.casefold()} ")]
    return begin[0] if len(begin) == 1 else kept(Supplier(name=wanted))
