"""Blends as a page shows them."""

from dataclasses import dataclass

from django.db.models import QuerySet

from throwbench.science.dose import blend as blend_of
from throwbench.science.words import plain
from throwbench.verdict.words import listed
from throwbench.workshop.shelf.models import Blend, Oil
from throwbench.workshop.shelf.selectors.words import NARROW


@dataclass(frozen=True, slots=True, kw_only=True)
class PartShown:
    """One oil of a blend; the share is of the blend's weight."""

    oil: Oil
    parts: float
    share_percent: float


def full_name(oil: Oil) -> str:
    """Name and supplier, so that two oils of one name stay two."""
    return f"{oil.name} from {oil.supplier}" if oil.supplier else oil.name


def is_used(blend: Blend) -> bool:
    """Whether a trial or another blend holds this version: then it never changes."""
    return blend.oil.candidacies.exists() or blend.oil.part_of.exists()


def parts_of(blend: Blend) -> tuple[PartShown, ...]:
    """The parts, the largest first, each with its share of the blend."""
    rows = sorted(blend.parts.all(), key=lambda row: (-row.parts, row.oil.name))
    shares = blend_of(parts=[(full_name(row.oil), row.parts) for row in rows], oil_g=100).parts
    return tuple(
        PartShown(oil=row.oil, parts=row.parts, share_percent=share.share_percent)
        for row, share in zip(rows, shares, strict=True)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendRow:
    """A blend in the list of the shelf."""

    blend: Blend
    made_of: str


def blend_rows() -> tuple[BlendRow, ...]:
    """All versions of all blends, each with what it is made of."""
    return tuple(BlendRow(blend=row, made_of=parts_sentence(row)) for row in blends())


def blends() -> QuerySet[Blend]:
    """All versions of all blends with their parts, the newest version of a name first."""
    return (
        Blend.objects.select_related("oil", "made_from__oil")
        .prefetch_related("parts__oil__supplier")
        .order_by("oil__name")
    )


def parts_sentence(blend: Blend) -> str:
    """'80 % Ferry Rope and 20 % Linen Loft, by weight.'"""
    said = [f"{plain(part.share_percent)}{NARROW}% {part.oil}" for part in parts_of(blend)]
    return f"{listed(said)}, by weight."
