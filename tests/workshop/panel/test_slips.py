"""Slips on paper: printed for who has still to answer, typed in fast, put right with a reason."""

import uuid
from datetime import time, timedelta

import pytest
from pypdfium2 import PdfDocument

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Correction
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Score, Sniff
from throwbench.workshop.panel.selectors import sittings_of
from throwbench.workshop.panel.selectors.moments import moment_of
from workshop.panel.conftest import TAGS, WHOLE


@pytest.fixture
def here(panel) -> str:
    return f"/trials/{panel.trial_id}/panels/{panel.pk}/"


@pytest.fixture
def odd(panel):
    return panel.sittings.get(assessor__name="Odd")


def row(tag, liking, hot_throw, **other):
    typed = {"liking": liking, "hot_throw": hot_throw, **other}
    return {f"{tag}_{name}": value for name, value in typed.items()}


def text_of(pdf: bytes) -> str:
    document = PdfDocument(pdf)
    return "\n".join(page.get_textpage().get_text_bounded() for page in document)


def test_the_next_nose_is_one_press_away(maker, here, odd):
    assert f'href="{here}slips/{odd.pk}/"' in maker.get(f"{here}slips/").text


def test_a_row_for_each_tag_in_the_order_of_that_nose(maker, here, panel):
    second = panel.sittings.all()[1]
    page = maker.get(f"{here}slips/{second.pk}/").text
    places = [page.index(f'name="{tag}_liking"') for tag in ("953", "682", "417")]
    assert places == sorted(places)


def test_what_is_typed_is_kept_with_who_typed_it(maker, here, odd, owner):
    sent = {**row("417", "4", "?", word="tar", known="on"), **row("953", " 1", "5")}
    assert maker.post(f"{here}slips/{odd.pk}/", sent).headers["Location"] == f"{here}slips/"
    first, second = Sniff.objects.order_by("seat__tag")
    assert dict(first.scores.values_list("attribute", "value")) == {"liking": 4, "hot_throw": None}
    assert (first.word, first.recognised, first.typed_by, first.way) == ("tar", True, owner, "slip")
    assert dict(second.scores.values_list("attribute", "value")) == {"liking": 1, "hot_throw": 5}


def test_a_slip_knows_nothing_of_minutes(maker, here, odd):
    maker.post(f"{here}slips/{odd.pk}/", {**row("417", "4", "3"), **row("682", "4", "3")})
    known = Sniff.objects.values_list("minutes_lit", "clean_air_min")
    assert list(known) == [(None, None)] * 2


def test_a_time_as_written_is_kept_and_clean_air_reckoned_from_it(maker, here, odd, now):
    """Opened at 11:05 by the wall; typed in three quarters of an hour later."""
    odd.panel.opened_at = now - timedelta(hours=1)
    odd.panel.save()
    sent = {**row("417", "4", "3", clock="10:30"), **row("682", "4", "3", clock="10:33")}
    maker.post(f"{here}slips/{odd.pk}/", {**sent, **row("953", "2", "2")})
    known = {one.seat.tag: moment_of(one).clean_air_min for one in Sniff.objects.all()}
    assert known == {"417": None, "682": 3, "953": None}
    assert [one.is_timed for one in Sniff.objects.order_by("seat__tag")] == [True, True, False]


def test_a_slip_without_its_time_says_nothing_of_the_air_before_or_after(panel, odd, by):
    now = by["now"]
    slips = [services.TypedSlip(seat=panel.seats.get(tag="417"), scores=WHOLE["lit"])]
    services.type_slips(odd, slips, **by)
    services.answer(
        odd, panel.seats.get(tag="682"), scores=WHOLE["lit"], at=now, way="link", now=now
    )
    assert [moment_of(one).clean_air_min for one in Sniff.objects.all()] == [None, None]


def test_only_a_slip_of_just_now_asks_for_clean_air(panel, odd, by):
    now = by["now"]
    seats = list(panel.seats.all())
    services.type_slips(odd, [services.TypedSlip(seat=seats[0], scores=WHOLE["lit"])], **by)
    assert sittings_of(panel, now)[0].free_at is None
    timed = services.TypedSlip(seat=seats[1], scores=WHOLE["lit"], clock=time(11, 4))
    services.type_slips(odd, [timed], **by)
    assert sittings_of(panel, now)[0].free_at == now + timedelta(minutes=4)


