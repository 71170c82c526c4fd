"""Checks and the end of a burn: nothing is copied, damage has its consequences."""

from datetime import timedelta
from typing import Any
from uuid import uuid4

import pytest

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Correction
from throwbench.workshop.shelf.models import Piece
from throwbench.workshop.trials.asking import QuestionsError
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.selectors import burns_of, lit_now
from throwbench.workshop.trials.services import burn as burning

By = dict[str, Any]
HOUR = timedelta(hours=1)


@pytest.fixture
def burn(cured, owner, now) -> Burn:
    return burning.light(
        cured, kind="wick", lit_at=now, mass_before_mg=490_000, room_c=21, who=owner, now=now
    )


def look(burn: Burn, who, *, h: float = 1, **seen: Any) -> Check:
    at = burn.lit_at + h * HOUR
    return burning.check(burn, at=at, who=who, now=at, **seen)


def out(burn: Burn, who, *, h: float = 4, **seen: Any) -> Burn:
    at = burn.lit_at + h * HOUR
    return burning.put_out(burn, at=at, who=who, now=at, **seen)


def test_seen_no_change_copies_no_figure(burn, owner) -> None:
    look(burn, owner, pool_width_mm=48, flame_mm=18, soot="none")
    second = look(burn, owner, h=2, no_change=True)
    kept = {field.name: getattr(second, field.name) for field in Check._meta.fields}
    empty = {name: value for name, value in kept.items() if value not in (None, "")}
    assert set(empty) == {"id", "burn", "at", "noted_at", "who", "no_change"}


def test_a_check_says_something(burn, owner) -> None:
    with pytest.raises(UnclearError, match=r"Nothing is noted of K7F\. .*on “Not seen”"):
        look(burn, owner, pool_width_mm=None, soot="")


def test_a_check_of_an_unknown_sight_is_a_mistake_of_the_program(burn, owner) -> None:
    with pytest.raises(TypeError, match="no such fields: smell"):
        look(burn, owner, smell="strong")


def test_a_pool_is_no_wider_than_its_cup(burn, owner) -> None:
    with pytest.raises(UnclearError) as error:
        look(burn, owner, pool_width_mm=86)
    assert str(error.value) == (
        "Melt pool is 86 mm; this cup is 68 mm inside. Measure again, or check the code on the cup."
    )
    assert look(burn, owner, pool_width_mm=68).pool_width_mm == 68


def test_where_the_vessel_is_not_known_the_pool_is_believed(burn, owner, cup) -> None:
    cup.inside_mm = None
    cup.save()
    assert look(burn, owner, pool_width_mm=86).pool_width_mm == 86


def test_a_vessel_with_another_name_is_called_a_vessel(burn, owner, cup) -> None:
    cup.name = "Low round 200"
    cup.save()
    with pytest.raises(UnclearError, match="this vessel is 68 mm inside"):
        look(burn, owner, pool_width_mm=86)


def test_an_unusual_flame_is_asked_about_and_stored_only_when_confirmed(burn, owner) -> None:
    with pytest.raises(QuestionsError) as error:
        look(burn, owner, flame_mm=80)
    assert str(error.value) == (
        "80 mm is over 75 mm (house limit). If that is what you see: put K7F out now, lid on, "
        "and do not light it again."
    )
    assert error.value.questions[0].guess_words == "8 mm"
    assert error.value.questions[0].puts_out
    assert not burn.checks.exists()
    assert look(burn, owner, flame_mm=80, sure=True).flame_mm == 80


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        ({"pool_width_mm": 50, "pool_full": True}, "50 mm and full; the vessel is 68 mm"),
        ({"pool_width_mm": 40}, "Melt pool is 40 mm; at the check before it was 60 mm"),
        ({"vessel_c": 15}, "Outside of the vessel is 15 °C; the room had 21 °C"),
        ({"vessel_c": 185}, r"Was it read in °F\? That is 85 °C"),
        ({"pool_depth_mm": 90}, "Did you mean 9 mm"),
    ],
)
def test_what_does_not_fit_is_asked_about(burn, owner, seen, words) -> None:
    look(burn, owner, pool_width_mm=60)
    with pytest.raises(QuestionsError, match=words):
        look(burn, owner, h=2, **seen)
    look(burn, owner, h=2, sure=True, **seen)


