"""What was pressed on the round comes through the door: once, at the time of its press, or not."""

import hashlib
import itertools
import json
import uuid
from datetime import datetime, timedelta

import pytest
from django.contrib.sessions.models import Session
from django.db import DatabaseError, transaction

from sending import DOOR, Device, changed, ms, said
from throwbench.web.entry.keys import workshop_mark
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Entry, Person
from throwbench.workshop.house.theme import COOKIE
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.services import burn as burning
from workshop.conftest import signed_in

HOUR, MINUTE, SECOND = timedelta(hours=1), timedelta(minutes=1), timedelta(seconds=1)
KEPT, KEPT_BEFORE = (200, "kept"), (200, "kept before")


@pytest.fixture
def burn(cured, owner, now) -> Burn:
    """K7F, lit two hours ago."""
    at = now - 2 * HOUR
    return burning.light(cured, kind="wick", lit_at=at, who=owner, now=at)


@pytest.fixture
def device(maker, now) -> Device:
    return Device(maker, now)


def look(burn: Burn, answer: str = "same", **more) -> list[tuple[str, object]]:
    part = {"answer": answer, "flare_up": "none", "soot": "none", **more}
    return [(f"b{burn.pk}-{name}", value) for name, value in part.items()]


def outcome(answer) -> tuple[int, str]:
    assert answer["Content-Type"] == "application/json"
    return answer.status_code, answer.json()["outcome"]


def nothing_is_noted() -> bool:
    entries = Entry.objects.exclude(what="light")
    return not Check.objects.exists() and not entries.exists()


def test_a_check_is_noted_at_the_time_of_its_press(device, burn, owner, now):
    body = device.entry("/round/", look(burn), pressed=now - 40 * MINUTE)
    answer = device.send(body)
    assert outcome(answer) == KEPT
    told = json.loads(body)
    assert answer.json() == {
        "outcome": "kept", "id": told["id"], "digest": hashlib.sha256(body).hexdigest(),
        "then": "/round/",
    }  # fmt: skip
    check = Check.objects.get()
    assert (check.at, check.noted_at, check.who) == (
        now - 40 * MINUTE, now - 40 * MINUTE, owner,
    )  # fmt: skip
    kept = Entry.objects.get(pk=told["id"])
    assert (kept.pressed_at, kept.at) == (now - 40 * MINUTE, now)
    assert (kept.device, kept.turn, kept.skew_ms) == (device.name, 1, 0)
    assert kept.sent_digest == hashlib.sha256(body).hexdigest()


@pytest.mark.parametrize("slow", [3 * HOUR, -3 * HOUR, timedelta(days=-9000)])
def test_a_device_whose_clock_is_wrong_says_how_long_ago_it_was(maker, burn, now, slow):
    device = Device(maker, now, slow=slow)
    assert outcome(device.send(device.entry("/round/", look(burn), pressed=now - HOUR))) == KEPT
    assert Check.objects.get().at == now - HOUR
    assert Entry.objects.get(what="burn round").skew_ms == slow // timedelta(milliseconds=1)


def test_in_a_demo_it_is_the_demos_time(maker, burn, now, settings, monkeypatch):
    real = now - timedelta(days=200)
    settings.DEMO_OFFSET_S = timedelta(days=200).total_seconds()
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: real)
    device = Device(maker, real)
    device.send(device.entry("/round/", look(burn), pressed=real - HOUR))
    assert Check.objects.get().at == now - HOUR
    assert Entry.objects.get(what="burn round").skew_ms == 0


def test_sent_twice_it_is_kept_once_and_said_to_be(device, burn):
    body = device.entry("/round/", look(burn))
    assert outcome(device.send(body)) == KEPT
    assert outcome(device.send(body, sent=device.now + HOUR)) == KEPT_BEFORE
    assert Check.objects.count() == 1
    assert Entry.objects.filter(what="burn round").count() == 1


