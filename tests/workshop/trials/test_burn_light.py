"""Lighting: what is never lit, what is asked about, and when a candle has to be out."""

from datetime import UTC, date, datetime, timedelta
from typing import Any
from uuid import uuid4

import pytest

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import EntryConflictError
from throwbench.workshop.house.models import Person, Room, Workshop
from throwbench.workshop.house.services import set_house_limit
from throwbench.workshop.shelf.models import Piece
from throwbench.workshop.trials.asking import Question, QuestionsError
from throwbench.workshop.trials.models import Burn, TestCandle
from throwbench.workshop.trials.selectors import lit_now
from throwbench.workshop.trials.services import burn as burning
from throwbench.workshop.trials.services.together import light_together

By = dict[str, Any]
HOUR = timedelta(hours=1)
QUESTION = Question("", "")


@pytest.fixture
def loft(workshop: Workshop) -> Room:
    return Room.objects.create(name="loft", kind="large room", airing_h=4)


def light(candle: TestCandle, now: datetime, who: Person, **told: Any) -> Burn:
    return burning.light(candle, **{"kind": "wick", "lit_at": now, "who": who, "now": now, **told})


def asked(error: pytest.ExceptionInfo[QuestionsError]) -> str:
    return str(error.value)


def test_a_burn_has_to_be_out_after_the_house_limit(cured, owner, now, workshop) -> None:
    set_house_limit(rule="burn-length", value=3.5, who=owner, now=now)
    burn = light(cured, now, owner, room_c=20.5, trim_mm=5, mass_before_mg=490_000)
    assert burn.number == 1
    assert burn.out_by_at == now + timedelta(hours=3.5)
    assert [one.code for one in lit_now(now)] == ["K7F"]


def test_a_burn_is_no_longer_than_the_makers_own_limit(cured, owner, now) -> None:
    set_house_limit(rule="burn-length", value=2.0, who=owner, now=now)
    with pytest.raises(UnclearError, match=r"A wick burn ends after 2 h \(house limit\)"):
        light(cured, now, owner, limit_h=3)


def test_a_burn_is_noted_by_the_minute(cured, owner, now) -> None:
    burn = light(cured, now + timedelta(seconds=40), owner)
    assert burn.lit_at == now


def test_a_wick_burn_is_no_longer_than_the_house_allows(cured, owner, now) -> None:
    with pytest.raises(UnclearError, match=r"A burn of 6 h is longer .* a watched long burn"):
        light(cured, now, owner, limit_h=6)
    assert light(cured, now, owner, kind="long", limit_h=6).out_by_at == now + 6 * HOUR


def test_a_burn_may_be_shorter(cured, owner, now) -> None:
    assert light(cured, now, owner, limit_h=2).out_by_at == now + 2 * HOUR


def test_a_candle_that_is_not_poured_is_not_lit(candle, owner, now) -> None:
    with pytest.raises(UnclearError, match="K7F is not poured yet"):
        light(candle, now, owner, sure=True)


def test_a_candle_is_not_lit_before_it_was_poured(cured, owner, now) -> None:
    with pytest.raises(UnclearError, match="K7F was poured on 27 April"):
        light(cured, datetime(2027, 4, 20, 9, tzinfo=UTC), owner, sure=True)


def test_a_candle_that_was_ended_is_not_lit(cured, owner, now) -> None:
    cured.ended_at, cured.ended_because = now, "the wick floated"
    cured.save()
    with pytest.raises(UnclearError, match=r"K7F was ended: the wick floated\. .*not lit again"):
        light(cured, now, owner, sure=True)


def test_a_structural_flaw_bars_the_vessel(cured, owner, now) -> None:
    cured.piece = Piece.objects.create(
        vessel=cured.combination.vessel, name="Cup 7", flaw="structural", flaw_note="chip"
    )
    cured.save()
    with pytest.raises(UnclearError, match=r"Cup 7 has a structural flaw: chip\. .*never lit"):
        light(cured, now, owner, sure=True)


