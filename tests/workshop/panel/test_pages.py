"""The maker's pages of a panel: one sentence each, codes while sealed, scores when all is over."""

import re
from datetime import timedelta

import pytest

from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Panel, Sitting, Sniff
from throwbench.workshop.trials.models import Burn, TestCandle, Trial
from throwbench.workshop.trials.services import burn as burning
from workshop.panel.conftest import OILS, WHOLE


@pytest.fixture
def panels(trial) -> str:
    return f"/trials/{trial.pk}/panels/"


@pytest.fixture
def here(panel, panels) -> str:
    return f"{panels}{panel.pk}/"


@pytest.mark.parametrize("page", ["", "new/", "new/?from=blotter", "{pk}/", "{pk}/slips/"])
def test_each_page_opens_with_one_sentence(maker, panel, panels, page):
    answer = maker.get(panels + page.format(pk=panel.pk))
    assert answer.status_code == 200
    assert answer.text.count("<h1") == 1
    assert "style=" not in answer.text


@pytest.mark.parametrize("page", ["", "new/", "{pk}/", "{pk}/slips/", "{pk}/slips.pdf"])
def test_no_page_is_open_to_an_assessor(nose, panel, panels, page):
    assert nose.get(panels + page.format(pk=panel.pk)).status_code == 403


def test_a_panel_is_looked_for_in_its_own_trial(maker, panel):
    assert maker.get(f"/trials/{panel.trial_id + 1}/panels/{panel.pk}/").status_code == 404


@pytest.fixture
def whole(candles, rooms, noses) -> dict[str, object]:
    """What a maker sends who puts each candle in its room."""
    seated = {f"candle_{one.code}": room.pk for one, room in zip(candles, rooms, strict=True)}
    facts = {"day": "2027-05-24", "asks": "lit", "clean_air_min": "5", **seated}
    return {**facts, "assessors": [person.pk for person in noses]}


def test_a_panel_is_opened_by_a_click(maker, panels, whole):
    answer = maker.post(f"{panels}new/", {**whole, "clean_air_min": "6,4"})
    panel = Panel.objects.get()
    assert answer.headers["Location"] == f"{panels}{panel.pk}/"
    assert (panel.asks, panel.clean_air_min, panel.seats.count()) == ("lit", 6, 3)
    assert panel.sittings.count() == 4


def test_a_candle_without_a_room_is_not_in_it(maker, panels, whole):
    maker.post(f"{panels}new/", {**whole, "candle_M9C": ""})
    assert {seat.candle.code for seat in Panel.objects.get().seats.all()} == {"K7F", "T4H"}


def test_a_panel_from_the_blotter_is_opened_by_a_click(maker, panels, oils, kitchen, noses):
    sent = {f"oil_{oil.pk}": kitchen.pk for oil in oils}
    facts = {"day": "2027-05-24", "asks": "blotter", "clean_air_min": "5", **sent}
    maker.post(f"{panels}new/", {**facts, "assessors": [noses[0].pk]})
    assert {seat.oil for seat in Panel.objects.get().seats.all()} == set(oils)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"assessors": []}, "Nobody is ticked"),
        ({"candle_K7F": "", "candle_M9C": "", "candle_T4H": ""}, "Nothing is sniffed"),
        ({"day": "soon"}, "That is no day"),
        ({"day": "2027-05-01"}, "K7F was poured on 10 May 2027"),
        ({"clean_air_min": "900"}, "possible is 0 to 240 min"),
    ],
)
def test_what_does_not_fit_is_said_and_the_rest_stays(maker, panels, whole, wrong, said):
    page = maker.post(f"{panels}new/", {**whole, **wrong}).text
    assert said in page
    assert page.count("checked") == (0 if "assessors" in wrong else 4)
    assert not Panel.objects.exists()


def test_that_somebody_has_to_be_ticked_is_said_beforehand(maker, panels, whole):
    page = maker.get(f"{panels}new/").text
    assert "tick at least one; somebody else can be added on the phone" in page


def test_two_lit_candles_in_a_room_are_refused(maker, panels, whole, kitchen):
    sent = {**whole, "candle_K7F": kitchen.pk, "candle_M9C": kitchen.pk}
    assert "Two lit candles stand in the kitchen" in maker.post(f"{panels}new/", sent).text


