"""How much oil for how much wax, on both meanings of "10 %".

A load of wax counts the oil against the wax alone; a share of total counts it against wax and oil
together. Inside, a load is always a load of wax.
"""

from dataclasses import dataclass
from typing import Literal, get_args

from throwbench.science.errors import UnclearError, in_range
from throwbench.science.units import weight_words
from throwbench.science.words import plain

Basis = Literal["wax", "total"]

LOAD_LIMITS_PERCENT = (0.01, 40.0)
SHARE_LIMITS_PERCENT = (0.01, 100 * 40 / 140)
WEIGHT_LIMITS_G = (0.001, 500_000.0)
BENCH = "plausibility limit of this bench"
COMMON = "plausibility limit; wax cards rarely go above 12 % of wax, common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A load on both bases. `basis` is None where the maker did not say which one was meant."""

    entered_percent: float
    basis: Basis | None
    of_wax_percent: float
    of_total_percent: float

    def sentence(self) -> str:
        if self.basis == "total":
            return (
                f"{plain(self.of_total_percent)} % of total is a load of "
                f"{plain(self.of_wax_percent)} % of wax."
            )
        both = (
            f"{plain(self.of_wax_percent)} % of wax is a share of "
            f"{plain(self.of_total_percent)} % of total."
        )
        return f"{self._unsaid()} {both}" if self.basis is None else both

    def _unsaid(self) -> str:
        taken = f"{plain(self.entered_percent)} % is taken of wax, because no basis was given"
        if self.entered_percent > SHARE_LIMITS_PERCENT[1]:
            return f"{taken}."
        other = load_of_wax_percent(share_percent=self.entered_percent)
        return f"{taken}; if it is meant of total, it is {plain(other)} % of wax."


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """Wax and oil that are poured together."""

    wax_g: float
    oil_g: float
    load_percent: float

    @property
    def total_g(self) -> float:
        return self.wax_g + self.oil_g

    def sentence(self, *, ounces: bool = False) -> str:
        wax, oil, total = (
            weight_words(value, ounces=ounces) for value in (self.wax_g, self.oil_g, self.total_g)
        )
        return f"{oil} of oil into {wax} of wax makes {total} of mix."


def weight_of(value_g: float, *, what: str) -> float:
    """A weight that can be on a bench: 1 mg to 500 kg.

    Raises
    ------
    OutOfRangeError
        Outside that.

    Checked against: definition.
    """
    return in_range(value_g, what=what, unit="g", limits=WEIGHT_LIMITS_G, source=BENCH)


def share_of_total_percent(*, load_percent: float) -> float:
    """Share of total [% of total] of a load of wax [% of wax].

    Raises
    ------
    OutOfRangeError
        Where the load is not 0.01 to 40 % of wax.

    Notes
    -----
    share = load / (100 + load) * 100.

    Checked against: definition (LF009, LF012, LF019, LF020).
    """
    checked = _load(load_percent)
    return 100 * checked / (100 + checked)


def load_of_wax_percent(*, share_percent: float) -> float:
    """Load of wax [% of wax] of a share of total [% of total].

    Raises
    ------
    OutOfRangeError
        Where the share is not 0.01 to 28.5714 % of total, which is 40 % of wax.

    Notes
    -----
    load = share / (100 - share) * 100.

    Checked against: definition (LF010).
    """
    checked = in_range(
        share_percent,
        what="Share of total",
        unit="%",
        limits=SHARE_LIMITS_PERCENT,
        source=COMMON,
    )
    return 100 * checked / (100 - checked)


def load_on_both_bases(*, percent: float, basis: Basis | None) -> Load:
    """A load as entered, on both bases. Without a basis it is taken of wax, and that is said.

    Raises
    ------
    OutOfRangeError
        Outside the limits of either meaning that is shown.
    UnclearError
        A basis that is neither wax nor total.

    Checked against: definition (LF009, LF010).
    """
    if basis not in (None, *get_args(Basis)):
        raise UnclearError(
            f"The load is of '{basis}'.",
            f"A load is of {' or of '.join(get_args(Basis))}.",
            "Use one of these words, or leave it out.",
        )
    if basis == "total":
        of_wax, of_total = load_of_wax_percent(share_percent=percent), percent
    else:
        of_wax, of_total = percent, share_of_total_percent(load_percent=percent)
    return Load(
        entered_percent=percent, basis=basis, of_wax_percent=of_wax, of_total_percent=of_total
    )


def card_maximum(percent: float) -> float:
    """A maximum that can stand on a wax card: 0.01 to 40 % of wax.

    Raises
    ------
    OutOfRangeError
        Outside that.

    Checked against: definition.
    """
    return in_range(
        percent,
        what="The wax card's maximum",
        unit="%",
        limits=LOAD_LIMITS_PERCENT,
        source=COMMON,
    )


def below_card(*, load_percent: float, card_maximum_percent: float) -> float:
    """The load [% of wax] itself, where the wax card allows it.

    Raises
    ------
    OutOfRangeError
        Above the wax card's maximum, with the card as its source; or as `card_maximum`.

    Checked against: definition.
    """
    maximum = card_maximum(card_maximum_percent)
    # A load that comes from a share of total may miss the maximum by a rounding error only.
    return in_range(
        load_percent,
        what="Load of wax",
        unit="%",
        limits=(LOAD_LIMITS_PERCENT[0], maximum * (1 + 1e-12)),
        source="the wax card's maximum",
        advice="Take less oil, or a wax whose card allows more.",
    )


def mix_for_wax(*, wax_g: float, load_percent: float) -> Mix:
    """The oil for so much wax.

    Raises
    ------
    OutOfRangeError
        Where the load is not 0.01 to 40 % of wax, or the weight is not 1 mg to 500 kg.

    Notes
    -----
    oil = wax * load / 100.

    Checked against: common practice (LF008), definition (LF021).
    """
    wax = weight_of(wax_g, what="Wax")
    load = _load(load_percent)
    return Mix(wax_g=wax, oil_g=wax * load / 100, load_percent=load)


def mix_for_total(*, total_g: float, load_percent: float) -> Mix:
    """Wax and oil that together weigh so much.

    Raises
    ------
    OutOfRangeError
        As `mix_for_wax`.

    Notes
    -----
    wax = total / (1 + load / 100); the oil is the rest, so that nothing is lost to rounding.

    Checked against: definition (LF013-LF018, LF024).
    """
    total = weight_of(total_g, what="Wax and oil together")
    load = _load(load_percent)
    wax = total / (1 + load / 100)
    return Mix(wax_g=wax, oil_g=total - wax, load_percent=load)


def recorded_load_percent(*, wax_g: float, oil_g: float) -> float:
    """Load of wax [% of wax] of what was really poured together.

    Raises
    ------
    OutOfRangeError
        Where a weight is not 1 mg to 500 kg. The load itself is reported whatever it is: a
        record is not a plan.

    Notes
    -----
    load = oil / wax * 100.

    Checked against: definition (LF011, LF022).
    """
    return 100 * weight_of(oil_g, what="Oil") / weight_of(wax_g, what="Wax")


def _load(load_percent: float) -> float:
    return in_range(
        load_percent,
        what="Load of wax",
        unit="%",
        limits=LOAD_LIMITS_PERCENT,
        source=COMMON,
    )
