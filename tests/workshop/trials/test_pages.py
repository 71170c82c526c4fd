"""The maker's road from a question to a curing candle, page by page."""

import re
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client

from throwbench.workshop.shelf.models import Lot, Oil, Wax, Wick
from throwbench.workshop.trials.in_passing import oils_like
from throwbench.workshop.trials.models import Candidate, Pour, SealBreak, Swap, TestCandle, Trial
from throwbench.workshop.trials.services import plan
from throwbench.workshop.trials.services import pour as pouring
from throwbench.workshop.trials.services.candles import fit_out
from workshop.trials.conftest import combined

By = dict[str, Any]


def text(client: Client, path: str) -> str:
    answer = client.get(path)
    assert answer.status_code == 200, path
    return answer.content.decode()


def test_an_empty_list_teaches_and_has_one_button(maker: Client) -> None:
    page = text(maker, "/trials/")
    assert "No trial yet" in page
    assert page.count("act--do") == 1


def test_a_trial_begins_with_a_question(maker: Client, wax: Wax) -> None:
    told = {"question": "Which two of these five?", "name": "Spring", "choose": 2, "wax": "r-36"}
    rest = {"scale": "1-5", "sealed": "yes", "load_percent": "8", "decide_on": "2027-06-01"}
    answer = maker.post("/trials/new/", {**told, **rest})
    trial = Trial.objects.get()
    assert answer["Location"] == f"/trials/{trial.pk}/"
    assert (trial.wax, trial.load_percent, trial.is_sealed) == (wax, 8, True)


def test_a_load_above_the_wax_card_is_refused_and_stays_in_the_form(
    maker: Client, wax: Wax
) -> None:
    told = {"question": "Which?", "name": "Spring", "choose": 1, "wax": "R-36", "scale": "1-5"}
    page = maker.post("/trials/new/", {**told, "sealed": "no", "load_percent": "10"})
    said = page.content.decode()
    assert "Load of wax is 10 %; 0.01 to 9 % is allowed (the wax card" in said
    assert 'value="10"' in said
    assert not Trial.objects.exists()


def test_a_new_wax_goes_on_the_shelf_in_passing(maker: Client) -> None:
    told = {"question": "Which?", "name": "Spring", "choose": 1, "wax": "Soy 9", "scale": "1-5"}
    maker.post("/trials/new/", {**told, "sealed": "no"})
    assert Trial.objects.get().wax == Wax.objects.get(name="Soy 9")


def test_the_plan_opens_with_its_question(maker: Client, trial: Trial) -> None:
    page = text(maker, f"/trials/{trial.pk}/")
    assert '<h1 class="say">Which one joins?</h1>' in page


def test_an_oil_from_the_shelf_is_added_by_its_line(
    maker: Client, trial: Trial, oils: list[Oil]
) -> None:
    told = {"oil": "slate after rain, tarnholt", "role": "candidate", "group": ""}
    maker.post(f"/trials/{trial.pk}/oils/", told)
    assert Candidate.objects.get().oil == oils[0]


def test_a_new_oil_is_made_in_passing(maker: Client, trial: Trial) -> None:
    told = {"oil": "Ferry Rope, Fjellrype Duft", "role": "candidate", "group": ""}
    maker.post(f"/trials/{trial.pk}/oils/", told)
    oil = Candidate.objects.get().oil
    assert (oil.name, oil.supplier and oil.supplier.name) == ("Ferry Rope", "Fjellrype Duft")


def test_a_part_of_a_name_is_asked_about_before_it_is_a_second_oil(
    maker: Client, trial: Trial, oils: list[Oil]
) -> None:
    told = {"oil": "slate, 8 %", "role": "candidate", "group": "stone"}
    asked = maker.post(f"/trials/{trial.pk}/oils/", told)
    text = asked.content.decode()
    assert "Did you mean Slate After Rain, Tarnholt Riechstoffe?" in text
    assert not trial.candidates.exists()
    assert Oil.objects.count() == len(oils)
    maker.post(f"/trials/{trial.pk}/oils/", told | {"meant": str(oils[0].pk)})
    assert [(one.oil, one.group) for one in trial.candidates.all()] == [(oils[0], "stone")]
    maker.post(f"/trials/{trial.pk}/oils/", told | {"meant": "slate", "new": "1"})
    assert Oil.objects.filter(name="slate", as_typed="slate, 8 %").exists()


