"""Oils: from one typed line, from the whole form, and their facts put right."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import transaction

from throwbench.workshop.house.corrections import put_all_right
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.shelf.models import Oil, Supplier
from throwbench.workshop.shelf.one_line import LineRead, read_line
from throwbench.workshop.shelf.services.keeping import NEW_PAPER, kept, only
from throwbench.workshop.shelf.services.suppliers import supplier_named

FACTS = (
    "idea", "density_g_ml", "flash_c", "vanillin_percent", "note", "soap_thickens", "soap_seizes",
    "soap_browns", "soap_fades", "soap_max_percent", "invented",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class OilFromLine:
    """The oil that a line made, and everything that was read from the line."""

    oil: Oil
    read: LineRead


@transaction.atomic
def add_oil(
    *, name: str, supplier: Supplier | None, who: Person, now: datetime, **facts: Any
) -> Oil:
    """An oil with some of `FACTS`: density [g/ml], flash point [°C], vanillin [%], soap [%]."""
    return kept(Oil(name=name.strip(), supplier=supplier, **only(facts, (*FACTS, "as_typed"))))


@transaction.atomic
def oil_from_line(text: str, *, who: Person, now: datetime) -> OilFromLine:
    """An oil from one line: "slate rain, Tarnholt, 8 %, wick 4". The line stays with the oil.

    Raises
    ------
    UnclearError
        The line does not begin with a name.
    """
    read = read_line(text)
    oil = add_oil(
        name=read.name,
        supplier=supplier_named(read.supplier),
        flash_c=read.flash_c,
        density_g_ml=read.density_g_ml,
        vanillin_percent=read.vanillin_percent,
        as_typed=text.strip(),
        who=who,
        now=now,
    )
    return OilFromLine(oil=oil, read=read)


@transaction.atomic
def change_oil(
    oil: Oil, *, why: str = NEW_PAPER, who: Person, now: datetime, **facts: Any
) -> list[Correction]:
    """Change name, supplier or facts of an oil; what they were stays visible."""
    values = only(facts, ("name", "supplier", *FACTS))
    return put_all_right(oil, values=values, why=why.strip() or NEW_PAPER, who=who, now=now)
