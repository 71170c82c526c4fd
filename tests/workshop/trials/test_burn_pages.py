"""Pages of lighting and burning: what they ask, what they show, what they never show."""

import re
from datetime import date, timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from throwbench.documents.burn_sheet import BurnSheet
from throwbench.workshop.house.models import Correction, Room
from throwbench.workshop.trials.models import Burn, Check, TestCandle
from throwbench.workshop.trials.selectors.burn_pages import burns_page, logs_of
from throwbench.workshop.trials.selectors.burn_paper import burn_sheet_of
from throwbench.workshop.trials.selectors.light_page import to_light
from throwbench.workshop.trials.services import burn as burning

HOUR = timedelta(hours=1)
TODAY = date(2027, 5, 24)


def text(response: Any) -> str:
    return response.content.decode().replace("\N{NO-BREAK SPACE}", " ")


def lit_form(**more: Any) -> dict[str, Any]:
    return {
        "entry": uuid4(), "kind": "wick", "lit_at_0": "2027-05-24", "lit_at_1": "11:05", **more,
    }  # fmt: skip


@pytest.fixture
def over(cured, owner, now) -> Burn:
    """Burn 1 of K7F, yesterday: two checks, put out after four hours."""
    at = now - 24 * HOUR
    burn = burning.light(cured, kind="wick", lit_at=at, mass_before_mg=490_000, who=owner, now=at)
    burning.check(
        burn, at=at + HOUR, pool_width_mm=48, flame="under", flare_up="none", soot="none",
        who=owner, now=at + HOUR,
    )  # fmt: skip
    burning.check(burn, at=at + 2 * HOUR, no_change=True, who=owner, now=at + 2 * HOUR)
    end = at + 4 * HOUR
    return burning.put_out(burn, at=end, wick_moved=False, who=owner, now=end)


def test_the_candles_that_are_ready_are_listed(maker, cured, candle, other_candle) -> None:
    page = text(maker.get("/light/"))
    assert "Which candles are you going to light?" in page
    assert 'value="K7F"' in page
    assert 'value="M9C"' not in page, "it is not poured"
    assert "burn 1 next, flat cotton 4, cured" in page


def test_without_one_it_says_when_a_candle_is_ready(maker) -> None:
    assert "No candle is ready to be lit." in text(maker.get("/light/"))


def test_what_is_lit_ended_or_flawed_is_not_listed(cured, other_cured, owner, now) -> None:
    burning.light(cured, kind="wick", lit_at=now, who=owner, now=now)
    assert [one.candle.code for one in to_light(TODAY).ready] == ["M9C"]
    other_cured.ended_at = now
    other_cured.save()
    assert to_light(TODAY).ready == ()


@pytest.mark.parametrize(
    ("end", "why"),
    [({"wax_left_mm": 11}, "burned to its end"), ({"relit": True}, "broke a limit: relighting")],
)
def test_what_is_not_lit_again_stands_apart_with_its_reason(
    *, maker, trial, other_cured, over, owner, now, workshop, end, why
) -> None:
    burning.note_after(over, who=owner, now=now, **end)
    listed = to_light(TODAY)
    assert [one.candle.code for one in listed.ready] == ["M9C"]
    assert [(candle.code, said) for candle, said in listed.spent] == [("K7F", why)]
    page = text(maker.get("/light/"))
    assert page.index("Not to be lit again</summary>") < page.index(why)
    assert 'value="K7F"' not in page
    sheet = burn_sheet_of(trial, here=workshop, day=TODAY)
    assert [row.code for row in sheet.candles] == ["M9C"]


def test_many_candles_are_judged_in_as_few_queries(
    *, maker, over, cured, owner, now, django_assert_max_num_queries
) -> None:
    with CaptureQueriesContext(
        connection,
    ) as few:
        maker.get("/light/")
    made = cured.combination
    many = [
        TestCandle(code=f"C{n}", combination=made, poured_on=cured.poured_on, made_at=now)
        for n in range(60)
    ]
    burned = TestCandle.objects.bulk_create(many)
    Burn.objects.bulk_create(
        Burn(candle=one, number=1, kind="wick", lit_by=owner, wax_left_mm=40,
             lit_at=now - 5 * HOUR, out_at=now - HOUR, out_by_at=now)
        for one in burned
    )  # fmt: skip
    with django_assert_max_num_queries(len(few.captured_queries)):
        assert text(maker.get("/light/")).count('type="checkbox"') == 40