def test_a_cosmetic_flaw_is_lit(cured, owner, now) -> None:
    vessel = cured.combination.vessel
    cured.piece = Piece.objects.create(vessel=vessel, name="Cup 3", flaw="cosmetic")
    cured.save()
    assert light(cured, now, owner).number == 1


def test_what_is_lit_is_not_lit_again(cured, owner, now) -> None:
    light(cured, now, owner)
    with pytest.raises(UnclearError, match=r"K7F is lit, since 11:05\..*Put it out"):
        light(cured, now + HOUR, owner, sure=True)


def test_a_candle_is_not_lit_before_its_last_burn_was_out(cured, owner, now) -> None:
    burning.put_out(light(cured, now, owner), at=now + 4 * HOUR, who=owner, now=now + 4 * HOUR)
    with pytest.raises(UnclearError, match=r"K7F was out at 15:05 after burn 1; 13:05 is before"):
        light(cured, now + 2 * HOUR, owner, sure=True)


def test_a_candle_still_curing_is_asked_about_and_not_refused(cured, owner, now) -> None:
    day_5 = datetime(2027, 5, 2, 16, tzinfo=UTC)
    with pytest.raises(QuestionsError) as error:
        light(cured, day_5, owner)
    assert asked(error).startswith("K7F is on day 5 of its cure; the wax card says 10.")
    assert "Wait until 7 May" in asked(error)
    assert not Burn.objects.exists()
    assert light(cured, day_5, owner, sure=True).number == 1


def test_a_candle_on_its_last_day_of_cure_is_lit(cured, owner) -> None:
    assert light(cured, datetime(2027, 5, 7, 9, tzinfo=UTC), owner).number == 1


def test_a_candle_that_has_not_cooled_is_asked_about(cured, owner, now) -> None:
    burning.put_out(light(cured, now, owner), at=now + HOUR, who=owner, now=now + HOUR)
    with pytest.raises(QuestionsError, match=r"put out 1 h before; usual is 3 h to cool"):
        light(cured, now + 2 * HOUR, owner)
    assert light(cured, now + 4 * HOUR, owner).number == 2


@pytest.mark.parametrize(
    ("away", "words"), [(HOUR, "has not come yet"), (timedelta(hours=-50), "is long past")]
)
def test_a_time_far_off_is_asked_about(cured, owner, now, away, words) -> None:
    with pytest.raises(QuestionsError, match=words):
        light(cured, now, owner, lit_at=now + away)
    assert light(cured, now, owner, lit_at=now + away, sure=True).number == 1


def test_a_mass_unlike_that_of_the_last_burn_is_asked_about(cured, owner, now) -> None:
    first = light(cured, now, owner, mass_before_mg=490_000)
    out_at = now + 4 * HOUR
    burning.put_out(first, at=out_at, mass_after_mg=470_000, who=owner, now=out_at)
    with pytest.raises(QuestionsError, match=r"Mass before is 430 g; after burn 1 it was 470 g"):
        light(cured, now + 9 * HOUR, owner, mass_before_mg=430_000)
    assert light(cured, now + 9 * HOUR, owner, mass_before_mg=469_000).number == 2


def test_a_candle_down_to_the_end_line_is_asked_about(cured, owner, now) -> None:
    out_at = now + 4 * HOUR
    burning.put_out(light(cured, now, owner), at=out_at, wax_left_mm=11, who=owner, now=out_at)
    with pytest.raises(QuestionsError, match=r"11 mm of wax left, measured; the end line is 12"):
        light(cured, now + 9 * HOUR, owner)


def test_a_candle_that_broke_a_limit_is_not_lit_by_whoever_is_sure(cured, owner, now) -> None:
    burn = light(cured, now, owner)
    burning.check(burn, at=now + HOUR, flame="over", who=owner, now=now + HOUR)
    burning.put_out(burn, at=now + HOUR, who=owner, now=now + HOUR)
    words = (
        r"K7F broke a limit: flame height, over the mark \(K7F, burn 1 at 1 h\)\. .*not lit again"
    )
    with pytest.raises(UnclearError, match=words):
        light(cured, now + 9 * HOUR, owner, sure=True)


