"""Burns as records: those of the example, entered by presses, come out as they were generated."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from throwbench.demo.trial import generate
from throwbench.formats.burns import read_burns
from throwbench.formats.writing import write_csv
from throwbench.records import Burn
from throwbench.workshop.trials.asking import QuestionsError
from throwbench.workshop.trials.models import TestCandle
from throwbench.workshop.trials.selectors import burns_of
from throwbench.workshop.trials.services import burn as burning

OSLO = ZoneInfo("Europe/Oslo")
HOUR = timedelta(hours=1)
SOME = ("K7F", "S4M", "D5Q")
ENDS = ("wax_left_mm", "afterglow_s", "relit", "wick_moved", "vessel_damage", "frosting",
        "wet_spots", "note")  # fmt: skip
LOOKS = ("no_change", "pool_width_mm", "pool_full", "pool_depth_mm", "flame", "flame_mm",
         "flare_up", "vessel_c", "soot", "mushroom")  # fmt: skip


def mg(grams: float | None) -> int | None:
    return None if grams is None else round(grams * 1000)


def enter(candle: TestCandle, burn, who) -> None:
    """One burn of the example, as it is pressed in."""
    lit_at, out_at = burn.lit_at.replace(tzinfo=OSLO), burn.out_at.replace(tzinfo=OSLO)
    lit = burning.light(
        candle, kind=burn.kind, lit_at=lit_at, room_c=burn.room_c, trim_mm=burn.trim_mm,
        mass_before_mg=mg(burn.mass_before_g), scale_step_mg=mg(burn.scale_step_g), sure=True,
        who=who, now=lit_at,
    )  # fmt: skip
    for check in burn.checks:
        at = lit_at + check.check_h * HOUR
        seen = {name: getattr(check, name) for name in LOOKS}
        burning.check(lit, at=at, sure=True, who=who, now=at, **seen)
    told = {name: getattr(burn, name) for name in ENDS}
    burning.put_out(
        lit, at=out_at, put_out=burn.put_out, mass_after_mg=mg(burn.mass_after_g), sure=True,
        who=who, now=out_at, **told,
    )  # fmt: skip


@pytest.fixture
def example(candle, owner):
    """Wick burns: a typed slip, a wick that floated, a burn left on. Rooms are no record."""
    burns = [burn for burn in generate().burns if burn.kind == "wick" and burn.candle in SOME]
    codes = list(dict.fromkeys(burn.candle for burn in burns))
    for code in codes:
        candle.pk = None if code != codes[0] else candle.pk
        candle.code, candle.poured_on = code, datetime(2027, 4, 1, tzinfo=UTC).date()
        candle.save()
    for burn in burns:
        enter(TestCandle.objects.get(code=burn.candle), burn, owner)
    return burns


def test_the_example_comes_out_as_it_was_generated(example, trial) -> None:
    got = burns_of(trial)
    assert len(got) == len(example)
    counts: dict[str, int] = {}
    for burn, was in zip(got, example, strict=True):
        counts[was.candle] = counts.get(was.candle, 0) + 1
        assert burn.burn == counts[was.candle]
        assert {name: getattr(burn, name) for name in FIELDS} == {
            name: getattr(was, name) for name in FIELDS
        }


FIELDS = ("candle", "kind", "lit_at", "out_at", "put_out", "room_c", "trim_mm", "mass_before_g",
          "mass_after_g", "scale_step_g", *ENDS, "checks")  # fmt: skip


def test_a_candle_that_is_still_lit_is_left_out(cured, trial, owner, now) -> None:
    burning.light(cured, kind="wick", lit_at=now, who=owner, now=now)
    assert burns_of(trial) == ()


def test_times_are_local_and_hours_are_elapsed(cured, trial, owner, now) -> None:
    burn = burning.light(cured, kind="wick", lit_at=now, who=owner, now=now)
    seen_at = now + timedelta(minutes=50)
    burning.check(burn, at=seen_at, no_change=True, who=owner, now=seen_at)
    burning.put_out(burn, at=now + 2 * HOUR, who=owner, now=now + 2 * HOUR)
    record = burns_of(trial)[0]
    assert record.lit_at == datetime(2027, 5, 24, 11, 5)
    assert record.checks[0].check_h == 0.83


def test_over_a_change_of_clocks_every_time_carries_its_offset(cured, trial, owner) -> None:
    """At 3:00 on 31 October 2027 the clocks go back: 1:30 to 4:30 are four hours."""
    lit_at = datetime(2027, 10, 30, 23, 30, tzinfo=UTC)
    first = datetime(2027, 10, 20, 8, tzinfo=UTC)
    for start, hours in ((first, 4), (lit_at, 4)):
        burn = burning.light(cured, kind="wick", lit_at=start, who=owner, now=start)
        end = start + hours * HOUR
        burning.put_out(burn, at=end, who=owner, now=end)
    day, night = burns_of(trial)
    assert night.lit_at.isoformat() == "2027-10-31T01:30:00+02:00"
    assert night.out_at.isoformat() == "2027-10-31T04:30:00+01:00"
    assert night.out_at - night.lit_at == 4 * HOUR
    assert day.lit_at.isoformat() == "2027-10-20T10:00:00+02:00"


def test_a_file_of_them_reads_back_the_same(example, trial, tmp_path) -> None:
    got = burns_of(trial)
    file = tmp_path / "burns.csv"
    file.write_text(write_csv(got, Burn))
    read = read_burns(file)
    assert [plain(burn) for burn in read.rows] == list(got)


def plain(burn: Burn) -> Burn:
    """Without the line at which it stands."""
    return replace(burn, line=0, checks=tuple(replace(one, line=0) for one in burn.checks))


def test_what_was_confirmed_when_asked_is_used_from_the_file_too(
    cured, owner, trial, now, tmp_path
):
    burn = burning.light(cured, kind="wick", lit_at=now, room_c=41, sure=True, who=owner, now=now)
    for h, vessel_c in ((1, 18), (2, 185)):
        at = now + h * HOUR
        burning.check(burn, at=at, vessel_c=vessel_c, sure=True, who=owner, now=at)
    out_at = now + 3 * HOUR
    burning.put_out(burn, at=out_at, who=owner, now=out_at)
    file = tmp_path / "burns.csv"
    file.write_text(write_csv(burns_of(trial), Burn))
    read = read_burns(file)
    assert (read.rows[0].room_c, *(check.vessel_c for check in read.rows[0].checks)) == (
        41, 18, 185,
    )  # fmt: skip
    assert {problem.outcome for problem in read.problems} == {"asked"}
    assert not read.unread


def test_a_room_warmer_than_a_vessel_in_it_is_asked_about_when_put_right(cured, owner, now):
    burn = burning.light(cured, kind="wick", lit_at=now, room_c=21, who=owner, now=now)
    at = now + HOUR
    burning.check(burn, at=at, vessel_c=24, who=owner, now=at)
    told = {"field": "room_c", "value": 26, "why": "slip", "who": owner, "now": at}
    with pytest.raises(QuestionsError, match="Outside of the vessel is 24 °C; the room had 26 °C"):
        burning.put_burn_right(burn, **told)
    assert burning.put_burn_right(burn, sure=True, **told).became == "26"
