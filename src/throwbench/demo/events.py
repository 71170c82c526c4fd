"""What went wrong, or was put right, in single burns of the demo."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import timedelta

from throwbench.records import Burn

LEFT_ON = timedelta(hours=4, minutes=50)
TYPED_MM, MEANT_MM = 80, 18


def planted(burn: Burn) -> Burn:
    """The burn with what happened in it; most burns are left as they are."""
    event = EVENTS.get((burn.candle, burn.burn))
    return burn if event is None else event(burn)


def _left_on(burn: Burn) -> Burn:
    return replace(
        burn,
        out_at=burn.lit_at + LEFT_ON,
        note="left on for 4 h 50: went down to the quay",
    )


def _flame_put_right(burn: Burn) -> Burn:
    """The slip stays visible in the note; the log holds what was meant."""
    checks = tuple(
        check if check.flame_mm is None else replace(check, flame_mm=MEANT_MM)
        for check in burn.checks
    )
    note = f"flame first typed as {TYPED_MM} mm, it was {MEANT_MM} mm: put right"
    return replace(burn, checks=checks, note=note)


def _floated(burn: Burn) -> Burn:
    return replace(burn, wick_moved=True, note="the sticker let go, the wick floats")


def _says(note: str) -> Callable[[Burn], Burn]:
    return lambda burn: replace(burn, note=note)


EVENTS: Mapping[tuple[str, int], Callable[[Burn], Burn]] = {
    ("D5Q", 3): _left_on,
    ("K7F", 3): _flame_put_right,
    ("S4M", 5): _floated,
    ("P2N", 1): _says("dosed at 8 % of total, which is 8.70 % of wax"),
    ("P2N", 3): _says("day 14: the wax has browned"),
    ("T4H", 1): _says("tags of T4H and M9C were swapped on pour day, put right on day 3"),
    ("M9C", 1): _says("tags of T4H and M9C were swapped on pour day, put right on day 3"),
    ("W8R", 1): _says("pitcher over-poured by 12.6 g of wax, taken back before the oil"),
    ("J8V", 1): _says("poured into the spare cup: the washed one had a chip"),
}