def test_a_limit_that_several_burns_decide_is_final_at_the_end(cured, owner, now) -> None:
    for number in range(2):
        at = now + number * 24 * HOUR
        burn = light(cured, at, owner)
        burning.check(burn, at=at + HOUR, soot="heavy", who=owner, now=at + HOUR)
        burning.put_out(burn, at=at + 2 * HOUR, who=owner, now=at + 2 * HOUR)
    later = now + 48 * HOUR
    with pytest.raises(QuestionsError, match="K7F broke a limit so far: soot, heavy in 1 of 1"):
        light(cured, later, owner)
    last = light(cured, later, owner, sure=True)
    out_at = later + 2 * HOUR
    burning.put_out(last, at=out_at, wax_left_mm=10, who=owner, now=out_at)
    burning.check(last, at=later + HOUR, soot="heavy", who=owner, now=out_at)
    with pytest.raises(UnclearError, match="K7F broke a limit: soot, heavy in 2 of 2"):
        light(cured, later + 24 * HOUR, owner, sure=True)


def test_a_candle_that_went_out_by_itself_is_asked_about(cured, owner, now) -> None:
    burn = light(cured, now, owner)
    burning.put_out(burn, at=now + HOUR, put_out="went out", who=owner, now=now + HOUR)
    with pytest.raises(QuestionsError, match="K7F went out by itself in burn 1"):
        light(cured, now + 9 * HOUR, owner)


@pytest.mark.parametrize(
    ("figure", "words", "guess"),
    [
        ({"room_c": 70.0}, r"possible is -5 to 60 °C\. Was it read in °F", 21.1),
        ({"trim_mm": 55.0}, "possible is 0 to 50 mm", 5.5),
        ({"trim_mm": 900.0}, r"900 mm; possible is 0 to 50 mm\. .*Check the figure", None),
        ({"room_c": 12.0}, "usual is 15 to 30", None),
        ({"trim_mm": 50.0}, "Did you mean 5 mm", 5),
        ({"trim_mm": 12.0}, "Measure again", None),
    ],
)
def test_an_unusual_figure_is_asked_about_with_its_guess(
    *, cured, owner, now, figure, words, guess
) -> None:
    with pytest.raises((QuestionsError, UnclearError), match=words) as error:
        light(cured, now, owner, **figure)
    assert getattr(error.value, "questions", [QUESTION])[0].guess == guess


def test_what_is_not_possible_is_not_noted_by_whoever_is_sure(cured, owner, now) -> None:
    with pytest.raises(QuestionsError, match="possible is -5 to 60"):
        light(cured, now, owner, room_c=70.0, sure=True)


def test_a_nose_burn_is_one_candle_in_one_room(cured, other_cured, owner, now, loft) -> None:
    light(cured, now, owner, room=loft)
    with pytest.raises(UnclearError, match=r"K7F is lit in the loft, as a wick burn\."):
        light(other_cured, now, owner, kind="nose", room=loft, sure=True)


def test_nothing_is_lit_beside_a_nose_burn(
    *, cured, other_cured, owner, now, loft, kitchen
) -> None:
    light(cured, now, owner, kind="nose", room=loft)
    with pytest.raises(UnclearError, match="one candle in one room"):
        light(other_cured, now, owner, room=loft, sure=True)
    assert light(other_cured, now, owner, kind="nose", room=kitchen).number == 1


def test_a_nose_burn_names_its_room(cured, owner, now) -> None:
    with pytest.raises(UnclearError, match="No room is named"):
        light(cured, now, owner, kind="nose")


def test_wick_burns_share_a_room(cured, other_cured, owner, now, loft) -> None:
    light(cured, now, owner, room=loft)
    assert light(other_cured, now, owner, room=loft).number == 1


def test_a_room_that_has_not_aired_is_asked_about(cured, other_cured, owner, now, loft) -> None:
    burn = light(cured, now, owner, room=loft)
    burning.put_out(burn, at=now + HOUR, who=owner, now=now + HOUR)
    nose = {"kind": "nose", "room": loft}
    with pytest.raises(QuestionsError, match=r"K7F burned in the loft until 12:05; .*until 16:05"):
        light(other_cured, now + 2 * HOUR, owner, **nose)
    assert light(other_cured, now + 5 * HOUR, owner, **nose).number == 1