@pytest.mark.parametrize(
    ("line", "count"),
    [
        ("Slate Afer Rain", 1),  # one letter is missing
        ("slate after rain from the market", 1),
        ("slate, Tarnholt", 1),
        ("slate, Fjellrype", 0),  # of another supplier
        ("SLATE AFTER RAIN", 0),  # the name itself
        ("slate after rain, Fjellrype", 0),
        ("granite", 0),
        ("8 %", 0),  # no name
        ("harbour, Fjellrype", 1),  # whose supplier is not known
    ],
)
def test_what_a_line_may_mean(oils: list[Oil], line: str, count: int) -> None:
    assert len(oils_like(line)) == count


def test_a_wick_goes_to_all_oils_that_have_none(
    maker: Client, slate: Candidate, rhubarb: Candidate
) -> None:
    told = {"wick": "flat cotton 4", "fixing": "glue", "wax": "R-36", "vessel": "stoneware cup"}
    maker.post(f"/trials/{slate.trial.pk}/wicks/", {**told, "load_percent": "8"})
    assert [one.combinations.count() for one in (slate, rhubarb)] == [1, 1]
    told = {**told, "fixing": "", "load_percent": "8"}
    again = maker.post(f"/trials/{slate.trial.pk}/wicks/", told)
    assert "Every oil has a wick already." in again.content.decode()


def test_a_wick_without_its_size_is_asked_for(maker: Client, slate: Candidate) -> None:
    told = {"wick": "cotton", "fixing": "", "wax": "R-36", "vessel": "cup", "load_percent": "8"}
    page = maker.post(f"/trials/{slate.trial.pk}/wicks/", told).content.decode()
    assert "A wick is its series and its size." in page


def test_a_theme_is_said(maker: Client, slate: Candidate, rhubarb: Candidate) -> None:
    page = text(maker, f"/trials/{slate.trial.pk}/")
    assert "At most one rhubarb." in page
    assert "Rhubarb: at most one joins" in page


def test_a_band_is_drawn_without_styles(maker: Client, trial: Trial) -> None:
    maker.post(f"/trials/{trial.pk}/bands/", {"room_kind": "", "low": "3,2", "high": "4.4"})
    page = text(maker, f"/trials/{trial.pk}/")
    assert "all rooms: right from 3.2 to 4.4. Scale 1 to 5." in page
    assert "style=" not in page


def test_the_sums_stand_on_both_bases(maker: Client, candle: TestCandle, trial: Trial) -> None:
    page = text(maker, f"/trials/{trial.pk}/").replace("\N{NO-BREAK SPACE}", " ")
    assert "the same oil is 7.41 % of the total" in page
    assert "155.6 g" in page
    assert "8 % of the total is not 8 % of wax." in page
    assert "8.7 % of wax: close to the 9 % at which this wax card stops." in page


def test_fixing_the_plan_leads_to_the_pitchers(maker: Client, slate: Candidate, wick: Wick,
    by: By) -> None:  # fmt: skip
    combined(slate, wick, by)
    answer = maker.post(f"/trials/{slate.trial.pk}/fix/")
    assert answer["Location"] == f"/trials/{slate.trial.pk}/pour/"
    assert TestCandle.objects.count() == 1


def test_a_sealed_plan_never_says_which_code_is_which(
    maker: Client, candle: TestCandle, trial: Trial, by: By
) -> None:
    assert candle.code in text(maker, f"/trials/{trial.pk}/")
    plan.change_plan(trial, sealed=True, **by)
    page = text(maker, f"/trials/{trial.pk}/")
    assert "Slate After Rain" in page
    assert candle.code not in page


