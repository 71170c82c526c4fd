"""One oil: what its page says first, and what happened to it."""

from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Model, QuerySet
from django.utils import timezone

from throwbench.science.load import load_on_both_bases
from throwbench.science.words import plain
from throwbench.verdict.words import listed
from throwbench.workshop.house.corrections import corrections_of
from throwbench.workshop.house.models import Correction
from throwbench.workshop.shelf.models import Lot, Oil, Wick
from throwbench.workshop.shelf.one_line import LineRead, read_line
from throwbench.workshop.shelf.selectors.blends import (
    PartShown,
    is_used,
    parts_of,
    parts_sentence,
)
from throwbench.workshop.shelf.selectors.papers import PaperShown, papers_said
from throwbench.workshop.shelf.selectors.words import yes_or_no

FIELD_WORDS = {
    "flash_c": "flash point [°C]", "density_g_ml": "density [g/ml]",
    "vanillin_percent": "vanillin [%]", "soap_max_percent": "soap maximum [%]",
    "melts_at_c": "melts at [°C]", "never_above_c": "never above [°C]",
    "add_oil_low_c": "add oil from [°C]", "add_oil_high_c": "add oil up to [°C]",
    "stir_min": "stir [min]", "pour_low_c": "pour from [°C]", "pour_high_c": "pour up to [°C]",
    "cure_days": "cure [days]", "max_load_percent": "maximum load [% of wax]",
    "liquid_g_ml": "liquid wax [g/ml]", "solid_g_ml": "solid wax [g/ml]",
    "inside_mm": "inside diameter [mm]", "height_mm": "height [mm]", "brim_ml": "to the brim [ml]",
    "flaw_note": "what the flaw is",
}  # fmt: skip


LONG_NAME = 4
"""A name of more words than this is asked about: something else may stand in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """One row of a history."""

    on: date | None
    what: str
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendShown:
    """A blend's parts and its neighbours in the row of versions."""

    version: int
    parts: tuple[PartShown, ...]
    before: Oil | None
    after: tuple[Oil, ...]
    is_used: bool


def whole_oils() -> QuerySet[Oil]:
    """Oils with all that their page shows."""
    return Oil.objects.select_related(
        "supplier", "blend", "blend__made_from__oil"
    ).prefetch_related("papers", "lots", "blend__parts__oil__supplier")


def blend_shown(oil: Oil) -> BlendShown | None:
    """What a blend is made of; None for an oil that is no blend."""
    blend = getattr(oil, "blend", None)
    if blend is None:
        return None
    return BlendShown(
        version=blend.version,
        parts=parts_of(blend),
        before=blend.made_from.oil if blend.made_from else None,
        after=tuple(row.oil for row in blend.next_versions.select_related("oil")),
        is_used=is_used(blend),
    )


def is_soap_known(oil: Oil) -> bool:
    """Whether anything was noted of it in soap."""
    names = ("thickens", "seizes", "browns", "fades", "max_percent")
    return any(getattr(oil, f"soap_{name}") is not None for name in names)


def soap_rows(oil: Oil) -> tuple[tuple[str, str], ...]:
    """How it behaves in soap, in words."""
    ticks = (
        ("thickens", oil.soap_thickens),
        ("seizes", oil.soap_seizes),
        ("browns", oil.soap_browns),
        ("fades", oil.soap_fades),
    )
    return tuple((word, yes_or_no(value)) for word, value in ticks)


def oil_sentence(oil: Oil, papers: tuple[PaperShown, ...]) -> str:
    """What wants a hand first; of a blend, what it is made of."""
    if hasattr(oil, "blend"):
        return parts_sentence(oil.blend)
    if oil.flash_c is None and all(row.state == "in date" for row in papers):
        return "Its flash point is not known."
    said, *_ = papers_said(papers).split("; ")
    return f"{said[0].upper()}{said[1:]}."


def line_said_back(oil: Oil) -> tuple[str, ...]:
    """What the line of an oil said beyond the oil, and what of it was not understood."""
    if not oil.as_typed:
        return ()
    read = read_line(oil.as_typed)
    told = (_for_a_trial(read), _not_understood(read), _name_only(read))
    return tuple(said for said in told if said)


def _for_a_trial(read: LineRead) -> str:
    said, ready = [], []
    if read.load_percent is not None:
        said.append(load_on_both_bases(percent=read.load_percent, basis=read.load_basis).sentence())
        ready.append("the load")
    if read.wick:
        there = [row for row in Wick.objects.all() if read.wick.casefold() in _names_of(row)]
        said.append(_wick_said(read.wick, there))
        ready += ["the wick"] if len(there) == 1 else []
    if ready:
        stand = "stands" if len(ready) == 1 else "stand"
        said.append(f"{listed(ready).capitalize()} {stand} ready in its trial.")
    return " ".join(said)


def _name_only(read: LineRead) -> str:
    """Said of a long line that was read as nothing but a name."""
    if read != LineRead(name=read.name) or len(read.name.split()) <= LONG_NAME:
        return ""
    return "All of it was read as the name: commas part it from what else is known."


def _wick_said(wick: str, there: list[Wick]) -> str:
    if not there:
        return f"Wick {wick} was read; no such wick stands on the shelf yet."
    return f"Wick {wick} was read: {listed([str(row) for row in there], last='or')}."


def _names_of(wick: Wick) -> tuple[str, str]:
    return wick.size.casefold(), str(wick).casefold()


def _not_understood(read: LineRead) -> str:
    if not read.not_understood:
        return ""
    parts = listed([f"“{part}”" for part in read.not_understood])
    was = (
        "was not understood and stands"
        if len(read.not_understood) == 1
        else ("were not understood and stand")
    )
    return (
        f"{parts} {was} here as typed. After the name come a supplier, a load, a wick, a flash "
        "point, a density or vanillin, each once. Add what was meant under “Change the facts”."
    )


def changes_of(row: Model) -> list[Happened]:
    """What was changed of one row, the newest first."""
    return [_change(kept) for kept in reversed(corrections_of([row]))]


def _change(kept: Correction) -> Happened:
    field = FIELD_WORDS.get(kept.field, kept.field.replace("_", " "))
    was, became = kept.was or "not known", kept.became or "not known"
    return Happened(
        on=_local(kept.at),
        what=f"{field[0].upper()}{field[1:]}: {was} became {became}",
        why=f"{kept.who}: {kept.why}",
    )


def _local(at: datetime) -> date:
    return timezone.localdate(at)


def oil_history(oil: Oil) -> list[Happened]:
    """Lots that came and facts that changed, the newest first; days not known at the end."""
    rows = [*changes_of(oil), *(_came(lot) for lot in oil.lots.all())]
    return sorted(rows, key=lambda row: row.on or date.min, reverse=True)


def _came(lot: Lot) -> Happened:
    amount = "An amount not known" if lot.amount_mg is None else f"{plain(lot.amount_mg / 1000)} g"
    price = "" if lot.price_cents is None else f", {lot.price_cents / 100:.2f} €"
    return Happened(on=lot.came_on, what=f"{amount} came in lot {lot.code}{price}")