def test_pressed_twice_a_candle_is_lit_once(cured, owner, now) -> None:
    entry = uuid4()
    first = light(cured, now, owner, entry=entry)
    assert light(cured, now + timedelta(minutes=1), owner, lit_at=now, entry=entry) == first
    with pytest.raises(EntryConflictError):
        light(cured, now, owner, kind="long", entry=entry)


def test_candles_are_lit_together_or_not_at_all(cured, other_cured, owner, now) -> None:
    young = date(2027, 5, 20)
    other_cured.poured_on = young
    other_cured.save()
    both = {cured: {"mass_before_mg": 490_000}, other_cured: {}}
    told = {"kind": "wick", "lit_at": now, "who": owner, "now": now}
    with pytest.raises(QuestionsError, match="M9C is on day 4 of its cure"):
        light_together(both, **told)
    assert not Burn.objects.exists()
    assert len(light_together(both, sure=True, **told)) == 2


def test_nothing_is_lit_without_a_candle(owner, now) -> None:
    with pytest.raises(UnclearError, match="No candle is named"):
        light_together({}, kind="wick", lit_at=now, who=owner, now=now)


def test_a_room_in_which_nothing_burned_needs_no_airing(cured, owner, now, loft) -> None:
    assert light(cured, now, owner, kind="nose", room=loft).room == loft


def test_pressed_twice_candles_are_lit_together_once(cured, other_cured, owner, now) -> None:
    told = {"kind": "wick", "lit_at": now, "who": owner, "now": now, "entry": uuid4()}
    for _ in range(2):
        assert len(light_together({cured: {}, other_cured: {}}, **told)) == 2
    assert Burn.objects.count() == 2


@pytest.mark.parametrize(
    ("own", "alike"), [({}, {"trim_mm": 4}), ({}, {"limit_h": 2}), ({"mass_before_mg": 1}, {})]
)
def test_sent_again_with_another_answer_is_said(cured, owner, now, own, alike) -> None:
    told = {"kind": "wick", "lit_at": now, "who": owner, "now": now, "entry": uuid4()}
    light_together({cured: {}}, **told)
    with pytest.raises(EntryConflictError, match="The first ones are kept"):
        light_together({cured: own}, **told, **alike)


@pytest.mark.parametrize("number", ["9" * 5000, "²", "-1", "x"])
def test_a_trial_that_is_no_number_is_every_trial(maker, number) -> None:
    assert maker.get("/light/", {"trial": number}).status_code == 200


@pytest.mark.parametrize("day", ["0001-01-01", "0027-05-24"])
def test_a_day_of_antiquity_is_a_slip_of_the_year(maker, cured, day) -> None:
    sent = {"kind": "wick", "lit_at_0": day, "lit_at_1": "00:00"}
    page = maker.post(f"/light/?candle={cured.code}", sent)
    assert "That is too long ago. Check the day." in page.content.decode()
    assert not Burn.objects.exists()


def test_a_candle_out_for_a_minute_is_said_to_be(cured, owner, now) -> None:
    out_at = now + timedelta(minutes=2)
    burning.put_out(light(cured, now, owner), at=out_at, who=owner, now=out_at)
    with pytest.raises(QuestionsError, match=r"K7F was put out 1 min before; usual is 3 h to cool"):
        light(cured, out_at + timedelta(minutes=1), owner)


@pytest.mark.parametrize(("named", "where"), [(True, "the loft"), (False, "one room")])
def test_several_candles_are_no_nose_burn(
    *, cured, other_cured, owner, now, loft, named, where
) -> None:
    both = {cured: {}, other_cured: {}}
    told = {"kind": "nose", "lit_at": now, "who": owner, "now": now}
    words = f"K7F and M9C are chosen for {where}. Nothing is noted. A nose burn is one candle in"
    with pytest.raises(UnclearError, match=words):
        light_together(both, room=loft if named else None, **told)
    assert not Burn.objects.exists()
    assert len(light_together({cured: {}}, room=loft, **told)) == 1
