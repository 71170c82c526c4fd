"""Waxes and their wax cards."""

from datetime import datetime
from typing import Any

from django.db import transaction

from throwbench.workshop.house.corrections import put_all_right
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.shelf.services.keeping import NEW_PAPER, kept, only

CARD = (
    "melts_at_c", "never_above_c", "add_oil_low_c", "add_oil_high_c", "stir_min", "pour_low_c",
    "pour_high_c", "cure_days", "max_load_percent", "liquid_g_ml", "solid_g_ml",
)  # fmt: skip


@transaction.atomic
def add_wax(*, name: str, who: Person, now: datetime, **card: Any) -> Wax:
    """A wax with what is known of its card: `CARD` in °C, min, days, % of wax and g/ml."""
    return kept(Wax(name=name.strip(), **only(card, (*CARD, "supplier", "note"))))


@transaction.atomic
def change_wax(
    wax: Wax, *, why: str = NEW_PAPER, who: Person, now: datetime, **card: Any
) -> list[Correction]:
    """Change a wax or its card; what it was stays visible."""
    values = only(card, (*CARD, "name", "supplier", "note"))
    return put_all_right(wax, values=values, why=why.strip() or NEW_PAPER, who=who, now=now)