def test_candles_of_one_trial_are_listed_by_it(cured, trial) -> None:
    assert len(to_light(TODAY, trial=trial.pk).ready) == 1
    assert to_light(TODAY, trial=trial.pk + 1).ready == ()


def test_a_code_is_read_in_small_letters(maker, cured) -> None:
    assert "Light <span" in text(maker.get("/light/", {"codes": "k7f"}))


def test_a_code_that_is_not_there_is_said(maker, cured) -> None:
    page = text(maker.get("/light/", {"codes": "K7F, Q9Q"}))
    assert "There is no candle Q9Q." in page


def test_no_code_at_all_is_said(maker, cured) -> None:
    assert "No candle is named." in text(maker.get("/light/", {"codes": ""}))


def test_the_form_says_what_a_kind_is_for_and_what_to_mind(maker, cured) -> None:
    page = text(maker.get("/light/", {"candle": "K7F"}))
    assert "for sniffing: one candle in one room" in page
    assert "Burn on a heat-proof surface, out of draughts" in page
    assert "out of reach of children and pets" in page
    assert "Never leave a lit candle." in page
    assert "set your own timer" in page
    assert "Slate After Rain" not in page


@pytest.mark.parametrize(
    ("named", "first"), [(["K7F"], "Nose burn"), (["K7F", "M9C"], "Wick burn")]
)
def test_one_candle_alone_is_offered_a_nose_burn_first(
    *, maker, cured, other_cured, named, first
) -> None:
    page = text(maker.get("/light/", {"candle": named}))
    kinds = re.findall(r"<strong>(.*? burn)</strong>", page)
    assert kinds[0] == first
    assert len(kinds) == 3
    assert re.search(r'value="(nose|wick)"[^>]* checked', page)[1] == first.lower()[:4]
    assert page.count("its hot scores do not count by default") == 2
    assert page.count("its hot scores count after the cure") == 1


def test_a_candle_is_lit_by_one_press(maker, cured, now) -> None:
    told = lit_form(trim_mm="5,5", room_c="70F", mass_K7F="490", scale_step_g="1")
    assert maker.post("/light/?candle=K7F", told).headers["Location"] == "/round/"
    burn = Burn.objects.get()
    assert (burn.lit_at, burn.trim_mm, burn.mass_before_mg) == (now, 5.5, 490_000)
    assert burn.room_c == pytest.approx(21.1, abs=0.05)
    assert burn.scale_step_mg == 1000


def test_two_candles_are_lit_by_one_press(maker, cured, other_cured) -> None:
    maker.post("/light/?candle=K7F&candle=M9C", lit_form())
    assert Burn.objects.count() == 2


def test_several_for_the_nose_are_lit_one_by_one_from_there(maker, cured, other_cured) -> None:
    page = text(maker.post("/light/?candle=K7F&candle=M9C", lit_form(kind="nose")))
    assert "K7F and M9C are chosen for one room. Nothing is noted." in page
    assert "is lit in" not in page
    assert {'href="?candle=K7F"', 'href="?candle=M9C"'} <= set(re.findall(r'href="[^"]*"', page))
    assert not Burn.objects.exists()


def test_who_wants_to_sniff_ticks_one(maker, cured) -> None:
    assert "To sniff: tick one, for a room of its own." in text(maker.get("/light/"))


def test_a_watched_long_burn_says_when_it_ends(maker, cured, now) -> None:
    page = text(maker.post("/light/?candle=K7F", lit_form(kind="long")))
    assert "Say after how many hours." in page
    maker.post("/light/?candle=K7F", lit_form(kind="long", limit_h="6"))
    assert Burn.objects.get().out_by_at == now + 6 * HOUR


def test_a_refusal_keeps_what_was_typed(maker, cured) -> None:
    page = text(maker.post("/light/?candle=K7F", lit_form(kind="nose", trim_mm="5.5")))
    assert "No room is named." in page
    assert 'value="5.5"' in page


