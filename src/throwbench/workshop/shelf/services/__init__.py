"""What the maker does at the shelf: the only writers of its tables."""

from throwbench.workshop.shelf.services.blends import add_blend, change_parts
from throwbench.workshop.shelf.services.lots import add_lot
from throwbench.workshop.shelf.services.oils import add_oil, change_oil, oil_from_line
from throwbench.workshop.shelf.services.papers import add_paper
from throwbench.workshop.shelf.services.suppliers import add_supplier, supplier_named
from throwbench.workshop.shelf.services.vessels import (
    add_piece,
    add_vessel,
    change_vessel,
    note_flaw,
    put_flaw_right,
    wash,
)
from throwbench.workshop.shelf.services.waxes import add_wax, change_wax
from throwbench.workshop.shelf.services.wicks import add_fixing, add_wick

__all__ = [
    "add_blend",
    "add_fixing",
    "add_lot",
    "add_oil",
    "add_paper",
    "add_piece",
    "add_supplier",
    "add_vessel",
    "add_wax",
    "add_wick",
    "change_oil",
    "change_parts",
    "change_vessel",
    "change_wax",
    "note_flaw",
    "oil_from_line",
    "put_flaw_right",
    "supplier_named",
    "wash",
]