def test_a_sealed_candle_shows_its_code_alone(
    maker: Client, candle: TestCandle, trial: Trial, wax: Wax, by: By
) -> None:
    plan.change_plan(trial, sealed=True, **by)
    pitcher = pouring.begin_pour(
        candle.combination.candidate, wax=wax, load_percent=8, wax_mg=155_600, **by
    )
    pouring.weigh(pitcher, what="wax", mg=155_600, **by)
    pouring.pour_candles(pitcher, candles=[candle], note="smells of slate", **by)
    for path in (
        "/candles/K7F/",
        f"/trials/{trial.pk}/pour/",
        f"/trials/{trial.pk}/pour/{pitcher.pk}/",
        f"/trials/{trial.pk}/cure/",
    ):
        page = text(maker, path)
        assert "Slate" not in page, path
        assert "Tarnholt" not in page, path
    assert "smells of slate" not in text(maker, "/candles/K7F/")


def test_the_seal_is_opened_with_a_reason(maker: Client, trial: Trial, by: By) -> None:
    plan.change_plan(trial, sealed=True, **by)
    maker.post(f"/trials/{trial.pk}/seal/", {"why": "a cup cracked"})
    assert SealBreak.objects.get().why == "a cup cracked"
    assert "a cup cracked" in text(maker, f"/trials/{trial.pk}/")


@pytest.fixture
def pitcher(candle: TestCandle, wax: Wax, by: By) -> Pour:
    return pouring.begin_pour(
        candle.combination.candidate, wax=wax, load_percent=8, wax_mg=155_600, **by
    )


def at_bench(pitcher: Pour, *more: str) -> str:
    return "/".join([f"/trials/{pitcher.candidate.trial_id}/pour/{pitcher.pk}", *more, ""])


def test_a_pitcher_begins_with_the_load_as_planned(maker: Client, candle: TestCandle) -> None:
    there = f"/trials/1/pour/begin/{candle.combination.candidate_id}/".replace(
        "/1/", f"/{candle.combination.candidate.trial_id}/", 1
    )
    assert 'value="155.6"' in text(maker, there)
    maker.post(there, {"load_percent": "8", "basis": "wax", "wax_g": "155,6"})
    assert Pour.objects.get().wax_mg == 155_600


def test_a_pitcher_as_planned_begins_with_one_press_on_pour_day(
    maker: Client, candle: TestCandle, trial: Trial
) -> None:
    page = text(maker, f"/trials/{trial.pk}/pour/")
    there = f"/trials/{trial.pk}/pour/begin/{candle.combination.candidate_id}/"
    form = page.partition(f'<form method="post" action="{there}">')[2].partition("</form>")[0]
    told = dict(re.findall(r'name="(\w+)" value="([^"]+)"', form))
    for _ in range(2):
        answer = maker.post(there, told)
    pour = Pour.objects.get()
    assert answer.headers["Location"] == at_bench(pour)
    assert (pour.load_percent, pour.basis, pour.wax_mg) == (8, "wax", 155_600)
    assert "Other load or lots" in page


def test_the_bench_says_what_to_weigh_and_with_which_care(maker: Client, pitcher: Pour) -> None:
    page = text(maker, at_bench(pitcher)).replace("\N{NO-BREAK SPACE}", " ")
    assert "Weigh the wax into pitcher A" in page
    assert "155.6 g of wax is in" in page
    assert "Wax on fire: lid on, no water." in page
    assert "Flash point of this oil 96 °C: keep flames away." in page


def test_a_flash_point_that_is_not_known_is_said(
    maker: Client, rhubarb: Candidate, wax: Wax, by: By
) -> None:
    pitcher = pouring.begin_pour(rhubarb, wax=wax, load_percent=8, **by)
    assert "Flash point of this oil: not known" in text(maker, at_bench(pitcher))