def test_kept_it_is_kept_whatever_the_devices_clock_says_later(device, burn, now):
    body = device.entry("/round/", look(burn))
    device.send(body)
    assert outcome(device.send(body, sent=now - timedelta(days=4000))) == KEPT_BEFORE


def test_signed_out_a_device_still_learns_that_its_entry_is_kept(device, burn):
    body = device.entry("/round/", look(burn))
    device.send(body)
    device.client.logout()
    assert outcome(device.send(body)) == KEPT_BEFORE


@pytest.mark.parametrize(
    "other", [{"fields": []}, {"turn": 900}, {"address": "/round/all-out/"}], ids=str
)
def test_the_same_id_with_other_bytes_is_a_conflict(device, burn, now, other):
    body = device.entry("/round/", look(burn), pressed=now - 20 * MINUTE)
    device.send(body)
    before = Entry.objects.filter(what="burn round").values().get()
    answer = device.send(changed(body, **other))
    assert outcome(answer) == (409, "conflict")
    assert answer.json()["first"] == {
        "what": "burn round", "at": (now - 20 * MINUTE).isoformat(),
    }  # fmt: skip
    assert "sent already at 10:45" in said(answer)
    assert Check.objects.count() == 1
    assert Entry.objects.filter(what="burn round").values().get() == before


def test_a_plain_form_may_have_been_faster_with_the_same(device, burn, maker):
    body = device.entry("/round/", look(burn))
    told = json.loads(body)
    maker.post("/round/", {**dict(told["fields"]), "entry": told["id"]})
    assert outcome(device.send(body)) == KEPT_BEFORE
    assert Check.objects.count() == 1


def test_a_plain_form_with_other_answers_under_the_id_is_a_conflict(device, burn, maker):
    body = device.entry("/round/", look(burn))
    plain = {**dict(look(burn, pool_width_mm="40")), "entry": json.loads(body)["id"]}
    maker.post("/round/", plain)
    assert outcome(device.send(body)) == (409, "conflict")
    assert Check.objects.get().pool_width_mm == 40


@pytest.mark.parametrize("key", ["person-999", "panel-x", "link-abc", "panel-1", "person-"])
def test_what_somebody_else_pressed_is_not_handed_in(device, burn, key):
    """A maker may hand in what guests pressed, but no guest pressed on the round."""
    body = device.entry("/round/", look(burn), key=f"{workshop_mark()}-{key}")
    assert outcome(device.send(body)) == (401, "not yours")
    assert nothing_is_noted()


def test_a_key_of_another_workshop_is_not_ours(device, burn, owner):
    body = device.entry("/round/", look(burn), key=f"00000000-person-{owner.pk}")
    assert outcome(device.send(body)) == (401, "not yours")


def test_signed_out_it_is_told_to_sign_in_and_never_sent_elsewhere(device, burn):
    body = device.entry("/round/", look(burn))
    device.client.logout()
    answer = device.send(body)
    assert outcome(answer) == (401, "sign in")
    assert answer.json()["id"] == json.loads(body)["id"]
    assert "Location" not in answer
    assert nothing_is_noted()


def test_let_in_no_longer_it_is_told_to_sign_in_and_kept_afterwards(device, burn, owner):
    body = device.entry("/round/", look(burn))
    Session.objects.all().delete()
    assert outcome(device.send(body)) == (401, "sign in")
    assert device.hello().status_code == 401
    again = Device(signed_in(owner), device.now)
    assert outcome(again.send(body)) == KEPT


def test_hello_says_whose_entries_may_be_sent(device, owner, now):
    mark = workshop_mark()
    keys = [f"{mark}-person-{owner.pk}", f"{mark}-person-999", f"{mark}-panel-7", "x", ""]
    told = device.client.get(DOOR, {"key": keys}).json()
    assert told["mine"] == [keys[0], keys[2]]
    assert (told["key"], told["now"]) == (keys[0], ms(now))


