"""The pour sheet: what to weigh into each pitcher, with boxes for what was; then the gauge card."""

from dataclasses import dataclass, field
from typing import Any

from throwbench.documents.bench import (
    MARGIN_MM,
    NOT_KNOWN,
    SPACE,
    dotted,
    fitting_pt,
    frame,
    known,
    span,
)
from throwbench.documents.gauge import GaugeCard, gauge_data
from throwbench.documents.heading import Heading
from throwbench.documents.typeset import typeset
from throwbench.documents.widths import printable
from throwbench.science.load import share_of_total_percent
from throwbench.science.words import FIRE_LINE, counted, plain, to_the_mg

BOXES = (
    "melted at, °C",
    "wax weighed, g",
    "taken back, g",
    "oil in, g",
    "added at, °C",
    "stirred, min",
    "poured at, °C",
    "time",
)
"""To be written by hand, in the order of the work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxCard:
    """What the supplier says of a wax [°C, min, days, % of wax]; None is not known."""

    name: str
    melts_at_c: float | None = None
    never_above_c: float | None = None
    add_oil_low_c: float | None = None
    add_oil_high_c: float | None = None
    stir_min: float | None = None
    pour_low_c: float | None = None
    pour_high_c: float | None = None
    cure_days: int | None = None
    max_load_percent: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PourCandle:
    """A test candle that is poured from a pitcher, and what stands ready for it."""

    code: str
    wick: str = ""
    fixing: str = ""
    vessel: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PitcherRow:
    """One pitcher of one oil. `load_percent` is % of wax; `name` is written on the pitcher."""

    oil: str
    supplier: str = ""
    name: str = ""
    load_percent: float | None = None
    wax_g: float | None = None
    oil_g: float | None = None
    flash_c: float | None = None
    candles: tuple[PourCandle, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PourSheet:
    """All that is poured from one wax on one day."""

    heading: Heading
    wax_card: WaxCard
    pitchers: tuple[PitcherRow, ...]
    gauge: GaugeCard = field(default_factory=GaugeCard)


def pour_sheet(sheet: PourSheet) -> bytes:
    """Return the pour sheet as a PDF, its gauge card on the last page.

    Raises
    ------
    OutOfRangeError
        A load that no wax takes, or a gauge card that does not fit its sheet.
    TypesettingError
        The sheets cannot be set as they should be.
    """
    card = sheet.wax_card
    data = {
        **frame(sheet.heading, sheet="pour sheet"),
        "headline": f"Pour {counted(len(sheet.pitchers), 'pitcher')}.",
        "lead": _lead(sheet),
        "wax": printable(card.name),
        "card": _card(card),
        "pitchers": [
            _pitcher(row, position, card) for position, row in enumerate(sheet.pitchers, start=1)
        ],
        "boxes": BOXES,
        "cautions": _cautions(card),
        "gauge": gauge_data(sheet.gauge, day=sheet.heading.day),
    }
    return typeset("pour_sheet.typ", data, form="pdf", day=sheet.heading.day)


def _lead(sheet: PourSheet) -> str:
    """'5 oils, 15 test candles, 1463 g of wax in all', as far as it is known."""
    oils = len({(row.oil, row.supplier) for row in sheet.pitchers})
    candles = sum(len(row.candles) for row in sheet.pitchers)
    parts = [counted(oils, "oil"), counted(candles, "test candle")]
    weights = [row.wax_g for row in sheet.pitchers if row.wax_g is not None]
    if weights and len(weights) == len(sheet.pitchers):
        parts.append(f"{known(round(sum(weights), 1), 'g')} of wax in all")
    return printable(f"{sheet.heading.trial}: {', '.join(parts)}.")


def _card(card: WaxCard) -> list[list[str]]:
    """Return the wax card as pairs of a word and its figure."""
    return [
        ["melts at", known(card.melts_at_c, "°C")],
        ["never above", known(card.never_above_c, "°C")],
        ["add oil at", span(card.add_oil_low_c, card.add_oil_high_c, "°C")],
        ["stir", known(card.stir_min, "min")],
        ["pour at", span(card.pour_low_c, card.pour_high_c, "°C")],
        ["cure", NOT_KNOWN if card.cure_days is None else counted(card.cure_days, "day")],
        ["load, at most", known(card.max_load_percent, "% of wax")],
    ]


def _pitcher(row: PitcherRow, position: int, card: WaxCard) -> dict[str, Any]:
    name = row.name or str(position)
    return {
        "name": printable(name),
        "name_pt": fitting_pt(name, most_pt=18, within_mm=MARGIN_MM),
        "oil": printable(row.oil),
        "supplier": printable(row.supplier),
        "wax": _grams(row.wax_g),
        "weigh": _grams(row.oil_g),
        "load": _load(row.load_percent),
        "over": _over(row.load_percent, card.max_load_percent),
        "flash": _flash(row.flash_c),
        "candles": _candles(row.candles),
    }


def _grams(weight_g: float | None) -> list[str]:
    """The figure and its unit, which is set smaller."""
    return [NOT_KNOWN, ""] if weight_g is None else [to_the_mg(weight_g), "g"]


def _load(load_percent: float | None) -> str:
    """'8 % of wax, 7.41 % of total', or that it is not known."""
    if load_percent is None:
        return f"load of wax {NOT_KNOWN}"
    if load_percent == 0:
        return "no oil"
    share = share_of_total_percent(load_percent=load_percent)
    return f"{known(load_percent, '%')} of wax, {known(share, '%')} of total"


def _over(load_percent: float | None, maximum_percent: float | None) -> str:
    """Say where a load is above what the wax card allows."""
    if load_percent is None or maximum_percent is None or load_percent <= maximum_percent:
        return ""
    return (
        f"Above the wax card's {known(maximum_percent, '%')} of wax. "
        "Take less oil, or a wax whose card allows more."
    )


def _flash(flash_c: float | None) -> str:
    if flash_c is None:
        return f"Flash point {NOT_KNOWN}: keep flames away."
    return f"Flash point {plain(flash_c)}{SPACE}°C: keep flames away."


def _candles(candles: tuple[PourCandle, ...]) -> list[list[str]]:
    """Codes that stand ready alike, and what they stand ready with."""
    alike: dict[str, list[str]] = {}
    for one in candles:
        made = dotted(one.wick, one.fixing, one.vessel) or f"wick, fixing and vessel {NOT_KNOWN}"
        alike.setdefault(made, []).append(one.code)
    return [[printable(", ".join(codes)), made] for made, codes in alike.items()]


def _cautions(card: WaxCard) -> list[str]:
    """What is said wherever wax is melted, with the wax card's own maximum."""
    if card.never_above_c is None:
        limit = "The wax card's maximum is not known: ask the supplier before you melt it."
    else:
        limit = f"Never above {known(card.never_above_c, '°C')}, the wax card's maximum."
    return [f"{limit} Never leave melting wax.", FIRE_LINE]