def test_the_oil_is_worked_out_for_the_wax_really_in_it(maker: Client, pitcher: Pour) -> None:
    maker.post(at_bench(pitcher, "weigh", "wax"), {"grams": "168.2", "step_g": "0.1"})
    maker.post(at_bench(pitcher, "weigh", "wax"), {"grams": "155.9", "step_g": "0.1"})
    page = text(maker, at_bench(pitcher))
    assert "for the 155.9 g of wax really in it: 8 % of wax, which is 7.41 % of the total" in page
    assert "12.5<span" in page
    assert "168.2 g, then 155.9 g: 12.3 g of wax went back." in page


def test_an_unlikely_temperature_is_asked_about_with_its_guess(
    maker: Client, pitcher: Pour
) -> None:
    told = {"step": "poured", "celsius": "147", "instrument": "probe"}
    page = maker.post(at_bench(pitcher, "read"), told).content.decode()
    assert "Did you mean 147 °F? That is 64 °C." in page
    assert 'name="celsius" value="64"' in page
    assert 'value="147"' in page
    assert not pitcher.temperatures.exists()


def test_what_was_so_all_the_same_is_noted(maker: Client, pitcher: Pour) -> None:
    told = {"step": "poured", "celsius": "38", "instrument": "probe", "sure": "typed"}
    maker.post(at_bench(pitcher, "read"), told)
    assert pitcher.temperatures.get().celsius == 38


def test_a_temperature_may_be_typed_in_fahrenheit(maker: Client, pitcher: Pour) -> None:
    maker.post(at_bench(pitcher, "read"), {"step": "poured", "celsius": "136 °F"})
    assert pitcher.temperatures.get().celsius == pytest.approx(57.8, abs=0.03)


def test_a_lost_decimal_point_is_asked_about_with_its_guess_ready(
    maker: Client, pitcher: Pour, by: By
) -> None:
    pouring.weigh(pitcher, what="wax", mg=155_600, **by)
    page = maker.post(at_bench(pitcher, "weigh", "oil"), {"grams": "124"}).content.decode()
    assert "Did you mean 12.4 g?" in page
    assert 'name="grams" value="12.4"' in page
    assert not pitcher.weighings.filter(what="oil").exists()


def test_the_bench_says_do_not_pour_it(
    maker: Client, pitcher: Pour, candle: TestCandle, by: By
) -> None:
    pouring.weigh(pitcher, what="wax", mg=155_600, **by)
    maker.post(at_bench(pitcher, "weigh", "oil"), {"grams": "16", "sure": "typed"})
    page = text(maker, at_bench(pitcher))
    assert "Do not pour pitcher A" in page
    assert "It holds 10.28 % of wax; the wax card allows 9 % of wax at most." in page
    assert "22.18 g more wax would bring it down to that: weigh the wax again." in page
    told = {"candles": [candle.pk], "stirred_min": "3", "note": ""}
    asked = maker.post(at_bench(pitcher, "poured"), told).content.decode()
    assert "Do not pour it. 22.18 g more wax" in asked
    assert "It was poured all the same: note it" in asked
    assert not pitcher.candles.exists()
    maker.post(at_bench(pitcher, "poured"), {**told, "sure": "typed"})
    assert pitcher.candles.count() == 1


def test_poured_candles_are_noted_and_cure(
    maker: Client, pitcher: Pour, candle: TestCandle
) -> None:
    maker.post(at_bench(pitcher, "weigh", "wax"), {"grams": "155.6", "step_g": "0.1"})
    maker.post(at_bench(pitcher, "weigh", "oil"), {"grams": "12.4", "step_g": "0.1"})
    told = {"candles": [candle.pk], "stirred_min": "3", "note": ""}
    for _ in range(2):
        maker.post(at_bench(pitcher, "poured"), told)
    candle.refresh_from_db()
    assert candle.pour == pitcher
    page = text(maker, f"/trials/{pitcher.candidate.trial_id}/cure/")
    assert "1 candle cures; the first is ready on Thursday 3 June 2027." in page
    assert "day 0 of 10" in page


