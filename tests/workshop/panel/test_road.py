"""What a guest meets: names, own tags, one page a tag, thank you. Earlier answers never show."""

import re
import uuid
from datetime import timedelta
from itertools import permutations

import pytest
from django.test import Client

from throwbench.records.attribute import KINDS
from throwbench.workshop.house.models import Person
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Score, Sitting, Sniff
from throwbench.workshop.panel.selectors import open_sittings
from throwbench.workshop.panel.selectors.moments import moment_of
from workshop.panel.conftest import TAGS

FULL = {"liking": "4", "hot_throw": "none", "word": "wet stone", "known": "on"}


@pytest.fixture
def phone(maker, panel) -> Client:
    maker.post(f"/trials/{panel.trial_id}/panels/{panel.pk}/hand-round/")
    return maker


def taken_by(phone: Client, person: Person) -> Client:
    """The phone, held by somebody."""
    assert phone.post("/nose/is/", {"nose": person.pk}).headers["Location"] != "/nose/"
    return phone


def sent(phone: Client, person: Person, tag="417", **other):
    facts = {**FULL, "nose": person.pk, "entry": uuid.uuid4(), **other}
    return phone.post(f"/nose/{tag}/", facts)


def test_all_names_stand_first(phone, noses):
    page = phone.get("/nose/").text
    assert re.findall(r'noses__name">([^<]+)<', page) == [
        "Odd", "Pernille", "Tor", "Åse", "Someone else",
    ]  # fmt: skip
    assert page.count('class="is-next"') == 1


def test_who_rests_who_is_done_and_who_sits_out(phone, noses, panel, by):
    odd, pernille, tor, _ = noses
    sent(phone, odd)
    for tag in TAGS:
        sent(phone, pernille, tag)
    services.sit_out(panel.sittings.get(assessor=tor), **by)
    page = phone.get("/nose/").text
    assert "clean air until 11:10" in page
    assert "done for today" in page
    assert "sits out today" in page
    assert re.findall(r'noses__name">([^<]+)<', page)[:2] == ["Åse", "Odd"]


def test_noses_are_dealt_the_rows_of_a_balanced_square_and_a_guest_the_next(phone, noses, panel):
    """With three tags, six noses go in all six orders; a guest who joins goes in one of them."""
    for name in ("Guest A", "Guest B"):
        phone.post("/nose/someone-else/", {"name": name})
    walks = []
    for row in panel.sittings.all():
        page = taken_by(phone, row.assessor).get("/nose/mine/").text
        walks.append(tuple(re.findall(r'<a href="/nose/(\d{3})/"', page)))
    assert set(walks) == set(permutations(TAGS))


def test_liking_comes_before_strength(phone, noses):
    page = taken_by(phone, noses[0]).get("/nose/417/").text
    places = [
        page.index(words)
        for words in ("Don’t take part if", "Do you like it?", "How strong is it?", "One word",
                      "I recognised it", "Send 417")
    ]  # fmt: skip
    assert places == sorted(places)


@pytest.mark.parametrize("asks", KINDS)
def test_each_kind_asks_its_own(opened, maker, noses, asks):
    questions = [attribute.said for attribute, _ in KINDS[asks].asks]
    panel = opened(asks)
    maker.post(f"/trials/{panel.trial_id}/panels/{panel.pk}/hand-round/")
    page = taken_by(maker, noses[0]).get("/nose/417/").text
    assert re.findall(r"<legend><strong>([^<]+)<", page) == questions
    assert page.count("cannot tell") == len(questions)


def test_a_scale_of_its_own_is_shown_whole(phone, noses, trial):
    trial.scale_low, trial.scale_high = 0, 8
    trial.save()
    page = taken_by(phone, noses[0]).get("/nose/417/").text
    assert re.findall(r'name="liking" value="(\w+)"', page) == [*"012345678", "none"]


