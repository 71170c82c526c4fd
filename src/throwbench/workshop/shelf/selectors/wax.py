"""A wax and its card as a page shows them."""

from dataclasses import dataclass

from throwbench.science.words import plain
from throwbench.verdict.words import number
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.shelf.selectors.words import NARROW, span

NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRow:
    """One line of a wax card."""

    step: str
    says: str
    hint: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxRow:
    """A wax in the list of the shelf."""

    wax: Wax
    add_oil: str
    pour: str
    load: str


def card_rows(wax: Wax) -> tuple[CardRow, ...]:
    """The card in the order of the work."""
    return (
        CardRow(step="Melts at", says=_says(wax.melts_at_c, "°C")),
        CardRow(step="Never above", says=_says(wax.never_above_c, "°C")),
        CardRow(
            step="Maximum load of wax",
            says=_says(wax.max_load_percent, "% of wax"),
            hint="oil for 100 g of wax",
        ),
        CardRow(step="Add oil at", says=span(wax.add_oil_low_c, wax.add_oil_high_c, "°C")),
        CardRow(step="Stir", says=_says(wax.stir_min, "min")),
        CardRow(step="Pour at", says=span(wax.pour_low_c, wax.pour_high_c, "°C")),
        CardRow(
            step="Cure", says=_says(wax.cure_days, "days"), hint="to the first sniff that counts"
        ),
        CardRow(step="Density, liquid", says=_says(wax.liquid_g_ml, "g/ml")),
        CardRow(step="Density, solid", says=_says(wax.solid_g_ml, "g/ml")),
    )


def wax_sentence(wax: Wax) -> str:
    """How it is worked, as far as the card says; else how much of the card is missing."""
    missing = sum(row.says == NOT_KNOWN for row in card_rows(wax))
    add, pour = (
        span(wax.add_oil_low_c, wax.add_oil_high_c, "°C"),
        span(wax.pour_low_c, wax.pour_high_c, "°C"),
    )
    if NOT_KNOWN not in (add, pour):
        return f"Takes its oil at {add} and is poured at {pour}."
    return f"Of its card {number(missing)} of nine lines {_are(missing)} not known yet."


def wax_rows() -> tuple[WaxRow, ...]:
    """All waxes with the figures that one looks up."""
    return tuple(
        WaxRow(
            wax=wax,
            add_oil=span(wax.add_oil_low_c, wax.add_oil_high_c, "°C"),
            pour=span(wax.pour_low_c, wax.pour_high_c, "°C"),
            load=_says(wax.max_load_percent, "% of wax"),
        )
        for wax in Wax.objects.select_related("supplier")
    )


def _says(value: float | None, unit: str) -> str:
    return NOT_KNOWN if value is None else f"{plain(value)}{NARROW}{unit}"


def _are(count: int) -> str:
    return "is" if count == 1 else "are"