def test_a_pour_of_an_earlier_day_shows_that_day(
    maker: Client, pitcher: Pour, candle: TestCandle
) -> None:
    told = {"candles": [candle.pk], "poured_on": "2027-05-12", "note": ""}
    maker.post(at_bench(pitcher, "poured"), told)
    bench = text(maker, at_bench(pitcher)).replace("\N{NO-BREAK SPACE}", " ")
    day = text(maker, f"/trials/{pitcher.candidate.trial_id}/pour/")
    day = day.replace("\N{NO-BREAK SPACE}", " ")
    assert "12 May" in bench
    assert "12 May" in day
    for page in (bench, day):
        assert "24 May" not in page
        assert "11:05" not in page
    assert "Poured on Wednesday 12 May 2027; noted by Ragnhild." in text(maker, "/candles/K7F/")


def test_cure_days_that_are_not_known_are_asked_for(
    maker: Client, pitcher: Pour, candle: TestCandle, wax: Wax, by: By
) -> None:
    pouring.pour_candles(pitcher, candles=[candle], **by)
    Wax.objects.update(cure_days=None)
    page = text(maker, f"/trials/{pitcher.candidate.trial_id}/cure/")
    assert "How many days does R-36 cure?" in page


def test_a_cured_candle_is_ready(maker: Client, pitcher: Pour, candle: TestCandle, by: By) -> None:
    early = by | {"now": by["now"] - timedelta(days=10)}
    pouring.pour_candles(pitcher, candles=[candle], **early)
    page = text(maker, f"/trials/{pitcher.candidate.trial_id}/cure/")
    assert "1 candle is cured: sniffs count from now on." in page


def test_swapped_tags_are_put_right_on_the_candles_page(
    maker: Client, candle: TestCandle, other_candle: TestCandle
) -> None:
    maker.post("/candles/K7F/swapped/", {"other": "m9c", "why": "the blotters told"})
    assert Swap.objects.get().why == "the blotters told"
    page = text(maker, "/candles/K7F/")
    assert "Rhubarb Cold Frame" in page
    assert "Tags of K7F and M9C were swapped; put right by Ragnhild." in page


def test_an_unknown_code_is_said(maker: Client, candle: TestCandle) -> None:
    page = maker.post("/candles/K7F/swapped/", {"other": "Z9Z", "why": "slip"}).content.decode()
    assert "No test candle has the code Z9Z." in page
    assert maker.get("/candles/Z9Z/").status_code == 404


def test_a_typing_slip_stays_visible(
    maker: Client, pitcher: Pour, candle: TestCandle, by: By
) -> None:
    pouring.weigh(pitcher, what="wax", mg=155_600, **by)
    wrong = pouring.weigh(pitcher, what="oil", mg=14_200, sure=True, **by)
    pouring.pour_candles(pitcher, candles=[candle], sure=True, **by)
    maker.post(f"/candles/K7F/slip/{wrong.pk}/", {"grams": "12.4", "why": "two figures changed"})
    page = text(maker, "/candles/K7F/").replace("\N{NO-BREAK SPACE}", " ")
    assert "<s>14.2 g</s>" in page
    assert "A weighing first typed as 14.2 g was 12.4 g; put right by Ragnhild." in page
    assert "two figures changed" in page


def test_a_pour_sheet_is_a_pdf(maker: Client, candle: TestCandle, trial: Trial) -> None:
    answer = maker.get(f"/trials/{trial.pk}/pour-sheet.pdf")
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


@pytest.mark.parametrize("page", ["", "pour/", "cure/"])
def test_tags_are_offered_before_the_address_is_set(
    maker: Client, candle: TestCandle, pitcher: Pour, trial: Trial, page: str
) -> None:
    TestCandle.objects.update(pour=pitcher, poured_on=date(2027, 5, 1))
    assert "-tags.pdf" in text(maker, f"/trials/{trial.pk}/{page}")