def test_what_is_sent_is_kept(phone, noses):
    assert sent(phone, noses[0]).headers["Location"] == "/nose/thanks/"
    sniff = Sniff.objects.get()
    assert (sniff.sitting.assessor, sniff.word, sniff.recognised) == (noses[0], "wet stone", True)
    assert (sniff.way, sniff.typed_by) == ("hand-round", None)
    assert dict(sniff.scores.values_list("attribute", "value")) == {"liking": 4, "hot_throw": None}


def test_not_recognised_is_not_said(phone, noses):
    sent(phone, noses[0], known="")
    assert Sniff.objects.get().recognised is None


def test_thanked_with_clean_air_and_where_to_go_next(phone, noses):
    sent(taken_by(phone, noses[0]), noses[0])
    page = phone.get("/nose/thanks/").text
    assert "417 is sent" in page
    assert "Clean air until 11:10" in page
    assert "Then go to <strong>682</strong>" in page


def test_a_nose_alone_goes_on_to_its_next_tag(phone, noses):
    sent(taken_by(phone, noses[0]), noses[0])
    page = phone.get("/nose/thanks/").text
    assert re.search(r'href="/nose/682/">I keep it: on to 682, after the clean air<', page)
    assert "The phone is handed on" in page
    assert "Go to 682" in phone.get("/nose/mine/").text


def test_after_the_last_tag_there_is_nothing_to_go_on_to(phone, noses, panel):
    for seat in panel.seats.all():
        sent(taken_by(phone, noses[0]), noses[0], tag=seat.tag)
    page = phone.get("/nose/thanks/").text
    assert "You are done for today." in page
    assert "Go on to" not in page


def test_what_was_given_never_shows_again(phone, noses):
    sent(taken_by(phone, noses[0]), noses[0], word="unmistakable")
    for path in ("/nose/thanks/", "/nose/mine/", "/nose/417/", "/nose/"):
        page = phone.get(path).text
        assert "unmistakable" not in page
        assert "checked" not in page


def test_back_after_sending_it_says_that_it_was_given(phone, noses):
    sent(taken_by(phone, noses[0]), noses[0])
    assert "417 was given already" in phone.get("/nose/417/").text


def test_pressed_twice_it_is_noted_once(phone, noses):
    entry = uuid.uuid4()
    first, second = (sent(taken_by(phone, noses[0]), noses[0], entry=entry) for _ in range(2))
    assert first.headers["Location"] == second.headers["Location"] == "/nose/thanks/"
    assert Score.objects.count() == 2


def test_sent_once_more_with_other_answers_the_first_is_kept(phone, noses):
    entry = uuid.uuid4()
    sent(phone, noses[0], entry=entry)
    for again in (entry, uuid.uuid4()):
        page = sent(phone, noses[0], entry=again, liking="1")
        assert "417 was given already" in page.text
    assert Score.objects.get(attribute="liking").value == 4


def test_nothing_pressed_is_said_at_its_question_and_the_rest_stays(phone, noses):
    page = sent(phone, noses[0], hot_throw="").text
    assert page.count("Nothing is pressed here") == 1
    assert 'name="liking" value="4" checked' in page
    assert 'value="wet stone"' in page
    assert not Sniff.objects.exists()


@pytest.mark.parametrize("step", ["6", "0", "x", "4.5"])
def test_a_step_that_is_not_on_the_page_is_refused(phone, noses, step):
    assert sent(phone, noses[0], liking=step).status_code == 200
    assert not Sniff.objects.exists()


def test_a_page_answers_for_the_nose_it_was_opened_for(phone, noses):
    """The phone has gone on to the next while an old page was still open."""
    taken_by(phone, noses[1])
    sent(phone, noses[0])
    assert Sniff.objects.get().sitting.assessor == noses[0]


def test_before_the_clean_air_is_over_it_is_taken_and_marked(phone, noses, now, monkeypatch):
    sent(phone, noses[0])
    soon = now + timedelta(minutes=3)
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: soon)
    assert "clean air until 11:10" in taken_by(phone, noses[0]).get("/nose/682/").text
    sent(phone, noses[0], "682")
    assert moment_of(Sniff.objects.get(seat__tag="682")).clean_air_min == 3