@pytest.mark.parametrize("token", ["", "x" * 64, "a" * 32])
def test_an_old_key_of_forms_is_told_in_json_and_a_new_one_does_it(device, burn, token):
    body = device.entry("/round/", look(burn))
    answer = device.send(body, **{"X-CSRFToken": token})
    assert outcome(answer) == (401, "new key")
    assert nothing_is_noted()
    device.hello()
    assert outcome(device.send(body)) == KEPT


def test_a_key_that_was_kept_among_the_fields_does_no_harm(device, burn):
    fields = [*look(burn), ("csrfmiddlewaretoken", "old"), ("entry", "")]
    assert outcome(device.send(device.entry("/round/", fields))) == KEPT


def test_an_entry_of_another_site_is_not_taken(device, burn):
    body = device.entry("/round/", look(burn))
    answer = device.send(body, Origin="http://elsewhere.example")
    assert outcome(answer) == (401, "new key")
    assert nothing_is_noted()


@pytest.mark.parametrize(
    ("waited", "way"),
    [
        (timedelta(days=20_000), "forward by 20000 days"),
        (timedelta(days=401), "forward by 401 days"),
        (-3 * HOUR, "back by 180 min"),
        (timedelta(days=-9), "back by 9 days"),
    ],
)
def test_a_clock_that_was_set_meanwhile_cannot_say_when(device, burn, now, waited, way):
    answer = device.send(device.entry("/round/", look(burn), pressed=now - waited))
    assert outcome(answer) == (422, "asks")
    assert way in said(answer)
    assert nothing_is_noted()


@pytest.mark.parametrize("header", ["", "x", "-1", "1e9", "9" * 15, "9" * 6000, "١٢٣"])
def test_without_the_devices_clock_it_is_unclear(device, burn, header):
    body = device.entry("/round/", look(burn))
    assert outcome(device.send(body, **{"X-Sent-At": header})) == (400, "unclear")


def test_the_last_day_that_a_clock_can_show_is_taken(device, burn, now):
    at = 253_402_300_799_000
    body = device.entry("/round/", look(burn), pressed_at=at)
    assert outcome(device.send(body, **{"X-Sent-At": str(at)})) == KEPT
    assert Check.objects.get().at == now


def test_a_clock_that_went_back_by_seconds_is_now(device, burn, now):
    body = device.entry("/round/", look(burn), pressed=now + 90 * SECOND)
    assert outcome(device.send(body)) == KEPT
    assert Check.objects.get().at == now


@pytest.mark.parametrize(
    "body",
    [b"", b"x", b"[]", b"7", b"null", b"{}", b"\xff\xfe", b'{"id": 1}', b"[" * 100_000,
     b"9" * 5000],
)  # fmt: skip
def test_what_is_no_entry_is_unclear(device, body):
    answer = device.send(body)
    assert outcome(answer) == (400, "unclear")
    assert "What came is not an entry." in said(answer)


def test_what_is_too_large_is_unclear(device, burn):
    body = device.entry("/round/", [*look(burn), ("note", "x" * 3_000_000)])
    answer = device.send(body)
    assert outcome(answer) == (400, "unclear")
    assert "2 MB are read" in said(answer)


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("/no/such/page/", "is not there"),
        ("/candles/ZZZ/swapped/", "is not there"),
        ("/burns/99999999999999999999999/", "is not there"),
        ("/burns/", "is not there"),
        ("/", "This page"),
        ("/%65ntries/", "This page takes no entries"),
        ("/round", "did not note it"),
        ("/theme/", "This page takes no entries"),
        ("/sign-out/", "This page takes no entries"),
        ("/house/people/", "This page takes no entries"),
        ("/round/?x=%C3%A5", "No candle of this workshop"),
        ("/r%C3%B8und/å/", "is not there"),
    ],
)
def test_a_page_that_notes_nothing_is_said_so(device, burn, address, words):
    answer = device.send(device.entry(address, [("x", "y")]))
    assert outcome(answer)[0] == 422
    assert words in said(answer)