def test_a_candle_still_curing_is_asked_about(maker, cured) -> None:
    TestCandle.objects.update(poured_on=date(2027, 5, 20))
    page = text(maker.post("/light/?candle=K7F", lit_form()))
    assert "K7F is on day 4 of its cure" in page
    assert not Burn.objects.exists()
    maker.post("/light/?candle=K7F", lit_form(sure="on"))
    assert Burn.objects.count() == 1


def test_a_guess_is_taken_by_one_press(maker, cured) -> None:
    page = text(maker.post("/light/?candle=K7F", lit_form(trim_mm="50")))
    assert 'value="trim_mm=5.0">Yes, 5 mm' in page
    maker.post("/light/?candle=K7F", lit_form(trim_mm="50", take="trim_mm=5.0"))
    assert Burn.objects.get().trim_mm == 5


def test_the_burns_of_a_trial_say_what_is_missing(maker, trial, over, other_cured) -> None:
    page = text(maker.get(f"/trials/{trial.pk}/burns/"))
    assert "One candle of 2 burned so far, in one burn." in page
    assert "1 wick; 4 h" in page
    assert "nobody looked in burn 1 of K7F" in page
    assert "Burn M9C to 12 mm of wax." in page
    assert "Slate After Rain" in page


def test_a_sealed_trial_shows_no_oil(maker, trial, over) -> None:
    trial.sealed = True
    trial.save()
    page = text(maker.get(f"/trials/{trial.pk}/burns/"))
    assert "K7F" in page
    assert "Slate After Rain" not in page
    assert "cotton" not in page, "the plan names oil and wick together"


def test_candles_of_a_sealed_trial_are_lit_by_code_alone(maker, trial, cured) -> None:
    trial.sealed = True
    trial.save()
    page = text(maker.get("/light/"))
    assert "burn 1 next, cured" in page
    assert "cotton" not in page


def test_a_sealed_trial_lists_its_candles_by_code(trial, cured, other_cured) -> None:
    """Made in the order of the plan, two of one oil stand side by side."""
    cured.code, other_cured.code = "Z9Z", "A2A"
    cured.save()
    other_cured.save()
    codes = [row.candle.code for row in burns_page(trial, day=TODAY).rows]
    trial.sealed = True
    sealed = [row.candle.code for row in burns_page(trial, day=TODAY).rows]
    assert (codes, sealed) == (["Z9Z", "A2A"], ["A2A", "Z9Z"])


def test_a_trial_without_candles_sends_to_the_plan(maker, trial) -> None:
    assert "There is no test candle to burn yet." in text(maker.get(f"/trials/{trial.pk}/burns/"))


@pytest.mark.parametrize(
    ("lit", "words"), [(0, "none lit so far"), (1, "one is lit now"), (2, "two are lit now")]
)
def test_how_many_are_lit_is_said(*, trial, cured, other_cured, owner, now, lit, words) -> None:
    for candle in (cured, other_cured)[:lit]:
        burning.light(candle, kind="wick", lit_at=now, who=owner, now=now)
    assert words in burns_page(trial, day=TODAY).sentence


def test_a_broken_limit_and_a_marked_burn_are_shown(maker, trial, cured, owner, now) -> None:
    burn = burning.light(cured, kind="wick", lit_at=now - 5 * HOUR, who=owner, now=now)
    burning.check(burn, at=now - 4 * HOUR, flame="over", who=owner, now=now)
    burning.put_out(burn, at=now, who=owner, now=now)
    page = text(maker.get(f"/trials/{trial.pk}/burns/"))
    assert "flame height: over the mark, burn 1" in page
    assert "marked: length of the burn, 5 h, burn 1" in page


def test_seen_measured_and_not_seen_are_told_apart(over, cured) -> None:
    (log,) = logs_of(cured)
    first, second = log.checks
    known = {cell.name: (cell.words, cell.known) for cell in first.cells}
    assert known["melt pool"] == ("48\N{NO-BREAK SPACE}mm", "measured")
    assert known["flame"] == ("under the mark", "seen")
    assert known["mushrooming"] == ("not seen", "not seen")
    assert {(cell.words, cell.known) for cell in second.cells} == {("no change", "seen")}
    assert (first.rest, second.rest) == ("not seen", "no change")
    ends = {cell.name: (cell.words, cell.known) for cell in log.ends}
    assert ends["wick"] == ("stood", "seen")
    assert ends["vessel"] == ("not seen", "not seen")
    assert ends["mass before"] == ("490\N{NO-BREAK SPACE}g", "measured")