def test_an_assessor_sees_none_of_it(nose: Client, candle: TestCandle, trial: Trial) -> None:
    for path in ("/trials/", f"/trials/{trial.pk}/", "/candles/K7F/"):
        assert nose.get(path).status_code == 403


def test_a_load_of_total_shows_on_pour_day_and_on_its_candle(
    maker: Client, candle: TestCandle, wax: Wax, by: By
) -> None:
    pitcher = pouring.begin_pour(
        candle.combination.candidate, wax=wax, load_percent=8, basis="total", **by
    )
    pouring.weigh(pitcher, what="wax", mg=160_100, **by)
    pouring.weigh(pitcher, what="oil", mg=13_900, **by)
    pouring.pour_candles(pitcher, candles=[candle], **by)
    day = text(maker, f"/trials/{pitcher.candidate.trial_id}/pour/")
    assert "8.7 % of wax was weighed; the plan is 8 % of wax. It was dosed at 8 % of total." in day
    page = text(maker, "/candles/K7F/").replace("\N{NO-BREAK SPACE}", " ")
    assert "8.7 % of wax" in page
    assert "dosed at 8 % of total" in page


def test_what_was_weighed_is_hidden_once_a_sealed_candle_is_poured(
    maker: Client, candle: TestCandle, wax: Wax, by: By
) -> None:
    trial = candle.combination.candidate.trial
    plan.change_plan(trial, sealed=True, **by)
    pitcher = pouring.begin_pour(candle.combination.candidate, wax=wax, load_percent=8, **by)
    pouring.weigh(pitcher, what="wax", mg=173_700, **by)
    pouring.weigh(pitcher, what="wax", mg=160_100, **by)
    pouring.weigh(pitcher, what="oil", mg=13_900, **by)
    pouring.pour_candles(pitcher, candles=[candle], **by)
    for path in (f"/trials/{trial.pk}/pour/", at_bench(pitcher), "/candles/K7F/"):
        page = text(maker, path)
        assert "13.9" not in page, path
        assert "8.68" not in page, path
        assert "173.7" not in page, path


def test_a_wick_added_to_a_fixed_plan_gets_its_test_candle(
    maker: Client, candle: TestCandle, trial: Trial, by: By
) -> None:
    plan.fix_plan(trial, **by)
    told = {"wick": "flat cotton 5", "fixing": "", "wax": "R-36", "vessel": "stoneware cup"}
    which = {"candidate": candle.combination.candidate_id, "load_percent": "8"}
    maker.post(f"/trials/{trial.pk}/wicks/", {**told, **which})
    assert [str(one.combination.wick) for one in TestCandle.objects.order_by("pk")] == [
        "flat cotton 4",
        "flat cotton 5",
    ]


def test_only_candles_of_the_pitchers_load_are_ticked(
    maker: Client, candle: TestCandle, pitcher: Pour, wick: Wick, by: By
) -> None:
    weak = combined(candle.combination.candidate, wick, by, load_percent=6)
    plan.make_candle(weak, code="W3K", **by)
    pouring.weigh(pitcher, what="wax", mg=155_600, **by)
    pouring.weigh(pitcher, what="oil", mg=12_400, **by)
    page = text(maker, at_bench(pitcher))
    ticked = [part.split(">")[0] for part in page.split("<input")[1:] if "checked" in part[:200]]
    assert len(ticked) == 1
    assert f'value="{candle.pk}"' in ticked[0]
    assert "W3K" in page