@pytest.mark.parametrize("address", ["/entries/", "/entries/?key=x", "//elsewhere/", "round/", ""])
def test_an_address_that_is_not_ours_or_is_the_door_is_unclear(device, address):
    assert outcome(device.send(device.entry(address, []))) == (400, "unclear")


def test_a_page_behind_a_name_with_letters_of_every_kind_is_found(device, cured):
    """What a browser writes in an address in bytes is read as it was meant."""
    answer = device.send(device.entry("/candles/%4B7F/swapped/", [("other", "M9C"), ("why", "")]))
    assert "It is needed here." in said(answer)


def test_an_assessor_sends_nothing_to_a_makers_page(nose, burn, now):
    device = Device(nose, now)
    answer = device.send(device.entry("/round/", look(burn)))
    assert outcome(answer) == (422, "asks")
    assert "not open to who pressed it" in said(answer)
    assert nothing_is_noted()


def test_where_it_breaks_nothing_is_noted_and_it_can_be_sent_again(device, burn, monkeypatch):
    body = device.entry("/round/", look(burn))
    device.client.raise_request_exception = False
    with monkeypatch.context() as broken:
        broken.setattr(Check, "save", lambda *_, **__: 1 / 0)
        answer = device.send(body)
    assert outcome(answer) == (503, "broke")
    assert answer.json()["id"] == json.loads(body)["id"]
    assert nothing_is_noted()
    assert outcome(device.send(body)) == KEPT


def test_a_database_that_cannot_be_asked_is_told_in_json(device, burn, monkeypatch):
    body = device.entry("/round/", look(burn))

    def locked(*_, **__):
        raise DatabaseError("database is locked")

    with monkeypatch.context() as broken:
        broken.setattr("throwbench.web.entry.door.Entry.objects.filter", locked)
        assert outcome(device.send(body)) == (503, "broke")
    assert outcome(device.send(body)) == KEPT


def test_an_entry_is_written_only_together_with_what_it_notes(monkeypatch):
    class Bare:
        in_atomic_block = False

    monkeypatch.setattr(transaction, "get_connection", Bare)
    with pytest.raises(transaction.TransactionManagementError, match="outside a transaction"):
        seen_before(uuid.uuid4(), what="check", content={}, who=None, now=datetime.now())


def test_what_is_refused_leaves_no_entry(device, burn):
    answer = device.send(device.entry("/round/", look(burn, pool_width_mm="300")))
    assert outcome(answer) == (422, "asks")
    assert nothing_is_noted()


def test_what_is_asked_apart_from_its_page_names_the_candle(device, burn):
    answer = device.send(device.entry("/round/", look(burn, "changed", pool_width_mm="300")))
    assert said(answer).startswith("K7F: Melt pool is 300 mm; this cup is")


def test_a_question_is_told_and_its_answer_is_another_entry(device, burn):
    answer = device.send(device.entry("/round/", look(burn, "changed", flame_mm="80")))
    assert outcome(answer) == (422, "asks")
    assert said(answer).startswith("80 mm is over 75 mm")
    assert nothing_is_noted()
    sure = device.entry("/round/", look(burn, "changed", flame_mm="80", sure="on"))
    assert outcome(device.send(sure)) == KEPT


def test_a_round_of_candles_that_are_not_here_is_not_kept_as_if_it_were_noted(device, burn):
    answer = device.send(device.entry("/round/", [(f"b{burn.pk + 7}-answer", "same")]))
    assert outcome(answer) == (422, "asks")
    assert nothing_is_noted()


def test_each_sentence_of_a_form_is_told_once(device, burn):
    answer = device.send(device.entry("/round/", look(burn, "changed")))
    assert answer.json()["said"] == [
        "K7F has changed, and nothing is ticked or measured. A change says what it is. "
        "Tick what you see, or press “No change”."
    ]


