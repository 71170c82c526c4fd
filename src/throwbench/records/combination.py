"""What a test candle is made of, and which oils share a theme."""

from dataclasses import dataclass

from throwbench.records.column import column


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """What one test candle is made of. Unknown is a value: leave it empty."""

    candle: str = column("code of the test candle", required=True)
    oil: str = column("fragrance oil or blend", required=True)
    supplier: str | None = column("who sells the oil")
    load_percent: float | None = column(
        "load of wax", unit="% of wax", possible=(0, 40), usual=(2, 15)
    )
    wax: str | None = column("the wax")
    wick: str | None = column("series and size")
    wick_lot: str | None = column("one delivery of the wick")
    fixing: str | None = column("what holds the wick", words=("glue", "sticker"))
    vessel: str | None = column("glass, tin or ceramic")
    inside_mm: float | None = column(
        "inside diameter of the vessel", unit="mm", possible=(10, 500), usual=(30, 150)
    )
    wax_g: float | None = column("wax and oil in the vessel", unit="g", possible=(1, 50000))
    wax_mm: float | None = column("depth of wax when new", unit="mm", possible=(5, 500))
    card_cure_days: float | None = column(
        "cure on the wax card", unit="d", possible=(0, 365), usual=(0, 60)
    )
    group: str | None = column("theme: at most one of a group joins")
    role: str | None = column(
        "candidate, or the reference candle", words=("candidate", "reference")
    )
    line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ThemeMember:
    """One line of an at-most-one-of file."""

    candidate: str = column("the oil", required=True)
    group: str = column("at most one of this group joins", required=True)
    line: int = 0
