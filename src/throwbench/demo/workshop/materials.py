"""What stands on the shelf of the demo. Suppliers, oils and their papers are invented."""

from dataclasses import dataclass, field
from datetime import date

from throwbench.demo.truths import OILS
from throwbench.demo.workshop.people import By, House
from throwbench.demo.workshop.times import at
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Fixing, Lot, Oil, Piece, Supplier, Vessel, Wax, Wick

CAME = date(2027, 2, 14)

FACTS: dict[str, dict[str, float]] = {
    "Slate After Rain": {"flash_c": 96, "vanillin_percent": 0, "density_g_ml": 0.97},
    "Rhubarb Cold Frame": {"flash_c": 88, "vanillin_percent": 0.3, "density_g_ml": 0.95},
    "Vårrabarbra 114": {"flash_c": 93, "vanillin_percent": 0.2, "density_g_ml": 0.96},
    "Rebarbara K": {"flash_c": 90, "vanillin_percent": 0.4, "density_g_ml": 0.96},
    "Bakehouse at Five": {"flash_c": 101, "vanillin_percent": 4, "density_g_ml": 1.03},
    "Ferry Rope": {"flash_c": 94, "vanillin_percent": 0.1, "density_g_ml": 0.98},
    "Goat Willow": {"vanillin_percent": 0, "density_g_ml": 0.95},
    "Kelp and Iron": {"flash_c": 97, "vanillin_percent": 0, "density_g_ml": 0.99},
    "Linen Loft": {"flash_c": 85, "vanillin_percent": 0.2, "density_g_ml": 0.94},
    "Harbour Tar": {"flash_c": 99, "vanillin_percent": 0, "density_g_ml": 1.01},
}
"""Figures from the suppliers' papers; of Goat Willow the flash point is not known."""

IDEAS = {"Ferry Rope": "harbour", "Harbour Tar": "harbour", "Kelp and Iron": "harbour"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    wax: Wax
    wax_lots: dict[str, Lot]
    oils: dict[str, Oil]
    oil_lots: dict[str, Lot]
    wicks: dict[int, Wick]
    wick_lots: dict[str, Lot] = field(default_factory=dict)
    cup: Vessel
    pieces: dict[str, Piece]
    fixings: dict[str, Fixing]


def materials(house: House) -> Shelf:
    """Everything that Long Light is poured from."""
    by: By = {"who": house.owner, "now": at(CAME)}
    suppliers = {
        name: services.add_supplier(name=name, **by)
        for name in dict.fromkeys(oil.supplier for oil in OILS.values())
    }
    wax = _wax(by)
    oils = {name: _oil(name, suppliers, by) for name in OILS}
    wicks = {
        size: services.add_wick(
            series="flat cotton", size=str(size), material="braided cotton", **by
        )
        for size in (3, 4, 5, 6)
    }
    for size in (2, 3):
        services.add_wick(series="round paper-core", size=str(size), material="cotton, paper", **by)
    cup = services.add_vessel(
        name="stoneware cup", inside_mm=68, height_mm=74, brim_ml=210,
        material="matt stoneware", **by,
    )  # fmt: skip
    services.add_vessel(name="low glass bowl", inside_mm=90, material="glass", **by)
    return Shelf(
        wax=wax,
        wax_lots={
            code: services.add_lot(wax, code=code, came_on=day, amount_mg=10_000_000, **by)
            for code, day in (("R36-2702", CAME), ("R36-2704", date(2027, 4, 12)))
        },
        oils=oils,
        oil_lots={
            name: services.add_lot(
                oil, code=f"{_short(OILS[name].supplier)}-2702", came_on=CAME,
                amount_mg=200_000, price_cents=1840, **by,
            )
            for name, oil in oils.items()
        },
        wicks=wicks,
        wick_lots=_wick_lots(wicks, by),
        cup=cup,
        pieces=_seconds(cup, by),
        fixings={
            "glue": services.add_fixing(name="high-melt glue", kind="glue", **by),
            "sticker": services.add_fixing(name="wick sticker", kind="sticker", **by),
        },
    )  # fmt: skip


def _short(supplier: str) -> str:
    return "".join(word[0] for word in supplier.replace("-", " ").split()).upper()


def _wax(by: By) -> Wax:
    return services.add_wax(
        name="R-36",
        melts_at_c=46,
        never_above_c=85,
        add_oil_low_c=70,
        add_oil_high_c=74,
        stir_min=3,
        pour_low_c=56,
        pour_high_c=60,
        cure_days=10,
        max_load_percent=9,
        liquid_g_ml=0.86,
        solid_g_ml=0.91,
        **by,
    )


def _oil(name: str, suppliers: dict[str, Supplier], by: By) -> Oil:
    oil = services.add_oil(
        name=name,
        supplier=suppliers[OILS[name].supplier],
        idea=OILS[name].group or IDEAS.get(name, ""),
        invented=True,
        **FACTS[name],
        **by,
    )
    services.add_paper(oil, kind="safety data sheet", version="4", dated=date(2026, 1, 12), **by)
    ends = date(2027, 1, 31) if name == "Linen Loft" else date(2028, 2, 3)
    services.add_paper(
        oil, kind="conformity certificate", version="2", dated=date(2026, 2, 3),
        valid_until=ends, **by,
    )  # fmt: skip
    if name == "Vårrabarbra 114":
        services.add_paper(
            oil, kind="allergen statement", version="", dated=None,
            asked_on=date(2027, 4, 2), **by,
        )  # fmt: skip
    return oil


def _wick_lots(wicks: dict[int, Wick], by: By) -> dict[str, Lot]:
    lots = {
        f"FC{size}-2702": services.add_lot(
            wick, code=f"FC{size}-2702", came_on=CAME, count=60, **by
        )
        for size, wick in wicks.items()
    }
    later: By = {"who": by["who"], "now": at(date(2027, 5, 20))}
    lots["FC4-2705"] = services.add_lot(
        wicks[4], code="FC4-2705", came_on=date(2027, 5, 20), count=60, **later
    )
    return lots


def _seconds(cup: Vessel, by: By) -> dict[str, Piece]:
    """Nine glaze-flawed cups for tests; a chip is found in the seventh after washing."""
    pieces = {
        f"Cup {number}": services.add_piece(
            cup, name=f"Cup {number}", flaw="cosmetic", flaw_note="glaze", **by
        )
        for number in range(1, 10)
    }
    washed: By = {"who": by["who"], "now": at(date(2027, 5, 3), 17, 40)}
    services.wash(pieces["Cup 7"], **washed)
    services.note_flaw(
        pieces["Cup 7"], flaw="structural", note="a chip at the rim, seen after washing", **washed
    )
    return pieces