@pytest.mark.parametrize(
    ("clock", "said"),
    [
        ("23:10", "The slip for 417 says 23:10, and it is 11:05."),
        ("02:10", "The slip for 417 says 02:10, and the panel was opened at 11:05."),
        ("noon", "That is no time."),
    ],
)
def test_a_time_that_cannot_be_is_refused_and_all_stays_typed(maker, here, odd, clock, said):
    page = maker.post(f"{here}slips/{odd.pk}/", row("417", "4", "3", clock=clock)).text
    assert said in page
    assert 'name="417_liking" value="4"' in page
    assert not Sniff.objects.exists()


def test_a_time_alone_is_no_slip_yet(maker, here, odd):
    page = maker.post(f"{here}slips/{odd.pk}/", row("417", "", "", clock="11:05")).text
    assert "is empty for 417" in page


def test_how_the_nose_is_is_typed_once_for_all_slips(maker, here, odd):
    maker.post(f"{here}slips/{odd.pk}/", {**row("417", "4", "3"), "perfume": "on"})
    odd.refresh_from_db()
    assert (odd.tired, odd.perfume) == (False, True)
    assert 'name="perfume" id="id_perfume" checked' in maker.get(f"{here}slips/{odd.pk}/").text


def test_a_slip_stands_at_its_place_of_the_whole_walk(maker, here, panel, odd, by):
    now = by["now"]
    services.answer(
        odd, panel.seats.get(tag="417"), scores=WHOLE["lit"], at=now, way="link", now=now
    )
    words = " ".join(text_of(maker.get(f"{here}slips.pdf").content).split())
    assert "682 2 of 3 Odd" in words
    assert "417 1 of 3 Odd" not in words


def test_half_a_slip_is_asked_about_and_stays_typed(maker, here, odd):
    page = maker.post(f"{here}slips/{odd.pk}/", row("417", "4", "")).text
    assert "“How strong is it?” is empty for 417" in page
    assert 'name="417_liking" value="4"' in page
    assert not Sniff.objects.exists()


@pytest.mark.parametrize("typed", ["6", "0", "x", "44", "4,5", "²", "--3", "9" * 5000])
def test_what_is_no_step_is_refused_with_what_is_read(maker, here, odd, typed):
    sent = {**row("417", "4", "3"), **row("682", typed, "3")}
    page = maker.post(f"{here}slips/{odd.pk}/", sent).text
    assert "is no step here. 1 to 5 is read, or ? for “cannot tell”." in page
    assert not Sniff.objects.exists()


def test_nothing_typed_is_said(maker, here, odd):
    assert "No slip is typed" in maker.post(f"{here}slips/{odd.pk}/", {"entry": ""}).text


def test_typed_twice_by_a_double_press_it_is_kept_once(maker, here, odd):
    sent = {**row("417", "4", "3"), "entry": uuid.uuid4()}
    for _ in range(2):
        maker.post(f"{here}slips/{odd.pk}/", sent)
    assert Score.objects.count() == 2


def test_who_answered_on_the_phone_has_no_slip(maker, here, odd, now):
    services.answer(
        odd, odd.panel.seats.get(tag="417"), scores=WHOLE["lit"], at=now, way="hand-round", now=now
    )
    assert 'name="417_liking"' not in maker.get(f"{here}slips/{odd.pk}/").text


def test_one_bad_slip_keeps_all_of_them_out(panel, odd, by):
    good, bad = (
        services.TypedSlip(seat=panel.seats.get(tag=tag), scores=scores)
        for tag, scores in (("417", WHOLE["lit"]), ("682", {"liking": 9, "hot_throw": 1}))
    )
    with pytest.raises(UnclearError, match="The score is 9"):
        services.type_slips(odd, [good, bad], **by)
    assert not Sniff.objects.exists()


def test_a_sitting_of_another_panel_is_not_here(maker, opened, odd):
    other = opened("unlit", tags=["100", "200", "300"])
    here = f"/trials/{other.trial_id}/panels/{other.pk}/"
    assert maker.get(f"{here}slips/{odd.pk}/").status_code == 404