def test_only_poured_candles_that_go_on_are_offered(maker, panels, whole, now):
    TestCandle.objects.filter(code="K7F").update(poured_on=None)
    TestCandle.objects.filter(code="M9C").update(ended_at=now)
    page = maker.get(f"{panels}new/").text
    assert [code in page for code in ("K7F", "M9C", "T4H")] == [False, False, True]


def test_a_candle_in_a_nose_burn_stands_in_its_room(maker, panels, candles, rooms, by):
    for candle, kind in zip(candles, ("nose", "wick"), strict=False):
        Burn.objects.create(
            candle=candle, number=1, kind=kind, room=rooms[0], lit_at=by["now"],
            lit_by=by["who"], out_by_at=by["now"],
        )  # fmt: skip
    page = maker.get(f"{panels}new/").text
    assert page.count(f'<option value="{rooms[0].pk}" selected>') == 1
    assert "cured, day 14, lit now, nose burn" in page


def test_an_empty_workshop_is_told_what_is_missing(maker, trial):
    TestCandle.objects.all().delete()
    page = maker.get(f"/trials/{trial.pk}/panels/new/").text
    assert "No candle is poured yet" in page
    assert "No room yet" in page
    assert not Room.objects.exists()


def test_sealed_codes_stand_on_the_page_and_no_oil(maker, here, panels):
    for page in (maker.get(here).text, maker.get(f"{panels}new/").text):
        assert "K7F" in page
        assert not any(name in page for name, _ in OILS)


def test_unsealed_the_oil_stands_beside_its_code(maker, here, panels):
    Trial.objects.update(sealed=False)
    for page in (maker.get(here).text, maker.get(f"{panels}new/").text):
        assert all(name in page for name, _ in OILS)


def test_while_it_is_open_the_page_shows_who_answered_and_no_score(maker, here, panel, now):
    Trial.objects.update(sealed=False)
    answered(panel, now)
    page = maker.get(here).text
    assert "Four of four noses are still to come" in page
    assert page.count("given") == 1
    assert "liking 4" not in page


def answered(panel, now) -> Sniff:
    return services.answer(
        panel.sittings.first(), panel.seats.first(), scores=WHOLE[panel.asks], at=now,
        way="hand-round", now=now,
    )  # fmt: skip


def test_closed_and_unsealed_it_shows_what_each_gave(maker, here, panel, now):
    answered(panel, now)
    assert maker.post(f"{here}close/").headers["Location"] == here
    page = maker.get(here).text
    assert "This panel is closed, with one sniff." in page
    assert "liking 4, hot throw 3" in page
    assert "Hand the phone round" not in page


def test_closed_while_another_is_open_it_shows_no_score(maker, here, panel, opened, now):
    answered(panel, now)
    opened("unlit", tags=["100", "200", "300"])
    maker.post(f"{here}close/")
    assert "liking 4" not in maker.get(here).text


def test_what_was_put_right_stands_below(maker, here, panel, by, now):
    sniff = answered(panel, now)
    services.close_panel(panel, **by)
    scores = {"liking": 2, "hot_throw": 3}
    services.put_slip_right(sniff, scores=scores, word="tar", why="pressed the wrong one", **by)
    page = maker.get(here).text
    assert "Odd at 417: liking first noted as 4, it was 2." in page
    assert "Odd at 417: word first noted as nothing, it was tar." in page
    assert "pressed the wrong one" in page


def test_every_nose_answered_is_said(maker, here, panel, by):
    for sitting in panel.sittings.all():
        services.sit_out(sitting, **by)
    assert "Every nose has answered" in maker.get(here).text


def test_one_nose_still_to_come_is_said_as_one(maker, opened, noses, panels):
    panel = opened(assessors=noses[:1])
    assert "One nose is still to come" in maker.get(f"{panels}{panel.pk}/").text


def test_who_sits_out_is_noted_by_a_press(maker, here, panel):
    sitting = panel.sittings.first()
    for expected in (True, False):
        maker.post(f"{here}out/{sitting.pk}/")
        assert Sitting.objects.get(pk=sitting.pk).sits_out is expected


