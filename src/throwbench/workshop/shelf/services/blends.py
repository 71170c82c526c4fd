"""Blends: parts of oils by weight. A used version never changes, it gets a next one."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID

from django.db import transaction

from throwbench.science.dose import blend as blend_of
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Blend, BlendPart, Oil
from throwbench.workshop.shelf.selectors.blends import full_name, is_used
from throwbench.workshop.shelf.services.keeping import kept


@transaction.atomic
def add_blend(
    *,
    name: str,
    parts: Mapping[Oil, float],
    who: Person,
    now: datetime,
    made_from: Blend | None = None,
) -> Oil:
    """A blend as an oil of its own; parts are by weight and need not add up to 100.

    `made_from` is the version before; all versions share one name, and say their number.

    Raises
    ------
    UnclearError, OutOfRangeError
        There are fewer than two oils, or a part is not above 0.
    """
    _possible(parts)
    version = 1 if made_from is None else _last_of(made_from).version + 1
    named = name.strip() if version == 1 else f"{name.strip()}, version {version}"
    oil = kept(Oil(name=named, invented=any(part.invented for part in parts)))
    blend = kept(Blend(oil=oil, version=version, made_from=made_from, made_at=now))
    _set(blend, parts)
    return oil


@transaction.atomic
def change_parts(
    blend: Blend,
    *,
    parts: Mapping[Oil, float],
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Oil:
    """Other parts: in place while the version is unused, else as the next version.

    Raises
    ------
    UnclearError
        The blend would be a part of itself, or as `add_blend`.
    """
    content = {"blend": blend.pk, "parts": {str(oil.pk): value for oil, value in parts.items()}}
    if seen_before(entry, what="change parts", content=content, who=who, now=now):
        return _last_of(blend).oil
    _possible(parts)
    _not_of_itself(blend, parts)
    if is_used(blend):
        first = _first_of(blend)
        return add_blend(name=first.oil.name, parts=parts, who=who, now=now, made_from=blend)
    blend.parts.all().delete()
    _set(blend, parts)
    return blend.oil


def _possible(parts: Mapping[Oil, float]) -> None:
    blend_of(parts=[(full_name(oil), value) for oil, value in parts.items()], oil_g=100)


def _set(blend: Blend, parts: Mapping[Oil, float]) -> None:
    for oil, value in parts.items():
        kept(BlendPart(blend=blend, oil=oil, parts=value))


def _first_of(blend: Blend) -> Blend:
    return blend if blend.made_from is None else _first_of(blend.made_from)


def _last_of(blend: Blend) -> Blend:
    """The newest version that came of the same first one."""
    found = [_first_of(blend)]
    for version in found:
        found.extend(version.next_versions.all())
    return max(found, key=lambda version: version.version)


def _not_of_itself(blend: Blend, parts: Mapping[Oil, float]) -> None:
    inside = list(parts)
    for oil in inside:
        if oil == blend.oil:
            raise UnclearError(
                f"{blend.oil} would be a part of itself.",
                "A blend is made of other oils.",
                "Leave it out.",
            )
        inside.extend(Oil.objects.filter(part_of__blend__oil=oil))