def test_a_reading_at_an_end_of_the_window_is_one_press(
    maker: Client, pitcher: Pour, by: By
) -> None:
    assert "now</button>" not in text(maker, at_bench(pitcher))
    pouring.weigh(pitcher, what="wax", mg=155_600, **by)
    pouring.read_temperature(pitcher, step="melted", celsius=80, instrument="probe", **by)
    page = text(maker, at_bench(pitcher))
    assert "It shows 74 now" in page
    form = page.partition('data-entry="It shows 70 °C now"')[2].partition("</form>")[0]
    told = dict(re.findall(r'name="(\w+)" value="([^"]*)"', form))
    for _ in range(2):
        maker.post(at_bench(pitcher, "read"), told)
    (reading,) = pitcher.temperatures.filter(step="added oil")
    assert (reading.celsius, reading.instrument) == (70, "probe")


def test_a_wax_card_that_is_silent_has_no_reading_at_hand(
    maker: Client, pitcher: Pour, wax: Wax, by: By
) -> None:
    Wax.objects.filter(pk=wax.pk).update(add_oil_low_c=None, add_oil_high_c=None)
    pouring.weigh(pitcher, what="wax", mg=155_600, **by)
    assert "now</button>" not in text(maker, at_bench(pitcher))


def test_the_bench_has_its_pitcher_first_among_the_lanes_and_no_navigation(
    maker: Client, pitcher: Pour, other_candle: TestCandle, wax: Wax, by: By
) -> None:
    assert 'class="lanes"' not in text(maker, at_bench(pitcher))
    other = pouring.begin_pour(other_candle.combination.candidate, wax=wax, load_percent=8, **by)
    page = text(maker, at_bench(other))
    assert re.findall(r'lane__what" href="[^"]+">([^<]+)<', page) == [
        "Rhubarb Cold Frame",
        "Slate After Rain",
    ]
    assert page.count('aria-current="true"') == 1
    assert page.index("lanes") < page.index("Thermometer")
    assert "top__nav" not in page


def test_the_last_reading_stands_beside_the_box(maker: Client, pitcher: Pour, by: By) -> None:
    pouring.read_temperature(pitcher, step="melted", celsius=76.54, **by)
    assert "Last 76.5 °C at 11:05" in text(maker, at_bench(pitcher))


def test_the_pour_sheet_of_a_sealed_trial_ends_with_the_pour(
    maker: Client, pitcher: Pour, candle: TestCandle, trial: Trial, by: By
) -> None:
    plan.change_plan(trial, sealed=True, **by)
    sheet = f"/trials/{trial.pk}/pour-sheet.pdf"
    assert maker.get(sheet).status_code == 200
    pouring.pour_candles(pitcher, candles=[candle], **by)
    refused = maker.get(sheet)
    assert refused.status_code == 409
    assert "Print it again when the seal is open." in refused.content.decode()
    assert sheet not in text(maker, f"/trials/{trial.pk}/")


def test_a_sealed_candle_tells_no_wick_and_keeps_its_lot(
    maker: Client, candle: TestCandle, trial: Trial, wick: Wick, by: By
) -> None:
    lot = Lot.objects.create(code="FC4-2702", wick=wick)
    fit_out(candle, wick_lot=lot, **by)
    plan.change_plan(trial, sealed=True, **by)
    assert "FC4" not in text(maker, "/candles/K7F/")
    maker.post("/candles/K7F/fitted/", {"shelf": "upper shelf", "piece": ""})
    candle.refresh_from_db()
    assert (candle.shelf, candle.wick_lot) == ("upper shelf", lot)


def test_a_plan_that_comes_back_names_its_boxes_at_the_top(maker: Client, wax: Wax) -> None:
    told = {"question": "Which?", "name": "Spring", "choose": 1, "wax": "R-36", "scale": "1-5"}
    wrong = {"sealed": "no", "load_percent": "soon", "fill_g": "much"}
    page = maker.post("/trials/new/", {**told, **wrong}).content.decode()
    assert "2 boxes need you: " in page
    for box in ("load_percent", "fill_g"):
        assert f'<a href="#id_{box}">' in page
        assert re.search(rf'<input[^>]*aria-invalid="true"[^>]*id="id_{box}"', page)
    assert page.count("autofocus") == 1