@pytest.mark.parametrize(("h", "words"), [(0, "lit at 11:05"), (5, "was out at 15:05")])
def test_a_check_lies_within_its_burn(burn, owner, h, words) -> None:
    out(burn, owner)
    with pytest.raises(UnclearError, match=words):
        look(burn, owner, h=h, no_change=True)


def test_pressed_twice_a_check_is_noted_once(burn, owner) -> None:
    entry = uuid4()
    first = look(burn, owner, no_change=True, entry=entry)
    assert look(burn, owner, h=1.1, no_change=True, entry=entry) == first
    assert burn.checks.count() == 1


def test_a_burn_left_on_is_kept_as_it_was_and_marked(burn, owner, trial) -> None:
    burn = out(burn, owner, h=4 + 50 / 60)
    assert burn.over_by == timedelta(minutes=50)
    record = burns_of(trial)[0]
    assert (record.out_at - record.lit_at) == timedelta(hours=4, minutes=50)


def test_what_the_rule_lets_pass_is_not_marked(burn, owner) -> None:
    assert out(burn, owner, h=4.25).over_by is None


def test_a_lit_burn_is_not_over(burn) -> None:
    assert burn.over_by is None
    assert burn.lasted is None


def test_a_candle_is_put_out_once(burn, owner) -> None:
    out(burn, owner)
    with pytest.raises(UnclearError, match="K7F was put out at 15:05 already"):
        out(burn, owner, h=4.5)


@pytest.mark.parametrize("h", [0, 1.9])
def test_a_candle_is_put_out_after_it_was_seen_lit(burn, owner, h) -> None:
    look(burn, owner, h=2, no_change=True)
    with pytest.raises(UnclearError, match="was still lit at 13:05"):
        out(burn, owner, h=h)


def test_pressed_twice_a_candle_is_put_out_once(burn, owner) -> None:
    entry = uuid4()
    first = out(burn, owner, entry=entry)
    assert out(burn, owner, h=4.1, entry=entry).out_at == first.out_at


def test_a_candle_gets_no_heavier_by_burning(burn, owner) -> None:
    with pytest.raises(UnclearError, match="Mass after is 500 g; before the burn it was 490 g"):
        out(burn, owner, mass_after_mg=500_000)
    assert lit_now(burn.lit_at)


def test_an_unusual_rate_is_asked_about(burn, owner) -> None:
    with pytest.raises(QuestionsError, match=r"Mass after is 390 g; that is 25 g/h"):
        out(burn, owner, mass_after_mg=390_000)
    assert out(burn, owner, mass_after_mg=470_000).mass_after_mg == 470_000


def test_a_wick_that_moved_ends_its_candle(burn, owner) -> None:
    burn = out(burn, owner, wick_moved=True)
    burn.candle.refresh_from_db()
    assert burn.candle.ended_because == "the wick floated"
    assert burn.candle.ended_at == burn.out_at


def test_a_wick_that_stood_does_not(burn, owner) -> None:
    burn = out(burn, owner, wick_moved=False, vessel_damage="none")
    burn.candle.refresh_from_db()
    assert burn.candle.ended_at is None


def test_damage_ends_the_candle_and_bars_its_vessel(burn, owner) -> None:
    candle = burn.candle
    candle.piece = Piece.objects.create(
        vessel=candle.combination.vessel, name="Cup 3", flaw="cosmetic"
    )
    candle.save()
    out(burn, owner, vessel_damage="crack")
    candle.refresh_from_db()
    assert candle.ended_because == "crack in the vessel"
    assert candle.piece.flaw == "structural"
    assert candle.piece.flaw_note == "crack in the vessel, seen after burn 1 of K7F"


def test_damage_of_a_vessel_without_a_name_ends_the_candle(burn, owner) -> None:
    out(burn, owner, vessel_damage="yes")
    burn.candle.refresh_from_db()
    assert burn.candle.ended_because == "the vessel is damaged"