def test_the_maker_who_sits_is_led_to_her_tags(maker, opened, owner, panels):
    panel = opened(assessors=[owner])
    assert "Give your own nose" in maker.get(f"{panels}{panel.pk}/").text


def test_panels_are_listed_newest_first(maker, opened, panels):
    opened()
    opened("unlit", tags=["100", "200", "300"])
    page = maker.get(panels).text
    assert page.index("strength, unlit") < page.index("liking and strength, lit")
    assert page.count("3 tags, 4 noses, 0 sniffs") == 2


def test_no_query_a_nose(maker, panel, here, django_assert_max_num_queries):
    for number in range(30):
        Sitting.objects.create(panel=panel, assessor=Person.objects.create(name=f"g{number}"))
    with django_assert_max_num_queries(18):
        maker.get(here)


def test_long_ago_is_a_page_further(maker, panel, panels):
    for _ in range(30):
        Panel.objects.create(
            trial=panel.trial, day=panel.day, opened_at=panel.opened_at, opened_by=panel.opened_by
        )
    assert "Older panels" in maker.get(panels).text
    older = maker.get(f"{panels}?page=2").text
    assert "Newer panels" in older
    assert older.count("3 tags, 4 noses") == 1
    assert maker.get(f"{panels}?page=no").status_code == 200


def test_a_panel_that_comes_back_names_its_boxes_at_the_top(maker, panels, whole):
    sent = {**whole, "clean_air_min": "long", "candle_K7F": "999", "assessors": []}
    page = maker.post(f"{panels}new/", sent).text
    assert "3 boxes need you: " in page
    for box in ("clean_air_min", "candle_K7F", "assessors_0"):
        assert re.search(rf'<a href="#id_{box}">', page)
        assert f'id="id_{box}"' in page
    for named in re.findall(r'aria-describedby="([^"]+)"', page):
        for there in named.split():
            assert page.count(f'id="{there}"') == 1
    assert re.findall(r'name="([^"]+)"[^>]*autofocus', page) == ["clean_air_min"]


def test_once_all_have_answered_closing_is_the_one_big_press(maker, here, panel, by):
    for sitting in panel.sittings.all()[1:]:
        services.sit_out(sitting, **by)
    assert "All have answered" not in maker.get(here).text
    only = panel.sittings.first()
    for seat in panel.seats.all():
        services.answer(
            only, seat, scores=WHOLE[panel.asks], at=by["now"], way="hand-round", now=by["now"]
        )
    page = maker.get(here).text
    assert "All have answered: close the panel" in page
    assert "1 of 1" in page
    maker.post(f"{here}close/")
    assert f'href="/trials/{panel.trial_id}/verdict/">To the verdict' in maker.get(here).text


def test_blotters_of_a_sealed_trial_pair_tag_and_oil_behind_one_press_only(maker, opened, panels):
    panel = opened("blotter")
    page = maker.get(f"{panels}{panel.pk}/").text
    before, folded = page.split("<summary>Which oil on which blotter</summary>")
    folded = folded.split("</details>")[0]
    for name, _ in OILS:
        assert name not in before
        assert name in folded
    assert "codes only" not in page
    assert "who sniffs leaves that to somebody else" in page
    assert page.count(OILS[0][0]) == 1


def test_nobody_is_ticked_beforehand_for_a_panel(maker, panels, noses):
    page = maker.get(f"{panels}new/?from=blotter").text
    assert re.search(r'name="assessors"[^>]*checked', page) is None


def test_before_the_phone_goes_round_it_says_what_it_will_not_ring_for(
    maker, here, candles, owner, now
):
    assert "rings for no candle" not in maker.get(here).text
    for candle in candles[:2]:
        burning.light(candle, kind="wick", lit_at=now, who=owner, now=now)
    burn = Burn.objects.get(candle=candles[0])
    burn.out_by_at = now + timedelta(hours=2)
    burn.save()
    Burn.objects.exclude(pk=burn.pk).update(out_by_at=now + timedelta(hours=3))
    page = maker.get(here).text
    assert "rings for no candle. Out by 13:05: K7F. Out by 14:05: M9C." in page
    assert 'href="/round/put-out.ics"' in page
    handed = maker.post(f"{here}hand-round/").text
    assert "It rings for no candle while it goes round.</strong> Out by 13:05" in handed
    assert "K7F" not in handed
