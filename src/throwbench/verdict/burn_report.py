"""A burn log as a whole: limits first, then how the candles burn, then the figures."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from throwbench.records import Burn, Combination
from throwbench.rules.judge import judge
from throwbench.rules.limit import figure_of, limits_on, not_tried
from throwbench.rules.result import ABOVE_ALL, CombinationLimits
from throwbench.rules.turn import by_candle
from throwbench.science.errors import UnclearError
from throwbench.science.words import FIRE_LINE, plain
from throwbench.verdict.burn_reading import BurnReading, read_candle
from throwbench.verdict.burns_well import BurnsWell, burns_well


@dataclass(frozen=True, slots=True, kw_only=True)
class CandleReport:
    """One candle that was burned: how it burns in words, and its figures."""

    candle: str
    burns_well: BurnsWell
    reading: BurnReading


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnReport:
    """What a burn log says. `day` is an ISO date: that of the figures in force."""

    day: str
    limits: tuple[CombinationLimits, ...]
    candles: tuple[CandleReport, ...]
    not_tried: tuple[str, ...]
    cautions: tuple[str, ...]

    def sentence(self) -> str:
        return " ".join(item.sentence() for item in self.limits)

    def of(self, candle: str) -> "BurnReport":
        """The part that concerns one candle: its whole combination, and its own figures.

        Raises
        ------
        UnclearError
            A candle that is in neither file.
        """
        known = sorted({one.candle for item in self.limits for one in item.candles})
        if candle not in known:
            raise UnclearError(
                f"There is no candle '{candle}' here.",
                f"The candles are {', '.join(known) or 'none'}.",
                "Use one of these codes.",
            )
        return replace(
            self,
            limits=tuple(
                item for item in self.limits if candle in {one.candle for one in item.candles}
            ),
            candles=tuple(item for item in self.candles if item.candle == candle),
        )


def report_burns(
    burns: Sequence[Burn],
    *,
    combinations: Sequence[Combination] = (),
    inside_mm: float | None = None,
    day: date,
    house: Mapping[str, float] | None = None,
    unread: Mapping[str, str] | None = None,
) -> BurnReport:
    """What a burn log says of its combinations and candles.

    Parameters
    ----------
    burns : of all candles, in any order
    combinations : what the candles are made of, as far as it is known
    inside_mm : inside diameter of the vessels that have none of their own [mm]
    day : of the judgement
    house : the maker's own figures by rule id
    unread : by candle, what in its log could not be read

    Raises
    ------
    UnclearError
        A house limit that is not known or not a number above zero.

    Checked against: definition.
    """
    limits = limits_on(day, house=house)
    made_of = {item.candle: item for item in combinations}
    end_mm = figure_of("end-line", limits)

    def of_one(code: str, log: Sequence[Burn]) -> CandleReport:
        made = made_of.get(code)
        well = burns_well(log, combination=made, inside_mm=inside_mm, day=day, house=house)
        read = read_candle(code, log, end_mm=end_mm, combination=made, inside_mm=inside_mm)
        return CandleReport(candle=code, burns_well=well, reading=read)

    return BurnReport(
        day=day.isoformat(),
        limits=judge(burns, combinations=combinations, day=day, house=house, unread=unread),
        candles=tuple(of_one(code, log) for code, log in sorted(by_candle(burns).items())),
        not_tried=not_tried(limits),
        cautions=cautions(spacing_mm=figure_of("spacing", limits)),
    )


def cautions(*, spacing_mm: float) -> tuple[str, ...]:
    """What is said wherever burns are written down."""
    return (
        "Burn on a heat-proof surface, out of draughts, with nothing above it, "
        "out of reach of children and pets.",
        "Never leave a lit candle. Keep candles at least "
        f"{plain(spacing_mm)} mm apart (house limit), and do not move one while the wax is liquid: "
        "the vessel may be hot enough to burn.",
        FIRE_LINE,
        ABOVE_ALL,
    )
