"""Lots: what came, and where one lot took the place of another."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Q, QuerySet

from throwbench.science.words import wick_words
from throwbench.workshop.shelf.models import Lot, Oil, Vessel, Wax, Wick
from throwbench.workshop.shelf.models.lot import MATERIALS

Material = Wax | Oil | Wick | Vessel


@dataclass(frozen=True, slots=True, kw_only=True)
class LotChange:
    """A lot that came when another one of the same material was there."""

    lot: Lot
    before: Lot
    came_on: date

    @property
    def material(self) -> Material:
        return self.lot.material

    def sentence(self) -> str:
        """'The wick 4 lot (flat cotton) changed on 20 May: FC4-2705 after FC4-2702.'"""
        return (
            f"The {_lot_name(self.material)} changed on {self.came_on.day} {self.came_on:%B}: "
            f"{self.lot.code} after {self.before.code}."
        )


def lots() -> QuerySet[Lot]:
    """All lots with their material, the newest first."""
    return Lot.objects.select_related(*MATERIALS)


def changed_lots(since: date) -> tuple[LotChange, ...]:
    """Changes of a lot on or after a day, the newest first."""
    new = list(lots().filter(came_on__gte=since))
    earlier = _by_material(lots().filter(_of_materials(new), came_on__isnull=False)) if new else {}
    found = []
    for lot in new:
        before = [row for row in earlier[_key(lot)] if _came(row) < _came(lot)]
        if before:
            last = max(before, key=_came)
            found.append(LotChange(lot=lot, before=last, came_on=_came(lot)))
    return tuple(found)


def _came(lot: Lot) -> date:
    return lot.came_on or date.min


def _key(lot: Lot) -> tuple[int | None, ...]:
    return lot.wax_id, lot.oil_id, lot.wick_id, lot.vessel_id


def _by_material(rows: Iterable[Lot]) -> dict[tuple[int | None, ...], list[Lot]]:
    found: dict[tuple[int | None, ...], list[Lot]] = {}
    for row in rows:
        found.setdefault(_key(row), []).append(row)
    return found


def _of_materials(rows: Iterable[Lot]) -> Q:
    wanted = Q()
    for name in MATERIALS:
        ids = {getattr(row, f"{name}_id") for row in rows} - {None}
        wanted |= Q(**{f"{name}__in": ids})
    return wanted


def _lot_name(material: Material) -> str:
    if isinstance(material, Wick):
        return f"{wick_words(material.size)} lot ({material.series})"
    return f"lot of {material}"
