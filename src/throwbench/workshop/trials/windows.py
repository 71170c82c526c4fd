"""What a wax card says of a temperature, and what an unlikely figure was perhaps meant to be."""

from dataclasses import dataclass

from throwbench.science.errors import SaidError
from throwbench.science.units import convert
from throwbench.science.words import plain
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models.pour import Step

NAMES = {
    Step.MELTED: "Temperature of the melted wax",
    Step.ADDED: "Temperature when the oil went in",
    Step.POURED: "Pour temperature",
}


HOTTER_THAN_MELTED_C = 110
"""With no limit on the wax card, a reading above this is asked about [°C] (common practice:
waxes for containers are melted below about 100 °C)."""


class AskedError(SaidError):
    """An unlikely figure: the maker is asked. `guess` is what was perhaps meant, or None."""

    def __init__(self, sentence: str, *, guess: float | None = None) -> None:
        self.guess = guess
        super().__init__(sentence)

    @property
    def guess_figure(self) -> str:
        """The guess as it is typed; empty without one."""
        return "" if self.guess is None else f"{self.guess:.10g}"


@dataclass(frozen=True, slots=True)
class Window:
    """Lowest and highest temperature of a step [°C]; None is not known."""

    low: float | None
    high: float | None

    def words(self) -> str:
        """56-60 °C; empty where the card says nothing."""
        if self.low is None and self.high is None:
            return ""
        if self.low is None or self.high is None or self.low == self.high:
            return f"{plain(self.high if self.low is None else self.low)} °C"  # type: ignore[arg-type]
        return f"{plain(self.low)}–{plain(self.high)} °C"

    def holds(self, celsius: float) -> bool:
        low = celsius if self.low is None else self.low
        high = celsius if self.high is None else self.high
        return low <= celsius <= high


def window_of(wax: Wax, step: str) -> Window:
    """The wax card's window for a step."""
    if step == Step.ADDED:
        return Window(wax.add_oil_low_c, wax.add_oil_high_c)
    if step == Step.POURED:
        return Window(wax.pour_low_c, wax.pour_high_c)
    return Window(wax.melts_at_c, wax.never_above_c)


def ask_about(celsius: float, *, step: str, wax: Wax) -> None:
    """Nothing where the wax card allows it.

    Raises
    ------
    AskedError
        Above the limit of the wax, below the point where it sets, or outside the step's window.
    """
    name, window = NAMES[Step(step)], window_of(wax, step)
    if too_hot := too_hot_said(celsius, wax):
        raise _too_hot(celsius, too_hot, wax)
    if wax.melts_at_c is not None and celsius < wax.melts_at_c:
        raise AskedError(
            f"{name} is {plain(celsius)} °C; this wax sets at {plain(wax.melts_at_c)} °C. "
            f"{_warm(window)}, or check the unit."
        )
    if not window.holds(celsius):
        raise AskedError(
            f"{name} is {plain(celsius)} °C; the wax card says {window.words()}. "
            f"{_bring(celsius, window)}, or note it as it was."
        )


def too_hot_said(celsius: float, wax: Wax) -> str:
    """'185 °C is above this wax’s limit of 85 °C.'; empty where it is not."""
    limit = wax.never_above_c
    if limit is not None and celsius > limit:
        return f"{plain(celsius)} °C is above this wax’s limit of {plain(limit)} °C."
    if limit is None and celsius > HOTTER_THAN_MELTED_C:
        return f"{plain(celsius)} °C is far hotter than wax is melted."
    return ""


def _too_hot(celsius: float, said: str, wax: Wax) -> AskedError:
    meant = round(convert(celsius, unit="°F", to="°C"))
    low = wax.melts_at_c if wax.melts_at_c is not None else 30
    high = HOTTER_THAN_MELTED_C if wax.never_above_c is None else wax.never_above_c
    off = " If it really is that hot: heat off, and do not leave it."
    if low <= meant <= high:
        guess = f"Did you mean {plain(celsius)} °F? That is {meant} °C."
        return AskedError(f"{said} {guess}{off if wax.never_above_c is None else ''}", guess=meant)
    if wax.never_above_c is None:
        return AskedError(f"{said}{off} Or check the unit.")
    return AskedError(f"{said} Take it off the heat and let it cool, or check the unit.")


def _warm(window: Window) -> str:
    return f"Warm it to {window.words()}" if window.words() else "Warm it until it is liquid"


def _bring(celsius: float, window: Window) -> str:
    cold = window.low is not None and celsius < window.low
    return f"{'Warm it' if cold else 'Let it cool'} to {window.words()}"
