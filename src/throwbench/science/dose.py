"""What the step of the scale does to a dose, and why a blend is mixed before it is dosed."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

from throwbench.science.errors import OutOfRangeError, UnclearError, in_range
from throwbench.science.load import BENCH, recorded_load_percent, weight_of
from throwbench.science.units import weight_words
from throwbench.science.words import plain

STEP_LIMITS_G = (0.0001, 50.0)
PARTS_LIMITS = (0.001, 500_000.0)
FINE_PERCENT = 1.0
"""Half a step below this share of a part is called fine enough (a setting of this bench)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """Oil as a scale can show it, and between which two loads the real one then lies."""

    wanted_g: float
    step_g: float
    shown_g: float
    off_percent: float
    half_step_percent: float
    load_percent: float
    load_low_percent: float
    load_high_percent: float

    def sentence(self, *, ounces: bool = False) -> str:
        return (
            f"On a scale with steps of {weight_words(self.step_g, ounces=ounces)} weigh "
            f"{weight_words(self.shown_g, ounces=ounces)} of oil ({self._off()}); half a step is "
            f"±{plain(self.half_step_percent)} % of it, so the real load lies between "
            f"{plain(self.load_low_percent)} and {plain(self.load_high_percent)} % of wax."
        )

    def _off(self) -> str:
        if abs(self.off_percent) < 0.005:
            return "as wanted"
        side = "too much" if self.off_percent > 0 else "too little"
        return f"{plain(abs(self.off_percent))} % {side}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendPart:
    """One oil of a blend: its parts by weight, and what that is in the dose."""

    oil: str
    parts: float
    share_percent: float
    oil_g: float
    half_step_percent: float | None
    """What half a step of the scale would be of this part, weighed alone; None: step not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blend:
    """Several oils mixed by weight and then dosed as one oil."""

    oil_g: float
    step_g: float | None
    parts: tuple[BlendPart, ...]
    premix_g: float | None
    """The smallest premix whose parts all weigh in fine enough; None: step not known."""

    def sentence(self, *, ounces: bool = False) -> str:
        said = ", ".join(
            f"{plain(part.parts)} parts {part.oil} ({weight_words(part.oil_g, ounces=ounces)})"
            for part in self.parts
        )
        mixed = (
            f"Mix the blend first, by weight: {said}; then dose "
            f"{weight_words(self.oil_g, ounces=ounces)} of it as one oil."
        )
        return f"{mixed} {self._because(ounces)}".rstrip()

    def _because(self, ounces: bool) -> str:
        if self.premix_g is None or self.step_g is None:
            return ""
        least = min(self.parts, key=lambda part: part.oil_g)
        return (
            f"Weighed into the pitcher alone, {plain(least.share_percent)} % of "
            f"{weight_words(self.oil_g, ounces=ounces)} on a scale with steps of "
            f"{weight_words(self.step_g, ounces=ounces)} is "
            f"±{plain(least.half_step_percent or 0)} %; from "
            f"{weight_words(self.premix_g, ounces=ounces)} of blend on, every part is "
            f"within ±{plain(FINE_PERCENT)} %."
        )


def half_step_percent(*, weight_g: float, step_g: float) -> float:
    """Half a step of the scale, as a share of what is weighed [%].

    Raises
    ------
    OutOfRangeError
        Where the step is not 0.0001 to 50 g, or the weight not 1 mg to 500 kg.

    Notes
    -----
    What a scale shows may be off by half its step and it still shows the same; its own error and
    draughts come on top.

    Checked against: definition (LF027, LF028).
    """
    return 100 * _step(step_g) / 2 / weight_of(weight_g, what="Weight")


def off_percent(*, wanted_g: float, shown_g: float) -> float:
    """How much too much (+) or too little (-) was weighed, as a share of what was wanted [%].

    Raises
    ------
    OutOfRangeError
        Where a weight is not 1 mg to 500 kg.

    Checked against: definition (LF026).
    """
    wanted = weight_of(wanted_g, what="Oil wanted")
    return 100 * (weight_of(shown_g, what="Oil weighed") - wanted) / wanted


def on_scale(weight_g: float, *, step_g: float) -> float:
    """The weight that a scale with this step shows for it [g]; 0 below half a step.

    Raises
    ------
    OutOfRangeError
        Where the step is not 0.0001 to 50 g.

    Notes
    -----
    Exactly between two steps the larger one is taken.

    Checked against: definition (LF026).
    """
    # The small addition keeps 40.55 / 0.1 = 405.49999999999994 on the side where it belongs.
    steps = floor(weight_g / _step(step_g) + 0.5 + 1e-9)
    return round(steps * step_g, 7)  # and 3 * 0.1 is 0.3, as the scale shows it


def dose(*, wax_g: float, oil_g: float, step_g: float) -> Dose:
    """The oil nearest to what is wanted that the scale can show, and the load that it makes.

    Raises
    ------
    OutOfRangeError
        Where the oil is less than half a step: such a scale cannot weigh it. Otherwise as
        `half_step_percent`.

    Notes
    -----
    Exactly between two steps the larger one is taken.

    Checked against: definition (LF027, LF028).
    """
    step = _step(step_g)
    shown = on_scale(weight_of(oil_g, what="Oil"), step_g=step)
    if shown == 0:
        raise OutOfRangeError(
            what="Step of the scale",
            value=step,
            unit="g",
            limits=(STEP_LIMITS_G[0], 2 * oil_g),
            source=f"{plain(oil_g)} g of oil would not show",
            advice="Take a finer scale, or pour more vessels from one pitcher.",
        )
    load = recorded_load_percent(wax_g=wax_g, oil_g=shown)
    half = 100 * step / 2 / wax_g
    return Dose(
        wanted_g=oil_g,
        step_g=step,
        shown_g=shown,
        off_percent=off_percent(wanted_g=oil_g, shown_g=shown),
        half_step_percent=half_step_percent(weight_g=shown, step_g=step),
        load_percent=load,
        load_low_percent=load - half,
        load_high_percent=load + half,
    )


def blend(
    *, parts: Sequence[tuple[str, float]], oil_g: float, step_g: float | None = None
) -> Blend:
    """A blend as parts by weight: premixed, then dosed as one oil.

    Parameters
    ----------
    parts : name of the oil and its parts by weight, shape (n,), n >= 2; they need not add to 100
    oil_g : the dose of the whole blend [g]
    step_g : step of the scale, where known [g]

    Raises
    ------
    UnclearError
        Where there are fewer than two oils, or one twice.
    OutOfRangeError
        Where parts are not above 0, or a weight is outside its limits.

    Notes
    -----
    A part is oil * parts / sum of parts. The premix is fine enough when half a step is at most
    1 % (a setting of this bench) of its smallest part.

    Checked against: definition (10 % of 11.1 g on a scale with steps of 0.1 g is ±4.5 %).
    """
    _two_different(parts)
    for oil, value in parts:
        in_range(value, what=f"Parts of {oil}", unit="", limits=PARTS_LIMITS, source=BENCH)
    whole = sum(value for _, value in parts)
    weighed = tuple(_part(oil, value, value / whole, oil_g, step_g) for oil, value in parts)
    least = min(value for _, value in parts) / whole
    return Blend(
        oil_g=oil_g,
        step_g=step_g,
        parts=weighed,
        premix_g=None if step_g is None else 100 * step_g / 2 / FINE_PERCENT / least,
    )


def _part(oil: str, parts: float, share: float, oil_g: float, step_g: float | None) -> BlendPart:
    part_g = weight_of(oil_g * share, what=f"{oil} in the blend")
    half = None if step_g is None else half_step_percent(weight_g=part_g, step_g=step_g)
    return BlendPart(
        oil=oil, parts=parts, share_percent=100 * share, oil_g=part_g, half_step_percent=half
    )


def _two_different(parts: Sequence[tuple[str, float]]) -> None:
    names = [oil for oil, _ in parts]
    if len(names) < 2 or len(set(names)) < len(names):
        raise UnclearError(
            f"The blend names {', '.join(names) or 'no oil'}.",
            "A blend has two or more different oils, each once.",
            "Name each oil with its parts by weight.",
        )


def _step(step_g: float) -> float:
    return in_range(step_g, what="Step of the scale", unit="g", limits=STEP_LIMITS_G, source=BENCH)
