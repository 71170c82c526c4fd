"""Answers pressed before a panel was closed are taken after it; nothing depends on their order."""

import itertools
from datetime import timedelta

import pytest
from django.conf import settings
from django.test import Client

from sending import Device, changed, said
from throwbench.web.entry.keys import workshop_mark
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Panel, Sniff, Way
from throwbench.workshop.panel.selectors import scores_of
from throwbench.workshop.panel.selectors.moments import moment_of
from throwbench.workshop.trials.services import burn as burning
from workshop.conftest import signed_in

MINUTE = timedelta(minutes=1)
EARLIER = 30 * MINUTE
"""So long before the clock of these tests was pressed what is late."""


def answers(nose, **other):
    told = {"nose": nose.pk, "liking": "4", "hot_throw": "3", **other}
    return list(told.items())


@pytest.fixture
def panel(panel, now) -> Panel:
    """Opened long enough before."""
    panel.opened_at = now - 2 * EARLIER
    panel.save()
    return panel


@pytest.fixture
def handed(maker, panel) -> Client:
    """The maker's phone, handed round at the panel."""
    maker.post(f"/trials/{panel.trial_id}/panels/{panel.pk}/hand-round/")
    return maker


@pytest.fixture
def closed(panel, owner, now):
    """Close the panel, ten minutes before now."""

    def close(minutes=10):
        at = now - minutes * MINUTE
        return services.close_panel(panel, who=owner, now=at)

    return close


@pytest.fixture
def phone(handed, now) -> Device:
    return Device(handed, now)


def outcome(answer):
    return answer.status_code, answer.json()["outcome"]


def test_what_a_guest_pressed_comes_from_the_handed_phone(phone, panel, noses, now):
    assert phone.key == f"{workshop_mark()}-panel-{panel.pk}"
    body = phone.entry("/nose/417/", answers(noses[1]), pressed=now - EARLIER)
    assert outcome(phone.send(body)) == (200, "kept")
    sniff = Sniff.objects.get()
    assert (sniff.at, sniff.way, sniff.sitting.assessor) == (
        now - EARLIER, Way.HAND_ROUND, noses[1],
    )  # fmt: skip


def test_pressed_before_the_panel_closed_it_is_taken_after(phone, noses, closed, now):
    body = phone.entry("/nose/417/", answers(noses[1]), pressed=now - EARLIER)
    closed()
    assert outcome(phone.send(body)) == (200, "kept")
    assert Sniff.objects.get().at == now - EARLIER


def test_the_maker_who_has_the_phone_back_hands_it_in(phone, owner, noses, closed, now):
    body = phone.entry("/nose/417/", answers(noses[1]), pressed=now - EARLIER)
    closed()
    back = Device(signed_in(owner), now)
    assert outcome(back.send(body)) == (200, "kept")
    sniff = Sniff.objects.get()
    assert (sniff.way, sniff.sitting.assessor) == (Way.HAND_ROUND, noses[1])


def test_a_helper_hands_it_in_too_and_an_assessor_does_not(phone, noses, nose, helper, now):
    body = phone.entry("/nose/417/", answers(noses[1]), pressed=now - EARLIER)
    assert outcome(Device(nose, now).send(body)) == (401, "not yours")
    assert outcome(Device(signed_in(helper), now).send(body)) == (200, "kept")


def test_pressed_after_the_panel_closed_it_is_told(phone, noses, closed, now):
    body = phone.entry("/nose/417/", answers(noses[1]), pressed=now - MINUTE)
    closed()
    answer = phone.send(body)
    assert outcome(answer) == (422, "asks")
    assert "This panel was closed before that was pressed." in said(answer)
    assert not Sniff.objects.exists()


