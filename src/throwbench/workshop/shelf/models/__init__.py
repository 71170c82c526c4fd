"""What stands on the shelf. An empty value is unknown, and unknown is a value."""

from throwbench.workshop.shelf.models.lot import Lot
from throwbench.workshop.shelf.models.oil import Blend, BlendPart, Oil, Supplier
from throwbench.workshop.shelf.models.paper import Paper, PaperKind
from throwbench.workshop.shelf.models.vessel import Flaw, Piece, Vessel
from throwbench.workshop.shelf.models.wax import Wax
from throwbench.workshop.shelf.models.wick import Fixing, FixingKind, Wick

__all__ = [
    "Blend",
    "BlendPart",
    "Fixing",
    "FixingKind",
    "Flaw",
    "Lot",
    "Oil",
    "Paper",
    "PaperKind",
    "Piece",
    "Supplier",
    "Vessel",
    "Wax",
    "Wick",
]
