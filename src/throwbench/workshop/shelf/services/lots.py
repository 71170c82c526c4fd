"""Lots: deliveries of one material."""

from datetime import date, datetime

from django.db import transaction

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Lot, Oil, Vessel, Wax, Wick
from throwbench.workshop.shelf.services.keeping import kept


@transaction.atomic
def add_lot(
    material: Wax | Oil | Wick | Vessel,
    *,
    code: str,
    came_on: date | None = None,
    amount_mg: int | None = None,
    count: int | None = None,
    price_cents: int | None = None,
    who: Person,
    now: datetime,
) -> Lot:
    """One delivery: amount [mg] or count, price of the whole [cents]; each may be unknown."""
    lot = Lot(
        code=code.strip(),
        came_on=came_on,
        amount_mg=amount_mg,
        count=count,
        price_cents=price_cents,
    )
    setattr(lot, material._meta.model_name or "", material)
    return kept(lot)