def test_what_a_page_asks_before_lighting_is_told(device, other_candle, now):
    other_candle.poured_on = now.date() - timedelta(days=4)
    other_candle.save()
    lit_at = [("lit_at_0", "2027-05-24"), ("lit_at_1", "11:05")]
    answer = device.send(device.entry("/light/?candle=M9C", [("kind", "wick"), *lit_at]))
    assert "M9C is on day 4 of its cure" in said(answer)
    assert not Burn.objects.exists()


def test_what_is_asked_of_a_burn_that_is_over_is_told(device, burn, owner, now):
    Burn.objects.filter(pk=burn.pk).update(mass_before_mg=490_000)
    burning.put_out(burn, at=now - HOUR, who=owner, now=now)
    answer = device.send(device.entry(f"/burns/{burn.pk}/", [("mass_after_g", "300")]))
    assert "that is 190 g/h" in said(answer)
    good = device.entry(f"/burns/{burn.pk}/", [("mass_after_g", "484")])
    assert outcome(device.send(good)) == KEPT


def test_checks_of_one_minute_keep_the_order_of_their_presses(device, burn, now):
    presses = [(now - 20 * MINUTE + place * SECOND, f"{40 + place}") for place in range(5)]
    bodies = [
        device.entry("/round/", look(burn, pool_width_mm=width), pressed=at)
        for at, width in presses
    ]
    for place in (3, 0, 4, 1, 2):
        assert outcome(device.send(bodies[place])) == KEPT
    checks = burn.checks.all()
    assert len({check.at for check in checks}) == 1
    assert [check.pool_width_mm for check in checks] == [40, 41, 42, 43, 44]


@pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
def test_in_whatever_order_they_come_the_same_is_noted(device, burn, now, order):
    """Two checks and the put-out after them."""
    bodies = [
        device.entry("/round/", look(burn, pool_width_mm="30"), pressed=now - 90 * MINUTE),
        device.entry("/round/", look(burn, pool_width_mm="45"), pressed=now - 30 * MINUTE),
        device.entry("/round/", look(burn, "out"), pressed=now - 10 * MINUTE),
    ]
    for place in order:
        assert outcome(device.send(bodies[place])) == KEPT
    burn.refresh_from_db()
    assert burn.out_at == now - 10 * MINUTE
    assert [(check.at, check.pool_width_mm) for check in burn.checks.all()] == [
        (now - 90 * MINUTE, 30), (now - 30 * MINUTE, 45),
    ]  # fmt: skip


def test_a_check_after_the_candle_was_out_is_asked_about(device, burn, owner, now):
    burning.put_out(burn, at=now - HOUR, who=owner, now=now - HOUR)
    answer = device.send(device.entry("/round/", look(burn), pressed=now - 30 * MINUTE))
    assert outcome(answer) == (422, "asks")
    assert "K7F was out at 10:05." in said(answer)
    assert nothing_is_noted()


def test_a_put_out_before_a_check_that_came_first_is_asked_about(device, burn, now):
    device.send(device.entry("/round/", look(burn), pressed=now - 10 * MINUTE))
    answer = device.send(device.entry("/round/", look(burn, "out"), pressed=now - HOUR))
    assert "K7F was still lit at 10:55; 10:05 is not after that." in said(answer)
    burn.refresh_from_db()
    assert burn.out_at is None


def test_a_page_that_keeps_no_entry_does_nothing(device, owner):
    answer = device.send(device.entry("/theme/", [("theme", "dark")]))
    assert COOKIE not in answer.cookies
    device.send(device.entry("/sign-out/", []))
    device.send(device.entry("/house/people/", [("name", "Eve"), ("role", "owner")]))
    assert device.hello().status_code == 200
    assert list(Person.objects.all()) == [owner]


def test_an_entry_adds_few_queries(device, burn, django_assert_max_num_queries):
    body = device.entry("/round/", look(burn))
    with django_assert_max_num_queries(40):
        device.send(body)
