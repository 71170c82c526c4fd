"""The burns of one candle in their order, each with what came before it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from throwbench.records import Burn, Combination
from throwbench.science.burn import FIRST_JUDGED_BURN, wax_left_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxLeft:
    """Depth of wax left, and how it is known."""

    mm: float
    measured: bool

    def sentence(self) -> str:
        how = "measured" if self.measured else "computed from the masses, for straight walls"
        return f"{self.mm:.0f} mm of wax left, {how}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One burn of a candle, the burn before it, and the wax left after each where it is known."""

    burn: Burn
    before: Burn | None
    wax_when_lit: WaxLeft | None
    wax_after: WaxLeft | None

    @property
    def judged(self) -> bool:
        return self.burn.burn >= FIRST_JUDGED_BURN


def by_candle(burns: Iterable[Burn]) -> dict[str, list[Burn]]:
    """The burns of each candle, candles and burns in the order in which they come."""
    found: dict[str, list[Burn]] = {}
    for burn in burns:
        found.setdefault(burn.candle, []).append(burn)
    return found


def in_turn(burns: Sequence[Burn], combination: Combination | None = None) -> tuple[Turn, ...]:
    """The burns of one candle by their number, whatever their order in the file.

    Parameters
    ----------
    burns : of one candle
    combination : its wax when new, where known: it lets the wax left be computed from the masses

    Notes
    -----
    The wax left is what was measured after a burn; else it is computed, if the first burn was
    weighed before and this one after. Where neither is known it is None for that burn; the wax
    when a burn is lit is the wax after the burn before.
    """
    ordered = sorted(burns, key=lambda burn: (burn.burn, burn.lit_at, burn.out_at, burn.line))
    left = [_wax_after(ordered[0], burn, combination) for burn in ordered]
    return tuple(
        Turn(
            burn=burn,
            before=ordered[place - 1] if place else None,
            wax_when_lit=left[place - 1] if place else None,
            wax_after=left[place],
        )
        for place, burn in enumerate(ordered)
    )


def last_wax(turns: Sequence[Turn]) -> WaxLeft | None:
    """The wax left after the last burn for which it is known."""
    return next((turn.wax_after for turn in reversed(turns) if turn.wax_after), None)


def _wax_after(first: Burn, burn: Burn, combination: Combination | None) -> WaxLeft | None:
    if burn.wax_left_mm is not None:
        return WaxLeft(mm=burn.wax_left_mm, measured=True)
    new_g = combination.wax_g if combination else None
    new_mm = combination.wax_mm if combination else None
    start_g = first.mass_before_g if first.burn == 1 else None
    end_g = burn.mass_after_g
    if new_g is None or new_mm is None or start_g is None or end_g is None:
        return None
    burnt_g = start_g - end_g
    # Masses that do not fit the wax poured say nothing; the reader of the file asks about them.
    if not 0 <= burnt_g <= new_g:
        return None
    return WaxLeft(mm=wax_left_mm(burnt_g=burnt_g, wax_g=new_g, wax_mm=new_mm), measured=False)
