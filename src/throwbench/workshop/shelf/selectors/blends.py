"""Blends as a page shows them."""

from dataclasses import dataclass

from throwbench.science.dose import blend as blend_of
from throwbench.workshop.shelf.models import Blend, Oil


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
    rows = list(blend.parts.select_related("oil__supplier").order_by("-parts", "oil__name"))
    shares = blend_of(parts=[(full_name(row.oil), row.parts) for row in rows], oil_g=100).parts
    return tuple(
        PartShown(oil=row.oil, parts=row.parts, share_percent=share.share_percent)
        for row, share in zip(rows, shares, strict=True)
    )