@pytest.mark.parametrize("before", [3 * MINUTE, timedelta(days=300)])
def test_nothing_was_pressed_before_the_panel_was_opened(phone, panel, noses, before):
    """Whatever a guest's device says: minutes lit and in clean air would be of another burn."""
    body = phone.entry("/nose/417/", answers(noses[1]), pressed=panel.opened_at - before)
    answer = phone.send(body)
    assert outcome(answer) == (422, "asks")
    assert "the panel was opened on 24 May, 10:05" in said(answer)
    assert not Sniff.objects.exists()


def test_a_clock_put_right_by_a_minute_is_no_reason_to_refuse(phone, panel, noses):
    body = phone.entry("/nose/417/", answers(noses[1]), pressed=panel.opened_at - MINUTE)
    assert outcome(phone.send(body)) == (200, "kept")


def test_the_workshops_own_clock_put_back_keeps_no_answer_out(handed, panel, noses, now):
    panel.opened_at = now + timedelta(hours=1)
    panel.save()
    handed.post("/nose/417/", dict(answers(noses[1])))
    assert Sniff.objects.count() == 1


def test_by_the_own_link_it_is_taken_after_the_close_too(panel, noses, closed, now):
    sitting = panel.sittings.get(assessor=noses[2])
    guest = Client()
    guest.get(f"/nose/by/{services.personal_link(sitting, now=now)}/")
    device = Device(guest, now)
    early = device.entry("/nose/417/", answers(noses[2]), pressed=now - EARLIER)
    late = device.entry("/nose/682/", answers(noses[2]), pressed=now - MINUTE)
    closed()
    assert outcome(device.send(early)) == (200, "kept")
    assert Sniff.objects.get().way == Way.LINK
    answer = device.send(late)
    assert outcome(answer) == (422, "asks")
    assert "This panel was closed before that was pressed." in said(answer)


def test_signed_in_it_is_taken_after_the_close_too(panel, nose, assessor, closed, now):
    device = Device(nose, now)
    body = device.entry("/nose/417/", answers(assessor), pressed=now - EARLIER)
    late = device.entry("/nose/682/", answers(assessor), pressed=now - MINUTE)
    closed()
    assert outcome(device.send(body)) == (200, "kept")
    assert outcome(device.send(late)) == (422, "asks")
    assert Sniff.objects.count() == 1


def test_a_plain_form_after_the_close_is_refused_as_ever(handed, noses, closed):
    closed()
    page = handed.post("/nose/417/", dict(answers(noses[1])))
    assert "closed" in page.text
    assert not Sniff.objects.exists()


def test_a_clock_that_was_put_back_opens_no_panel_again(handed, nose, noses, closed):
    """The workshop may correct its own clock; a page sent now is sent after the close."""
    closed(minutes=-60)
    for client, of in ((handed, noses[1]), (nose, noses[0])):
        assert client.post("/nose/417/", dict(answers(of))).status_code in (200, 302, 404)
    assert not Sniff.objects.exists()


def test_what_went_round_at_one_panel_is_not_answered_at_another(phone, owner, opened, noses, now):
    other = opened(tags=["100", "200", "300"])
    body = phone.entry("/nose/100/", answers(noses[1]), key=f"{workshop_mark()}-panel-{other.pk}")
    assert outcome(phone.send(body)) == (401, "not yours")
    own = phone.entry("/nose/100/", answers(noses[1]))
    assert outcome(phone.send(own)) == (422, "asks")
    assert not Sniff.objects.exists()


def test_a_panel_that_is_not_here_is_told(phone, owner, noses, now):
    body = phone.entry("/nose/417/", answers(noses[1]), key=f"{workshop_mark()}-panel-999999")
    answer = Device(signed_in(owner), now).send(body)
    assert outcome(answer) == (422, "asks")
    assert "Tell the maker" in said(answer)


def test_a_handed_phone_sends_to_the_assessors_road_alone(phone, owner, panel, now):
    """Neither from the phone nor by its maker does a guest's press reach a maker's page."""
    close = f"/trials/{panel.trial_id}/panels/{panel.pk}/close/"
    for address in ("/round/", close, "/way-back/", "/"):
        body = phone.entry(address, [])
        assert outcome(phone.send(body)) == (401, "not yours")
        assert outcome(Device(signed_in(owner), now).send(body)) == (401, "not yours")
    panel.refresh_from_db()
    assert panel.closed_at is None