def test_rested_the_page_says_how_long(phone, noses, now, monkeypatch):
    sent(phone, noses[0])
    later = now + timedelta(minutes=6)
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: later)
    page = taken_by(phone, noses[0]).get("/nose/682/").text
    assert "rested 6\N{NO-BREAK SPACE}min" in page
    assert "clean air until" not in page


def test_a_tag_that_stands_nowhere_leads_back_to_the_road(phone, noses):
    page = taken_by(phone, noses[0]).get("/nose/999/")
    assert page.status_code == 404
    assert re.findall(r'<a [^>]*href="([^"]+)"', page.text) == ["/nose/"]


@pytest.mark.parametrize("path", ["/nose/417/", "/nose/mine/", "/nose/thanks/"])
def test_without_a_name_the_names_come_first(phone, path):
    assert phone.get(path).headers["Location"] == "/nose/"


@pytest.mark.parametrize("nose", ["", "x", "99999", "-1"])
def test_a_nose_that_does_not_sit_leads_back_to_the_names(phone, nose):
    assert phone.post("/nose/is/", {"nose": nose}).headers["Location"] == "/nose/"
    assert phone.post("/nose/417/", {**FULL, "nose": nose}).headers["Location"] == "/nose/"


@pytest.mark.parametrize("sent", ["9" * 5000, "9" * 30, "²", "-1"])
def test_a_number_that_no_nose_can_have_is_nobody(phone, noses, sent):
    assert phone.post("/nose/is/", {"nose": sent}).headers["Location"] == "/nose/"
    phone.post("/nose/is/", {"nose": noses[0].pk})
    assert phone.post("/nose/417/", {"nose": sent}).status_code in (200, 302)
    assert not Sniff.objects.exists()


def test_a_name_leads_straight_to_the_first_tag(phone, noses):
    assert phone.post("/nose/is/", {"nose": noses[0].pk}).headers["Location"] == "/nose/417/"


def test_who_still_rests_or_is_done_or_sits_out_is_told_so_first(phone, noses, panel, by):
    sent(phone, noses[0])
    services.sit_out(panel.sittings.get(assessor=noses[1]), **by)
    for tag in TAGS:
        sent(phone, noses[2], tag)
    for person, said in zip(
        noses, ("Clean air until", "You sit out", "You are done"), strict=False
    ):
        page = phone.post("/nose/is/", {"nose": person.pk}, follow=True)
        assert page.redirect_chain[-1][0] == "/nose/mine/"
        assert said in page.text


def test_a_tag_can_be_left_for_another_or_for_good(phone, noses, panel):
    page = taken_by(phone, noses[0]).get("/nose/417/").text
    for leads in ("/nose/mine/", "/nose/682/", "/nose/953/"):
        assert f'href="{leads}"' in page
    assert 'href="/nose/417/"' not in page
    taken_by(phone, noses[1])  # the phone has gone on meanwhile
    phone.post("/nose/mine/out/", {"nose": noses[0].pk})
    assert [row.assessor for row in panel.sittings.filter(sits_out=True)] == [noses[0]]


def test_who_sits_out_presses_the_own_name_to_take_part_after_all(phone, noses, panel, by):
    services.sit_out(panel.sittings.get(assessor=noses[0]), **by)
    page = phone.get("/nose/").text
    assert re.search(rf'name="nose" value="{noses[0].pk}"[^>]*>.*sits out today', page)
    assert "I take part after all" in taken_by(phone, noses[0]).get("/nose/mine/").text


def test_a_tag_given_twice_leads_on_to_the_next(phone, noses):
    sent(taken_by(phone, noses[0]), noses[0])
    page = phone.get("/nose/417/").text
    assert 'href="/nose/682/">To my next tag, 682<' in page


