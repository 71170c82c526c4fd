"""What the workshop planned: test candles, panel evenings and days of wick burns in spring 2027."""

from dataclasses import dataclass
from datetime import date

from throwbench.demo.truths import EARLY_DAYS, OILS
from throwbench.records import Combination, ThemeMember

DEMO_DAY = date(2027, 5, 24)
FIRST_POUR, SECOND_POUR = date(2027, 4, 27), date(2027, 4, 28)
SECONDS_POUR = date(2027, 5, 4)
NEW_LOT_DAY = date(2027, 5, 20)
NEW_LOT_POUR = date(2027, 5, 21)
LAST_YEAR = date(2026, 9, 14)

WAX_G = 168
WAX_MM = 51
INSIDE_MM = 68
EMPTY_CUP_G = 322
LOAD_PERCENT = 8
OF_TOTAL_PERCENT = 8.7
"""One cup was dosed at 8 % of total instead of 8 % of wax, which is 8.70 % of wax."""
EVERY_DAY = tuple(range(14, 24))


@dataclass(frozen=True, slots=True, kw_only=True)
class TestCandle:
    """One test candle, and the days of May on which it may be lit as a wick burn."""

    __test__ = False

    code: str
    oil: str
    poured: date
    wick: int = 4
    fixing: str = "glue"
    load_percent: float = LOAD_PERCENT
    wick_days: tuple[int, ...] = ()
    to_the_end: bool = False

    def combination(self) -> Combination:
        oil = OILS[self.oil]
        return Combination(
            candle=self.code,
            oil=self.oil,
            supplier=oil.supplier,
            load_percent=self.load_percent,
            wax="R-36",
            wick=f"flat cotton {self.wick}",
            wick_lot=self._wick_lot(),
            fixing=self.fixing,
            vessel="stoneware cup",
            inside_mm=INSIDE_MM,
            wax_g=WAX_G,
            wax_mm=WAX_MM,
            card_cure_days=EARLY_DAYS,
            group=oil.group,
            role=oil.role,
        )

    def _wick_lot(self) -> str:
        if self.wick != 4:
            return f"FC{self.wick}-2702"
        return "FC4-2705" if self.poured >= NEW_LOT_DAY else "FC4-2702"


CANDLES = (
    TestCandle(
        code="K7F", oil="Slate After Rain", poured=FIRST_POUR,
        wick_days=(7, 11, 15, 17, 19, 21, 22, 23), to_the_end=True,
    ),
    TestCandle(
        code="R9D", oil="Slate After Rain", poured=SECONDS_POUR,
        wick_days=EVERY_DAY, to_the_end=True,
    ),
    TestCandle(
        code="M9C", oil="Rhubarb Cold Frame", poured=FIRST_POUR,
        wick_days=(8, 13, 14, 18, 20, 22, 23), to_the_end=True,
    ),
    TestCandle(
        code="X4B", oil="Rhubarb Cold Frame", poured=SECONDS_POUR,
        wick_days=EVERY_DAY, to_the_end=True,
    ),
    TestCandle(
        code="V3J", oil="Vårrabarbra 114", poured=FIRST_POUR, fixing="sticker",
        wick_days=(11, 15),
    ),
    TestCandle(
        code="T4H", oil="Rebarbara K", poured=FIRST_POUR,
        wick_days=(8, 13, 17, 19, 20, 22, 23), to_the_end=True,
    ),
    TestCandle(
        code="J8V", oil="Rebarbara K", poured=SECONDS_POUR,
        wick_days=EVERY_DAY, to_the_end=True,
    ),
    TestCandle(
        code="P2N", oil="Bakehouse at Five", poured=SECOND_POUR, load_percent=OF_TOTAL_PERCENT,
        wick_days=(8, 10, 14, 17, 19, 20, 21, 22), to_the_end=True,
    ),
    TestCandle(code="H6X", oil="Ferry Rope", poured=SECOND_POUR, wick_days=(8, 13, 18)),
    TestCandle(
        code="S4M", oil="Ferry Rope", poured=SECOND_POUR, fixing="sticker",
        wick_days=(8, 10, 12, 14, 17),
    ),
    TestCandle(
        code="G4W", oil="Goat Willow", poured=SECOND_POUR, wick=3, fixing="sticker",
        wick_days=(8, 14),
    ),
    TestCandle(
        code="W3E", oil="Kelp and Iron", poured=FIRST_POUR, wick=6, fixing="sticker",
        wick_days=(8, 11, 13, 15, 17),
    ),
    TestCandle(
        code="W8R", oil="Kelp and Iron", poured=SECOND_POUR, wick=5, fixing="sticker",
        wick_days=(10, 13, 19),
    ),
    TestCandle(
        code="D5Q", oil="Linen Loft", poured=FIRST_POUR, fixing="sticker",
        wick_days=(9, 14, 20),
    ),
    TestCandle(code="Z6E", oil="Linen Loft", poured=NEW_LOT_POUR),
    TestCandle(code="N3U", oil="Harbour Tar", poured=LAST_YEAR),
)  # fmt: skip

BY_CODE = {candle.code: candle for candle in CANDLES}


@dataclass(frozen=True, slots=True, kw_only=True)
class Evening:
    """One evening of the panel: the day of May, who sat, and one candle in each room."""

    day: int
    loft: str
    kitchen: str
    back_room: str
    noses: tuple[str, ...] = ("Odd", "Pernille", "Isak", "Maren", "Tor", "Åse")

    def seats(self) -> tuple[tuple[str, str], ...]:
        """Room and candle, in the order of the walk round."""
        return (("loft", self.loft), ("kitchen", self.kitchen), ("back room", self.back_room))

    @property
    def date(self) -> date:
        return date(2027, 5, self.day)


EVENINGS = (
    # The three rhubarbs before their cure ended, sniffed by four: shown, never counted.
    Evening(
        day=2, loft="T4H", kitchen="M9C", back_room="V3J", noses=("Odd", "Isak", "Maren", "Åse")
    ),
    Evening(day=9, loft="K7F", kitchen="W3E", back_room="V3J"),
    Evening(day=11, loft="M9C", kitchen="T4H", back_room="H6X"),
    Evening(day=12, loft="P2N", kitchen="G4W", back_room="D5Q"),
    Evening(day=13, loft="N3U", kitchen="V3J", back_room="K7F"),
    Evening(day=15, loft="W8R", kitchen="P2N", back_room="T4H"),
    Evening(day=16, loft="H6X", kitchen="M9C", back_room="W8R"),
    Evening(day=18, loft="G4W", kitchen="D5Q", back_room="N3U"),
)


def combinations() -> tuple[Combination, ...]:
    return tuple(candle.combination() for candle in CANDLES)


def theme() -> tuple[ThemeMember, ...]:
    """At most one rhubarb."""
    return tuple(
        ThemeMember(candidate=name, group=oil.group)
        for name, oil in OILS.items()
        if oil.group is not None
    )
