"""The example's burns and scores, entered as the maker enters them."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import asdict
from datetime import datetime, timedelta
from random import Random
from typing import Any

from throwbench.demo.events import MEANT_MM, TYPED_MM
from throwbench.demo.plan import EVENINGS, Evening
from throwbench.demo.workshop.long_light import LongLight
from throwbench.demo.workshop.people import House
from throwbench.demo.workshop.times import at, local
from throwbench.records import Burn, Check, Score
from throwbench.workshop.panel import services as panel
from throwbench.workshop.panel.models import Panel, Seat
from throwbench.workshop.trials.models import Check as CheckRow
from throwbench.workshop.trials.services import burn as burning

TYPED_WRONG = ("K7F", 3)
"""The burn in which 80 mm was typed for a flame of 18 mm."""
PASSES = (("unlit", "cold_throw"), ("lit", "hot_throw"))


def burn_log(house: House, trial: LongLight, burns: Sequence[Burn]) -> None:
    """Every burn of the example: lit, looked at, put out."""
    for burn in sorted(burns, key=lambda item: item.lit_at):
        _burn(house, trial, burn)


def _burn(house: House, trial: LongLight, burn: Burn) -> None:
    lit_at, out_at = local(burn.lit_at), local(burn.out_at)
    lit = burning.light(
        trial.candles[burn.candle],
        kind=burn.kind or "wick",
        room=house.rooms[_room(burn)],
        lit_at=lit_at,
        room_c=burn.room_c,
        trim_mm=burn.trim_mm,
        mass_before_mg=_mg(burn.mass_before_g),
        scale_step_mg=_mg(burn.scale_step_g),
        sure=True,
        who=house.owner,
        now=lit_at,
    )
    typed_wrong = (burn.candle, burn.burn) == TYPED_WRONG
    for look in burn.checks:
        seen_at = lit_at + timedelta(hours=look.check_h or 0)
        slip = typed_wrong and look.flame_mm is not None
        row = burning.check(
            lit, at=seen_at, sure=True, who=house.owner, now=seen_at, **_seen(look, slip=slip)
        )
        if slip:
            _put_right(house, row, out_at)
    burning.put_out(lit, at=out_at, sure=True, who=house.owner, now=out_at, **_end(burn))


def _room(burn: Burn) -> str:
    """A nose burn stands in the room of its evening; wick burns are lit in the loft."""
    evening = next((e for e in EVENINGS if e.date == burn.lit_at.date()), None)
    if burn.kind != "nose" or evening is None:
        return "loft"
    return next(room for room, code in evening.seats() if code == burn.candle)


def _seen(look: Check, *, slip: bool) -> dict[str, Any]:
    seen = {
        name: value
        for name, value in asdict(look).items()
        if value is not None and name not in ("check_h", "line")
    }
    return {**seen, "flame_mm": TYPED_MM} if slip else seen


def _put_right(house: House, row: CheckRow, now: datetime) -> None:
    burning.put_check_right(
        row,
        field="flame_mm",
        value=MEANT_MM,
        why="typed 80 for 18",
        who=house.owner,
        now=now + timedelta(hours=3),
    )


def _end(burn: Burn) -> dict[str, Any]:
    names = ("put_out", "wax_left_mm", "afterglow_s", "relit", "wick_moved", "vessel_damage",
             "frosting", "wet_spots", "note")  # fmt: skip
    told = {name: getattr(burn, name) for name in names if getattr(burn, name) is not None}
    return {**told, "mass_after_mg": _mg(burn.mass_after_g)}


def _mg(grams: float | None) -> int | None:
    return None if grams is None else round(grams * 1000)


def panel_evenings(house: House, trial: LongLight, scores: Sequence[Score]) -> None:
    """Each evening's two passes, unlit and lit; closing the last one unseals the trial."""
    by_day: dict[str, list[Score]] = defaultdict(list)
    for score in scores:
        by_day[score.sitting.rsplit(" ", 1)[0]].append(score)
    for evening in EVENINGS:
        _evening(house, trial, evening, by_day[f"{evening.day} May"])


def _evening(house: House, trial: LongLight, evening: Evening, scores: list[Score]) -> None:
    opened = [_open(house, trial, evening, asks) for asks, _ in PASSES]
    now = at(evening.date, 17)
    for nose, asks, code, of_sniff in _sniffs(scores):
        now += timedelta(minutes=4)
        row = opened[[name for name, _ in PASSES].index(asks)]
        _answer(house, row, nose=nose, code=code, of_sniff=of_sniff, now=now)
    for row in opened:
        panel.close_panel(row, who=house.owner, now=at(evening.date, 22))


def _open(house: House, trial: LongLight, evening: Evening, asks: str) -> Panel:
    return panel.open_panel(
        trial.trial,
        day=evening.date,
        asks=asks,
        seats=[(trial.candles[code], house.rooms[room]) for room, code in evening.seats()],
        assessors=[house.noses[name] for name in evening.noses],
        who=house.owner,
        now=at(evening.date, 16),
        chance=Random(f"{evening.day} {asks}"),
    )


def _sniffs(scores: list[Score]) -> list[tuple[str, str, str, list[Score]]]:
    """Scores of one sniff together, in the order in which they were given."""
    found: dict[tuple[str, str, str], list[Score]] = {}
    for score in scores:
        asks = "unlit" if score.attribute == "cold_throw" else "lit"
        found.setdefault((score.assessor, asks, score.candle), []).append(score)
    return [(*key, of_sniff) for key, of_sniff in found.items()]


def _answer(
    house: House, row: Panel, *, nose: str, code: str, of_sniff: list[Score], now: datetime
) -> None:
    first = of_sniff[0]
    sitting = row.sittings.get(assessor=house.noses[nose])
    panel.answer(
        sitting,
        Seat.objects.get(panel=row, candle__code=code),
        scores={score.attribute: score.score for score in of_sniff},
        at=now,
        way="hand-round",
        recognised=first.recognised,
        tired=first.tired,
        minutes_lit=first.minutes_lit,
        clean_air_min=first.clean_air_min,
        now=now,
    )