def test_thanks_go_to_who_sent_though_another_holds_the_phone_now(phone, noses):
    taken_by(phone, noses[1])
    sent(phone, noses[0])
    page = phone.get("/nose/thanks/").text
    assert "Thank you, Odd." in page
    assert "Then go to <strong>682</strong>" in page
    assert "I keep it" not in page


def test_of_several_panels_one_tag_is_next(opened, nose, panel):
    opened("unlit", tags=["100", "200", "300"])
    page = nose.get("/nose/mine/").text
    assert page.count("Go to ") == 1 + page.count("Go to it<")
    assert page.count('aria-current="true"') == 1
    heads = re.findall(r"<h2>([^<]+)</h2>", page)
    assert heads == ["First: liking and strength, lit", "Then: strength, unlit"]
    assert page.count('id="type-tag"') == 1


def test_what_is_open_comes_before_what_is_done(opened, nose, panel, noses):
    for tag in TAGS:
        sent(nose, noses[0], tag)
    opened("unlit", tags=["100", "200", "300"])
    page = nose.get("/nose/mine/").text
    assert "Go to 100" in page
    assert page.count('id="type-tag"') == 1


def test_a_nose_sits_out_and_takes_it_back(phone, noses, panel):
    taken_by(phone, noses[0]).post("/nose/mine/out/")
    assert panel.sittings.get(assessor=noses[0]).sits_out
    assert "You sit out today" in taken_by(phone, noses[0]).get("/nose/mine/").text
    phone.post("/nose/mine/out/", {"out": "no"})
    assert not panel.sittings.get(assessor=noses[0]).sits_out


def test_how_the_nose_is_today_is_kept(phone, noses, panel):
    taken_by(phone, noses[0]).post("/nose/mine/today/", {"tired": "on"})
    sitting = panel.sittings.get(assessor=noses[0])
    assert (sitting.tired, sitting.perfume) == (True, False)


def test_an_assessor_signed_in_sees_the_own_sittings(nose, panel, noses):
    assert nose.get("/nose/").headers["Location"] == "/nose/mine/"
    page = nose.get("/nose/mine/").text
    assert "Go to 417" in page
    assert "Pernille" not in page
    sent(nose, noses[0])
    assert Sniff.objects.get().way == "link"


def test_an_assessor_cannot_answer_for_another(nose, panel, noses):
    assert sent(nose, noses[1]).headers["Location"] == "/nose/"
    assert not Sniff.objects.exists()


def test_the_maker_may_be_a_nose_herself(opened, maker, owner):
    opened(assessors=[owner])
    assert "Go to 417" in maker.get("/nose/mine/").text
    sent(maker, owner)
    assert Sniff.objects.get().recognised is True


def test_nothing_open_is_said(nose, workshop):
    assert "Nothing is to be sniffed now" in nose.get("/nose/mine/").text


def test_a_stranger_is_told_how_to_get_here(stranger):
    for path in ("/nose/", "/nose/mine/", "/nose/417/"):
        page = stranger.get(path)
        assert page.status_code == 403
        assert "No sitting is open in this browser" in page.text


def test_the_names_take_few_queries_however_many_sit(phone, panel, django_assert_max_num_queries):
    for number in range(30):
        Sitting.objects.create(panel=panel, assessor=Person.objects.create(name=f"g{number}"))
    with django_assert_max_num_queries(12):
        phone.get("/nose/")


def test_open_sittings_leave_closed_panels_out(panel, opened, by, now):
    other = opened("unlit", tags=["100", "200", "300"])
    services.close_panel(panel, **by)
    assert {row.sitting.panel for row in open_sittings(now)} == {other}


def test_a_question_that_was_passed_over_is_named_at_the_top(phone, noses):
    page = sent(taken_by(phone, noses[0]), noses[0], liking="").text
    assert re.search(r'1 box needs you: <a href="#id_liking_0">[^<]+</a>', page)
    assert 'id="id_liking_0"' in page
    assert page.count("autofocus") == 1