def test_what_is_weighed_cold_is_noted_afterwards(burn, owner) -> None:
    burn = out(burn, owner, relit=False)
    by = {"who": owner, "now": burn.out_at + 3 * HOUR}
    burn = burning.note_after(burn, mass_after_mg=470_000, wet_spots=True, **by)
    assert (burn.mass_after_mg, burn.wet_spots, burn.relit) == (470_000, True, False)


def test_what_was_noted_is_not_changed_by_noting_again(burn, owner) -> None:
    burn = out(burn, owner, relit=False)
    by = {"who": owner, "now": burn.out_at + 3 * HOUR}
    with pytest.raises(UnclearError, match=r"Relit of K7F, burn 1 was noted already"):
        burning.note_after(burn, relit=True, **by)


def test_nothing_is_noted_afterwards_of_a_lit_candle(burn, owner, now) -> None:
    with pytest.raises(UnclearError, match="K7F is still lit"):
        burning.note_after(burn, wax_left_mm=30, who=owner, now=now)


def test_a_wick_seen_to_have_moved_afterwards_ends_the_candle(burn, owner) -> None:
    burn = out(burn, owner)
    burning.note_after(burn, wick_moved=True, who=owner, now=burn.out_at + HOUR)
    burn.candle.refresh_from_db()
    assert burn.candle.ended_because == "the wick floated"


def test_going_out_everything_is_out_and_nothing_else_is_known(burn, owner) -> None:
    at = burn.lit_at + 2 * HOUR
    entry = uuid4()
    for _ in range(2):
        burning.all_out([burn], at=at, who=owner, now=at, entry=entry)
    burn.refresh_from_db()
    assert burn.out_at == at
    assert (burn.put_out, burn.relit, burn.wick_moved) == ("snuffed", None, None)


def test_a_lit_candle_is_handed_to_an_adult(burn, owner, assessor) -> None:
    entry = uuid4()
    for _ in range(2):
        burning.hand_over([burn], adult=assessor, who=owner, now=burn.lit_at, entry=entry)
    assert lit_now(burn.lit_at)[0].burn.handed_to == assessor


def test_a_typed_slip_is_put_right_and_stays_visible(burn, owner, trial) -> None:
    check = look(burn, owner, flame_mm=80, sure=True)
    burning.put_check_right(
        check, field="flame_mm", value=18, why="typed 80 for 18", who=owner, now=check.at
    )
    burn = out(burn, owner)
    record = burns_of(trial)[0]
    assert record.checks[0].flame_mm == 18
    assert record.note == "flame first typed as 80 mm, it was 18 mm: put right"
    assert Correction.objects.get().why == "typed 80 for 18"


def test_a_weight_put_right_is_told_in_grams_to_the_last_digit(burn, owner, trial) -> None:
    burn = out(burn, owner, mass_after_mg=469_000)
    burning.put_burn_right(
        burn, field="mass_after_mg", value=468_125, why="slip", who=owner, now=burn.out_at
    )
    said = "mass after first typed as 469 g, it was 468.125 g: put right"
    assert burns_of(trial)[0].note == said


def test_a_mass_before_is_not_put_right_to_less_than_the_mass_after(burn, owner) -> None:
    burn = out(burn, owner, mass_after_mg=469_000)
    with pytest.raises(UnclearError, match="Mass after is 469 g; before the burn it was 400 g"):
        burning.put_burn_right(
            burn, field="mass_before_mg", value=400_000, why="slip", who=owner, now=burn.out_at
        )


def test_a_note_that_tells_the_slip_is_left_alone(burn, owner, trial) -> None:
    check = look(burn, owner, flame_mm=80, sure=True)
    burning.put_check_right(check, field="flame_mm", value=18, why="slip", who=owner, now=check.at)
    said = "flame first typed as 80 mm, it was 18 mm: put right"
    out(burn, owner, note=said)
    assert burns_of(trial)[0].note == said


