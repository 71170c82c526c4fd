"""Whether the candles of a lit panel are lit, and for how long: said before a nose sniffs."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from throwbench.science.words import duration
from throwbench.verdict.reasons import SOON_LIT_MIN
from throwbench.workshop.panel.models import Asks, Panel, Seat
from throwbench.workshop.panel.selectors.moments import burned, burns_of
from throwbench.workshop.trials.models import Burn, BurnKind
from throwbench.workshop.trials.times import clock

HOUR = timedelta(hours=1)
SOON = timedelta(minutes=SOON_LIT_MIN)
NO_BURN = "no burn of it is noted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Flame:
    """The candle behind one tag at that moment. A guest is told neither its code nor its burns."""

    seat: int
    code: str
    burn: Burn | None
    is_noted: bool
    """Whether any burn of it is noted: if none ever was, nobody knows whether it is lit."""
    now: datetime

    @property
    def is_out(self) -> bool:
        return self.is_noted and self.burn is None

    @property
    def ready_at(self) -> datetime | None:
        """From when a sniff is not so soon that the verdict says it; None where that is over."""
        if self.burn is None or self.now - self.burn.lit_at >= SOON:
            return None
        return self.burn.lit_at + SOON

    @property
    def said(self) -> str:
        """'lit 1 min ago', 'lit 2 h ago, wick burn', 'not lit'."""
        if self.burn is None:
            return "not lit" if self.is_noted else NO_BURN
        if self.burn.kind == BurnKind.NOSE:
            return self._ago
        return f"{self._ago}, {self.burn.get_kind_display()}"

    @property
    def _ago(self) -> str:
        assert self.burn is not None
        return f"lit {duration(max(self.now - self.burn.lit_at, timedelta(0)) / HOUR)} ago"

    @property
    def sentence(self) -> str:
        """What the maker has to know before it is sniffed; nothing where all is well."""
        if self.is_out:
            return f"{self.code} is not lit. A score given now is shown and not counted."
        if self.burn is None:
            return f"{self.code}: {NO_BURN}. A score counts as of a lit candle."
        if self.burn.kind != BurnKind.NOSE:
            kind = self.burn.get_kind_display()
            return f"{self.code} is lit as a {kind}: a score of it is shown and not counted."
        if self.ready_at is not None:
            return (
                f"{self.code} was {self.said}. Hot throw is mostly sniffed from "
                f"{clock(self.ready_at)} on; a score before that counts, and the verdict says "
                "how soon it was."
            )
        return ""

    @property
    def for_a_nose(self) -> str:
        """The same for who sniffs: no code, no kind of burn."""
        if self.is_out:
            return f"At {clock(self.now)} this candle was not lit. Tell the maker before you sniff."
        return f"This candle was {self._ago}." if self.ready_at is not None else ""


def flames_of(panel: Panel, seats: Sequence[Seat], now: datetime) -> tuple[Flame, ...]:
    """The flame of each of these seats at an open lit panel; nothing at any other."""
    if panel.asks != Asks.LIT or panel.closed_at is not None:
        return ()
    noted = burns_of([seat.candle_id for seat in seats if seat.candle_id is not None])
    return tuple(
        _flame(seat, noted.get(seat.candle_id, ()), now) for seat in seats if seat.candle_id
    )


def _flame(seat: Seat, noted: Sequence[Burn], now: datetime) -> Flame:
    assert seat.candle is not None
    return Flame(
        seat=seat.pk,
        code=seat.candle.code,
        burn=next((burn for burn in noted if burned(burn, now)), None),
        is_noted=bool(noted),
        now=now,
    )
