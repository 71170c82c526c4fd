"""Sums for a set of test candles: what to melt, what goes into each pitcher, what was weighed."""

from collections.abc import Sequence
from dataclasses import dataclass

from throwbench.science.errors import UnclearError, in_range
from throwbench.science.load import (
    BENCH,
    Mix,
    card_maximum,
    mix_for_total,
    mix_for_wax,
    recorded_load_percent,
    weight_of,
)
from throwbench.science.units import weight_words
from throwbench.science.words import counted, plain

RESIDUE_LIMITS_G = (0.0, 10_000.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """One pitcher per oil, all from one pot of wax."""

    oils: int
    vessels: int
    fill_g: float
    residue_g: float
    pot_residue_g: float
    pitcher: Mix
    wax_to_melt_g: float

    def sentence(self, *, ounces: bool = False) -> str:
        said = [
            f"{counted(self.vessels, 'vessel')} of {weight_words(self.fill_g, ounces=ounces)} and "
            f"{weight_words(self.residue_g, ounces=ounces)} left in the pitcher: "
            f"{self.pitcher.sentence(ounces=ounces)}",
            f"Melt {weight_words(self.wax_to_melt_g, ounces=ounces)} of wax for "
            f"{counted(self.oils, 'pitcher')}, with "
            f"{weight_words(self.pot_residue_g, ounces=ounces)} left in the pot.",
        ]
        return " ".join(said)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """The wax really in the pitcher: every weighing is kept, the last one counts."""

    target_g: float | None
    weighings_g: tuple[float, ...]
    mix: Mix

    @property
    def over_target_g(self) -> float | None:
        """Wax above the target; negative below it; None without a target."""
        return None if self.target_g is None else self.mix.wax_g - self.target_g

    def sentence(self, *, ounces: bool = False) -> str:
        each = ", then ".join(weight_words(value, ounces=ounces) for value in self.weighings_g)
        last = "; the last counts" if len(self.weighings_g) > 1 else ""
        return (
            f"Weighed {each}{last}{self._against_target(ounces)}. At "
            f"{plain(self.mix.load_percent)} % of wax that takes "
            f"{weight_words(self.mix.oil_g, ounces=ounces)} of oil."
        )

    def _against_target(self, ounces: bool) -> str:
        if self.target_g is None or self.over_target_g is None:
            return ""
        side = "under" if self.over_target_g < 0 else "over"
        return (
            f", {weight_words(abs(self.over_target_g), ounces=ounces)} {side} the target of "
            f"{weight_words(self.target_g, ounces=ounces)}"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """What was poured in, and the load that it makes; `card_maximum_percent` where known."""

    mix: Mix
    card_maximum_percent: float | None

    @property
    def above_card(self) -> bool:
        return (
            self.card_maximum_percent is not None
            and self.mix.load_percent > self.card_maximum_percent
        )

    def sentence(self, *, ounces: bool = False) -> str:
        said = (
            f"Recorded load: {weight_words(self.mix.oil_g, ounces=ounces)} of oil in "
            f"{weight_words(self.mix.wax_g, ounces=ounces)} of wax is "
            f"{plain(self.mix.load_percent)} % of wax."
        )
        if self.card_maximum_percent is None or not self.above_card:
            return said
        enough_g = 100 * self.mix.oil_g / self.card_maximum_percent
        return (
            f"{said} The wax card allows {plain(self.card_maximum_percent)} % of wax at most: do "
            "not pour it as it is. "
            f"{weight_words(enough_g - self.mix.wax_g, ounces=ounces)} more wax would bring it "
            "down to that."
        )


def batch(
    *,
    vessels: int,
    fill_g: float,
    load_percent: float,
    residue_g: float = 0.0,
    oils: int = 1,
    pot_residue_g: float = 0.0,
) -> Batch:
    """Sums for `oils` pitchers of `vessels` test candles each.

    Parameters
    ----------
    vessels : per pitcher [1 to 1,000]
    fill_g : wax and oil in one vessel [g]
    load_percent : [% of wax]
    residue_g : mix left in each pitcher after pouring [g]
    oils : pitchers [1 to 1,000]
    pot_residue_g : wax left in the melting pot after the last pitcher [g]

    Raises
    ------
    OutOfRangeError
        Outside these limits, or those of `mix_for_total`.

    Notes
    -----
    mix in a pitcher = vessels * fill + residue; wax to melt = oils * wax in a pitcher + residue
    in the pot. One pitcher, nothing left anywhere: the plain sum of the fills.

    Checked against: definition (LF023-LF025).
    """
    in_range(vessels, what="Number of vessels", unit="", limits=(1, 1000), source=BENCH)
    in_range(oils, what="Number of oils", unit="", limits=(1, 1000), source=BENCH)
    fill = weight_of(fill_g, what="Fill of a vessel")
    residue = _left(residue_g, "the pitcher")
    pot = _left(pot_residue_g, "the pot")
    pitcher = mix_for_total(total_g=vessels * fill + residue, load_percent=load_percent)
    return Batch(
        oils=oils,
        vessels=vessels,
        fill_g=fill,
        residue_g=residue,
        pot_residue_g=pot,
        pitcher=pitcher,
        wax_to_melt_g=oils * pitcher.wax_g + pot,
    )


def weighed(
    *, weighings_g: Sequence[float], load_percent: float, target_g: float | None = None
) -> Weighed:
    """The oil for the wax that is really in the pitcher.

    Parameters
    ----------
    weighings_g : every weighing in order, shape (n,), n >= 1 [g]
    load_percent : [% of wax]
    target_g : the wax that was planned, where known [g]

    Raises
    ------
    UnclearError
        Where there is no weighing.
    OutOfRangeError
        As `mix_for_wax`, for every weighing.

    Checked against: definition (LF021).
    """
    if not weighings_g:
        raise UnclearError(
            "There is no weighing of the wax.",
            "At least one is needed.",
            "Weigh the wax in the pitcher.",
        )
    kept = tuple(weight_of(value, what="Wax weighed") for value in weighings_g)
    return Weighed(
        target_g=target_g,
        weighings_g=kept,
        mix=mix_for_wax(wax_g=kept[-1], load_percent=load_percent),
    )


def recorded(*, wax_g: float, oil_g: float, card_maximum_percent: float | None = None) -> Recorded:
    """The load of what was really poured together, told against the wax card where it is known.

    Raises
    ------
    OutOfRangeError
        As `recorded_load_percent` and `card_maximum`.

    Checked against: definition (LF022).
    """
    load_percent = recorded_load_percent(wax_g=wax_g, oil_g=oil_g)
    if card_maximum_percent is not None:
        card_maximum(card_maximum_percent)
    return Recorded(
        mix=Mix(wax_g=wax_g, oil_g=oil_g, load_percent=load_percent),
        card_maximum_percent=card_maximum_percent,
    )


def _left(value_g: float, where: str) -> float:
    return in_range(
        value_g, what=f"What is left in {where}", unit="g", limits=RESIDUE_LIMITS_G, source=BENCH
    )