@pytest.fixture
def slip(panel, odd, by) -> Sniff:
    typed = services.TypedSlip(seat=panel.seats.get(tag="417"), scores=WHOLE["lit"], word="tar")
    return services.type_slips(odd, [typed], **by)[0]


def test_put_right_the_first_entry_stays_beside_it(maker, here, slip, owner):
    address = f"{here}right/{slip.pk}/"
    assert 'value="4"' in maker.get(address).text
    sent = {"liking": "2", "hot_throw": "?", "word": "tar", "why": "read upside down"}
    assert maker.post(address, sent).headers["Location"] == here
    assert dict(slip.scores.values_list("attribute", "value")) == {"liking": 2, "hot_throw": None}
    kept = Correction.objects.values_list("table", "field", "was", "became", "why", "who")
    assert set(kept) == {
        ("panel.score", "value", "4", "2", "read upside down", owner.pk),
        ("panel.score", "value", "3", "", "read upside down", owner.pk),
    }


def test_a_word_is_put_right_too(slip, by):
    services.put_slip_right(slip, scores=WHOLE["lit"], word="tarmac", why="misread", **by)
    assert (slip.word, Correction.objects.get().was) == ("tarmac", "tar")


def test_without_a_reason_nothing_is_put_right(maker, here, slip):
    sent = {"liking": "2", "hot_throw": "3", "word": "tar", "why": ""}
    assert maker.post(f"{here}right/{slip.pk}/", sent).status_code == 200
    with pytest.raises(UnclearError, match="There is no reason"):
        services.put_slip_right(
            slip, scores={"liking": 2, "hot_throw": 3}, word="tar", why=" ", who=slip.typed_by,
            now=slip.at,
        )  # fmt: skip
    assert slip.scores.get(attribute="liking").value == 4


def test_nothing_changed_is_said(maker, here, slip):
    sent = {"liking": "4", "hot_throw": "3", "word": "tar", "why": "just looking"}
    assert "Nothing differs" in maker.post(f"{here}right/{slip.pk}/", sent).text


def test_put_right_off_the_scale_changes_nothing(slip, by):
    with pytest.raises(UnclearError, match="The score is 7"):
        services.put_slip_right(
            slip, scores={"liking": 2, "hot_throw": 7}, word="", why="misread", **by
        )
    assert dict(slip.scores.values_list("attribute", "value")) == WHOLE["lit"]
    assert not Correction.objects.exists()


def test_while_sealed_only_slips_open_to_the_maker(maker, here, panel, odd, by):
    now = by["now"]
    sniff = services.answer(
        odd, panel.seats.get(tag="417"), scores=WHOLE["lit"], at=now, way="hand-round", now=now
    )
    assert maker.get(f"{here}right/{sniff.pk}/").status_code == 404
    services.close_panel(panel, **by)
    assert maker.get(f"{here}right/{sniff.pk}/").status_code == 200


def test_slips_are_printed_for_who_has_still_to_answer(maker, here, panel, odd, by):
    now = by["now"]
    services.answer(
        odd, panel.seats.get(tag="417"), scores=WHOLE["lit"], at=now, way="link", now=now
    )
    services.sit_out(panel.sittings.get(assessor__name="Tor"), **by)
    answer = maker.get(f"{here}slips.pdf")
    assert answer.headers["Content-Disposition"] == 'inline; filename="slips.pdf"'
    words = text_of(answer.content)
    assert [words.count(name) for name in ("Odd", "Pernille", "Tor", "Åse")] == [2, 3, 0, 3]


def test_nothing_left_to_print_is_said_on_the_page(maker, here, panel, by):
    for sitting in panel.sittings.all():
        services.sit_out(sitting, **by)
    assert "No slip is left to print" in maker.get(f"{here}slips.pdf").text


def test_uniqueness_has_no_slip(maker, opened):
    panel = opened("uniqueness")
    here = f"/trials/{panel.trial_id}/panels/{panel.pk}/"
    assert "There is no slip for this question" in maker.get(f"{here}slips.pdf").text
    assert "Print the slips" not in maker.get(here).text


def test_front_tags_hold_the_tags(maker, here):
    words = text_of(maker.get(f"{here}front-tags.pdf").content)
    assert all(tag in words for tag in TAGS)