def test_what_is_set_in_the_browser_inside_is_set_outside(phone, noses):
    """A sign-in that is prolonged by the page is prolonged for the device that sent the entry."""
    answer = phone.send(phone.entry("/nose/417/", answers(noses[1])))
    assert outcome(answer) == (200, "kept")
    assert answer.cookies[settings.SESSION_COOKIE_NAME].value


def test_a_page_that_leads_on_without_noting_is_not_kept(phone, noses):
    """The phone leads to “whose nose” where nobody is named; that is no answer noted."""
    answer = phone.send(phone.entry("/nose/417/", [("liking", "4"), ("hot_throw", "3")]))
    assert outcome(answer) == (422, "asks")
    assert not Sniff.objects.exists()


def test_a_nose_that_has_answered_is_told_and_the_first_is_kept(phone, noses):
    phone.send(phone.entry("/nose/417/", answers(noses[1])))
    answer = phone.send(phone.entry("/nose/417/", answers(noses[1], liking="1")))
    assert outcome(answer) == (422, "asks")
    assert "This nose has answered here already. The first is kept." in said(answer)
    assert Sniff.objects.get().scores.get(attribute="liking").value == 4


def test_a_question_that_was_passed_over_is_told(phone, noses):
    answer = phone.send(phone.entry("/nose/417/", [("nose", noses[1].pk), ("liking", "4")]))
    assert answer.json()["said"] == [
        "Nothing is pressed here. One step or “cannot tell” is an answer. Press one of them."
    ]


def test_the_same_entry_with_another_score_is_a_conflict(phone, noses):
    body = phone.entry("/nose/417/", answers(noses[1]))
    phone.send(body)
    other = changed(body, fields=[[k, str(v)] for k, v in answers(noses[1], liking="1")])
    assert outcome(phone.send(other)) == (409, "conflict")
    assert Sniff.objects.get().scores.get(attribute="liking").value == 4


@pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
def test_clean_air_is_the_same_in_whatever_order_answers_come(phone, noses, now, trial, order):
    sniffs = [("417", 25), ("682", 18), ("953", 3)]
    bodies = [
        phone.entry(f"/nose/{tag}/", answers(noses[1]), pressed=now - ago * MINUTE)
        for tag, ago in sniffs
    ]
    for place in order:
        assert outcome(phone.send(bodies[place])) == (200, "kept")
    air = {sniff.seat.tag: moment_of(sniff).clean_air_min for sniff in Sniff.objects.all()}
    assert air == {"417": None, "682": 7, "953": 15}
    told = {score.candle: score.clean_air_min for score in scores_of(trial)}
    assert list(told.values()) == [None, 7, 15]


def test_minutes_lit_are_known_once_the_burn_is_noted(phone, noses, candles, owner, now):
    """The candle was lit and put out on a bench that reached the workshop after the guests."""
    phone.send(phone.entry("/nose/417/", answers(noses[1]), pressed=now - 40 * MINUTE))
    phone.send(phone.entry("/nose/417/", answers(noses[2]), pressed=now - 5 * MINUTE))
    assert [moment_of(sniff).minutes_lit for sniff in Sniff.objects.all()] == [None, None]
    lit_at, out_at = now - 100 * MINUTE, now - 20 * MINUTE
    burn = burning.light(candles[0], kind="wick", lit_at=lit_at, who=owner, now=now)
    assert [moment_of(sniff).minutes_lit for sniff in Sniff.objects.all()] == [60, 95]
    burning.put_out(burn, at=out_at, who=owner, now=now)
    moments = [moment_of(sniff) for sniff in Sniff.objects.all()]
    assert [one.minutes_lit for one in moments] == [60, None]
    assert [one.burn_kind for one in moments] == ["wick", "unlit"]