def test_a_slip_needs_its_reason(burn, owner) -> None:
    check = look(burn, owner, flame_mm=8)
    with pytest.raises(UnclearError, match="There is no reason"):
        burning.put_check_right(check, field="flame_mm", value=18, why=" ", who=owner, now=check.at)


def test_what_a_slip_is_put_right_to_is_asked_about_too(burn, owner) -> None:
    check = look(burn, owner, flame_mm=8)
    told = {"field": "flame_mm", "why": "slip", "who": owner, "now": check.at}
    with pytest.raises(QuestionsError):
        burning.put_check_right(check, value=80, **told)
    assert burning.put_check_right(check, value=80, sure=True, **told).became == "80"


def test_only_what_was_seen_can_be_put_right(burn, owner) -> None:
    with pytest.raises(UnclearError, match="“out_at” cannot be put right"):
        burning.put_burn_right(
            burn, field="out_at", value=None, why="slip", who=owner, now=burn.lit_at
        )


def test_what_was_not_looked_at_is_taken_back(burn, owner, trial) -> None:
    check = look(burn, owner, soot="heavy", flame_mm=18)
    entry = uuid4()
    for _ in range(2):
        burning.put_check_right(
            check, field="soot", value=None, why="another candle", who=owner, now=check.at,
            entry=entry,
        )  # fmt: skip
    check.refresh_from_db()
    assert check.soot == ""
    out(burn, owner)
    assert burns_of(trial)[0].note == "soot first typed as heavy, it was nothing: put right"


def test_a_wick_that_did_not_move_after_all_opens_the_candle_again(burn, owner) -> None:
    burn = out(burn, owner, wick_moved=True)
    burning.put_burn_right(
        burn, field="wick_moved", value=False, why="it was M9C", who=owner, now=burn.out_at
    )
    burn.candle.refresh_from_db()
    assert burn.candle.ended_at is None


def test_a_candle_ended_for_another_reason_stays_ended(burn, owner) -> None:
    burn = out(burn, owner, relit=True)
    candle = burn.candle
    candle.ended_at, candle.ended_because = burn.out_at, "given away"
    candle.save()
    burning.put_burn_right(burn, field="relit", value=False, why="slip", who=owner, now=burn.out_at)
    candle.refresh_from_db()
    assert candle.ended_because == "given away"


def test_the_next_check_is_due_an_hour_after_the_last(burn, owner) -> None:
    look(burn, owner, no_change=True)
    lit = lit_now(burn.lit_at + 1.5 * HOUR)[0]
    assert lit.check_due_at == burn.lit_at + 2 * HOUR
    assert not lit.check_is_due
    assert lit_now(burn.lit_at + 4 * HOUR)[0].is_late


def test_pressed_twice_what_is_noted_cold_is_noted_once(burn, owner) -> None:
    burn = out(burn, owner)
    by = {"who": owner, "now": burn.out_at + HOUR, "entry": uuid4()}
    for _ in range(2):
        assert burning.note_after(burn, wax_left_mm=40, **by).wax_left_mm == 40


def test_pressed_twice_a_slip_of_a_burn_is_put_right_once(burn, owner, trial) -> None:
    burn = out(burn, owner, relit=True)
    told = {"field": "relit", "value": False, "why": "slip", "who": owner, "now": burn.out_at}
    entry = uuid4()
    for _ in range(2):
        burning.put_burn_right(burn, entry=entry, **told)
    assert Correction.objects.count() == 1
    assert burns_of(trial)[0].note == "relit first typed as yes, it was no: put right"


def test_a_trim_is_put_right_to_what_is_usual(burn, owner) -> None:
    told = {"field": "trim_mm", "why": "slip", "who": owner, "now": burn.lit_at}
    with pytest.raises(QuestionsError, match="Did you mean 5 mm"):
        burning.put_burn_right(burn, value=50, **told)
    assert burning.put_burn_right(burn, value=5, **told).became == "5"


def test_a_check_says_which_it_is(burn, owner) -> None:
    assert str(look(burn, owner, no_change=True)) == "K7F, burn 1, check of 10:05"