def test_a_candle_page_shows_its_burns(maker, over) -> None:
    page = text(maker.get("/candles/K7F/"))
    assert "Burn 1" in page
    assert "23 May, 11:05 to 15:05 (4 h)" in page


@pytest.mark.parametrize(
    ("end", "words"),
    [
        ({"relit": True}, "K7F broke a limit: relighting. Do not light it again."),
        ({"wax_left_mm": 11}, "K7F burned to its end."),
    ],
)
def test_a_candle_that_is_not_lit_again_is_not_called_ready(
    *, maker, over, owner, now, end, words
) -> None:
    assert "cured 10 days and ready" in text(maker.get("/candles/K7F/"))
    burning.note_after(over, who=owner, now=now, **end)
    page = text(maker.get("/candles/K7F/"))
    assert f'<h1 class="say">{words}</h1>' in page
    assert "and ready" not in page


def test_a_candle_that_was_not_lit_says_how_to(maker, cured) -> None:
    assert "K7F was not lit yet" in text(maker.get("/candles/K7F/"))


def test_when_it_is_cold_the_rest_is_noted(maker, over) -> None:
    address = f"/burns/{over.pk}/"
    page = text(maker.get(address))
    assert "K7F, burn 1: 4 h on 23 May." in page
    assert 'name="wick_moved"' not in page, "it is noted already"
    told = {"entry": uuid4(), "mass_after_g": "470", "vessel_damage": "none", "relit": "no"}
    assert maker.post(address, told).status_code == 302
    over.refresh_from_db()
    assert (over.mass_after_mg, over.vessel_damage, over.relit) == (470_000, "none", False)
    assert over.frosting is None


def test_with_nothing_to_note_it_says_so(maker, over) -> None:
    page = text(maker.post(f"/burns/{over.pk}/", {"entry": uuid4()}))
    assert "Nothing is noted of K7F, burn 1. At least one thing was seen or weighed." in page


def test_a_heavier_candle_is_refused_and_an_unusual_rate_asked_about(maker, over) -> None:
    address = f"/burns/{over.pk}/"
    page = text(maker.post(address, {"entry": uuid4(), "mass_after_g": "500"}))
    assert "A candle gets no heavier by burning." in page
    page = text(maker.post(address, {"entry": uuid4(), "mass_after_g": "400"}))
    assert "that is 22.5 g/h" in page
    told = {"entry": uuid4(), "mass_after_g": "400", "sure": "on"}
    assert maker.post(address, told).status_code == 302


def test_a_slip_of_a_check_is_put_right_and_stays_visible(maker, over) -> None:
    check = over.checks.get(pool_width_mm=48)
    address = f"/checks/{check.pk}/slip/"
    assert "Melt pool: 48" in text(maker.get(address))
    told = {"entry": uuid4(), "field": "pool_width_mm", "value": "46", "why": "misread"}
    assert maker.post(address, told).headers["Location"] == f"/burns/{over.pk}/"
    page = text(maker.get(f"/burns/{over.pk}/"))
    assert "pool width first typed as 48 mm, it was 46 mm: put right" in page
    assert "misread" in page
    maker.post(address, told)
    assert Correction.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("flame", "sideways", "“sideways” is none of its words"),
        ("pool_width_mm", "86", "this cup is 68 mm inside"),
        ("pool_width_mm", "wide", "wide"),
        ("soot", "heavy", ""),
        ("flame", "over the mark", ""),
    ],
)
def test_a_slip_is_put_right_to_what_can_be(maker, over, field, value, words) -> None:
    check = over.checks.get(pool_width_mm=48)
    told = {"entry": uuid4(), "field": field, "value": value, "why": "slip"}
    response = maker.post(f"/checks/{check.pk}/slip/", told)
    assert (response.status_code == 200) is bool(words)
    if words:
        assert words in text(response)


@pytest.mark.parametrize(
    ("field", "value", "kept"),
    [
        ("mass_before_mg", "480 g", 480_000),
        ("wick_moved", "yes", True),
        ("wick_moved", "", None),
        ("put_out", "went out by itself", "went out"),
    ],
)
def test_a_slip_of_a_burn_is_put_right(maker, over, field, value, kept) -> None:
    told = {"entry": uuid4(), "field": field, "value": value, "why": "slip"}
    assert maker.post(f"/burns/{over.pk}/slip/", told).status_code == 302
    over.refresh_from_db()
    assert getattr(over, field) == kept


def test_a_slip_shows_what_stands_there(maker, over) -> None:
    page = text(maker.get(f"/burns/{over.pk}/slip/"))
    assert "Mass before: 490 g" in page
    assert "Wick moved: no" in page


def test_a_burn_that_is_lit_sends_to_the_round(maker, cured, owner, now) -> None:
    burn = burning.light(cured, kind="wick", lit_at=now, who=owner, now=now)
    page = text(maker.get(f"/burns/{burn.pk}/"))
    assert "lit since 11:05, out by 15:05" in page
    assert "Nobody looked at it while it burned." in page
    assert "When it is cold" not in page
    slip = text(maker.get(f"/burns/{burn.pk}/slip/"))
    assert "Nothing is noted yet" in slip


def test_a_sealed_burn_sheet_is_marked_so(trial, cured, over, workshop) -> None:
    trial.sealed = True
    trial.save()
    sheet = burn_sheet_of(trial, here=workshop, day=TODAY)
    assert isinstance(sheet, BurnSheet)
    assert sheet.sealed
    assert (sheet.candles[0].oil, sheet.candles[0].wick) == ("", "")
    assert [(row.code, row.burn) for row in sheet.candles] == [("K7F", 2)]


def test_a_burn_sheet_names_no_oil_without_a_seal_either(trial, cured, workshop) -> None:
    (row,) = burn_sheet_of(trial, here=workshop, day=TODAY).candles
    assert (row.code, row.oil) == ("K7F", "")


def test_the_burn_sheet_is_a_pdf_without_a_name_that_tells(maker, trial, cured) -> None:
    response = maker.get(f"/trials/{trial.pk}/burn-sheet.pdf")
    assert response.content.startswith(b"%PDF")
    assert response.headers["Content-Disposition"] == 'inline; filename="burn-sheet.pdf"'


def test_without_a_candle_there_is_no_burn_sheet(maker, trial) -> None:
    assert maker.get(f"/trials/{trial.pk}/burn-sheet.pdf").status_code == 302


@pytest.mark.parametrize("address", ["/round/", "/light/", "/trials/{}/burns/", "/candles/K7F/"])
def test_more_burns_ask_no_more_of_the_database(
    *, maker: Client, trial, cured, other_cured, over, owner, now, kitchen: Room, address: str,
    django_assert_max_num_queries,
) -> None:  # fmt: skip
    where = address.format(trial.pk)
    lit = burning.light(cured, kind="wick", room=kitchen, lit_at=now, who=owner, now=now)
    with CaptureQueriesContext(
        connection,
    ) as few:
        maker.get(where)
    burning.light(other_cured, kind="wick", room=kitchen, lit_at=now, who=owner, now=now)
    Check.objects.bulk_create(
        [
            Check(burn=lit, at=now + HOUR * part / 60, who=owner, no_change=True)
            for part in range(40)
        ]
    )
    with django_assert_max_num_queries(len(few.captured_queries)):
        maker.get(where)


def test_a_lighting_that_comes_back_names_its_boxes_at_the_top(maker, cured) -> None:
    page = text(maker.post("/light/?candle=K7F", lit_form(trim_mm="short", mass_K7F="heavy")))
    assert "2 boxes need you: " in page
    for box in ("trim_mm", "mass_K7F"):
        assert f'<a href="#id_{box}">' in page
        assert re.search(rf'<input[^>]*aria-invalid="true"[^>]*id="id_{box}"', page)
    assert re.findall(r'name="([^"]+)"[^>]*autofocus', page) == ["trim_mm"]
