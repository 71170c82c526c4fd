"""Sittings, cures and what wants a look."""

from datetime import date, timedelta

import pytest

from throwbench.web.today.checks import checks
from throwbench.web.today.cures import cures_soon
from throwbench.web.today.sittings import open_panels
from throwbench.web.today.steps import steps
from throwbench.workshop.house.models import Person
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.panel.models import Panel, Seat, Sitting, Sniff
from throwbench.workshop.shelf.models import Lot, Paper, Piece
from throwbench.workshop.trials.models import Burn, Pour, Weighing

TODAY = date(2027, 5, 24)
DAY = timedelta(days=1)


@pytest.fixture
def panel(trial, owner, now, candle, kitchen):
    made = Panel.objects.create(trial=trial, day=TODAY, opened_at=now, opened_by=owner)
    for tag, code in (("417", "K2F"), ("902", "W8R")):
        Seat.objects.create(panel=made, candle=candle(code), room=kitchen, tag=tag)
    return made


def sits(panel: Panel, name: str, **more) -> Sitting:
    return Sitting.objects.create(panel=panel, assessor=Person.objects.create(name=name), **more)


def sniffed(sitting: Sitting, tag: str, at) -> None:
    seat = sitting.panel.seats.get(tag=tag)
    Sniff.objects.create(sitting=sitting, seat=seat, at=at, way="hand-round")


def test_who_has_not_begun_can_begin_now(panel, now):
    sits(panel, "Tor")
    (open_panel,) = open_panels(now)
    (row,) = open_panel.waiting
    assert (row.name, row.at, row.tags, row.rests) == ("Tor", now, ("417", "902"), False)


def test_who_has_just_sniffed_is_in_clean_air_until_then(panel, now):
    tor = sits(panel, "Tor")
    sniffed(tor, "417", now - timedelta(minutes=2))
    (row,) = open_panels(now)[0].waiting
    assert (row.at, row.tags, row.rests) == (now + timedelta(minutes=3), ("902",), True)
    assert row.chip == "1 of 2 answered"


def test_who_may_begin_is_told_no_time(maker, panel, now):
    tor = sits(panel, "Tor")
    assert '<span class="ledger__when">now<small>Tor' in maker.get("/").text
    sniffed(tor, "417", now - timedelta(minutes=2))
    assert '<span class="ledger__when">11:08<small>Tor' in maker.get("/").text


def test_who_has_answered_all_or_sits_out_is_not_waited_for(panel, now):
    isak = sits(panel, "Isak")
    for tag in ("417", "902"):
        sniffed(isak, tag, now)
    sits(panel, "Tor")
    sits(panel, "Maren", sits_out=True)
    (open_panel,) = open_panels(now)
    assert [row.name for row in open_panel.waiting] == ["Tor"]
    assert open_panel.sentence == "1 of 2 noses still to come"


def test_a_closed_panel_waits_for_nobody(panel, now):
    sits(panel, "Tor")
    panel.closed_at = now
    panel.save()
    assert open_panels(now) == ()


@pytest.mark.parametrize(
    ("poured_on", "when", "chip"),
    [
        (date(2027, 5, 14), "today", "day 10 of 10"),
        (date(2027, 5, 15), "tomorrow", "day 9 of 10"),
        (date(2027, 5, 21), "in 7 days", "day 3 of 10"),
    ],
)
def test_a_cure_is_told_from_a_week_ahead(candle, poured_on, when, chip):
    candle("G7A", poured_on=poured_on)
    (cure,) = cures_soon(TODAY)
    assert (cure.when, cure.chip, cure.codes) == (when, chip, ("G7A",))


@pytest.mark.parametrize("poured_on", [date(2027, 5, 13), date(2027, 5, 22), None])
def test_a_cure_that_is_over_or_far_off_is_not(candle, poured_on):
    candle("G7A", poured_on=poured_on)
    assert cures_soon(TODAY) == ()


def test_a_candle_that_was_ended_cures_no_more(candle, now):
    candle("G7A", poured_on=date(2027, 5, 14), ended_at=now)
    assert cures_soon(TODAY) == ()


def test_a_wax_card_without_days_foretells_nothing(candle, combination):
    combination.wax.cure_days = None
    combination.wax.save()
    candle("G7A", poured_on=date(2027, 5, 14))
    assert cures_soon(TODAY) == ()


def test_candles_of_one_trial_and_day_stand_in_one_line(candle):
    for code in ("G7A", "H2K"):
        candle(code, poured_on=date(2027, 5, 15), shelf="cupboard, second shelf")
    (cure,) = cures_soon(TODAY)
    assert (cure.shown, cure.shelves) == ("G7A H2K", ("cupboard, second shelf",))


def test_many_candles_are_counted(candle):
    for number in range(20):
        candle(f"G{number}A", poured_on=date(2027, 5, 15))
    assert cures_soon(TODAY)[0].shown.endswith("… 20 in all")


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def said(now) -> list[str]:
    return [plain(finding.what) for finding in checks(now=now, today=TODAY)]


def test_nothing_to_check_says_nothing(now):
    assert said(now) == []


@pytest.fixture
def cup(combination, owner, now):
    return Piece(
        vessel=combination.vessel,
        name="Cup 7",
        flaw="structural",
        flaw_note="chip at the rim",
        flaw_seen_by=owner,
        flaw_seen_at=now - timedelta(hours=17, minutes=25),
    )


def test_a_chip_bars_the_vessel(now, cup):
    cup.save()
    (finding,) = checks(now=now, today=TODAY)
    assert finding.what == "Cup 7 (stoneware cup): chip at the rim. It is barred from every burn."
    assert finding.why.startswith("Seen by Ragnhild on Sunday 23 May 2027 at 17:40.")


@pytest.mark.parametrize("flaw", ["none", "cosmetic"])
def test_a_flaw_that_bars_nothing_is_no_news(now, cup, flaw):
    cup.flaw = flaw
    cup.save()
    assert said(now) == []


def test_an_old_chip_is_no_news(now, cup):
    cup.flaw_seen_at = now - 29 * DAY
    cup.save()
    assert said(now) == []


@pytest.fixture
def lots(combination):
    wick = combination.wick
    old = Lot.objects.create(code="A", wick=wick, came_on=date(2027, 3, 1))
    return old, Lot.objects.create(code="B", wick=wick, came_on=date(2027, 5, 20))


def test_a_changed_wick_lot_asks_for_a_burn_on_the_new_one(now, lots, candle):
    candle("K2F", wick_lot=lots[0])
    candle("W8R", wick_lot=lots[0])
    (finding,) = checks(now=now, today=TODAY)
    assert finding.what == "The wick 4 lot (flat cotton) changed on 20 May: B after A."
    assert finding.why.startswith("Two candles stand on an older lot.")


def test_a_burn_on_the_new_lot_settles_it(now, lots, candle, owner):
    candle("K2F", wick_lot=lots[0])
    new = candle("W8R", wick_lot=lots[1])
    Burn.objects.create(
        candle=new, number=1, kind="wick", lit_at=now - DAY, lit_by=owner, out_by_at=now
    )
    assert said(now) == []


def test_a_new_lot_that_nothing_stands_on_is_no_news(now, lots):
    assert said(now) == []


def paper(combination, valid_until: date) -> None:
    Paper.objects.create(
        oil=combination.candidate.oil,
        kind="conformity certificate",
        dated=valid_until - 365 * DAY,
        valid_until=valid_until,
    )


def test_a_certificate_that_ran_out_is_told(now, combination):
    paper(combination, date(2027, 1, 31))
    Paper.objects.create(
        oil=combination.candidate.oil, kind="conformity certificate", asked_on=date(2027, 5, 3)
    )
    (finding,) = checks(now=now, today=TODAY)
    assert plain(finding.what) == "The conformity certificate of Linen Loft ran out on 31 Jan 2027."
    assert "Sell none before Tarnholt Riechstoffe has sent a new one." in finding.why
    assert finding.why.endswith("Asked for on 3 May 2027.")


def test_a_certificate_holds_on_its_last_day_and_is_told_before(now, combination):
    paper(combination, TODAY)
    assert said(now) == ["The conformity certificate of Linen Loft runs out on 24 May 2027."]


def test_a_newer_version_settles_it(now, combination):
    paper(combination, date(2027, 1, 31))
    paper(combination, date(2028, 1, 31))
    assert said(now) == []


@pytest.mark.parametrize(("weighed_g", "told"), [(850, True), (700, False), (995, False)])
def test_a_lot_of_which_little_is_left_is_told(now, combination, owner, weighed_g, told):
    lot = Lot.objects.create(code="April", wax=combination.wax, amount_mg=1_000_000)
    pour = Pour.objects.create(
        candidate=combination.candidate,
        wax=combination.wax,
        wax_lot=lot,
        load_percent=8,
        begun_at=now,
        begun_by=owner,
    )
    for mg in (990_000, weighed_g * 1000):
        Weighing.objects.create(pour=pour, what="wax", mg=mg, who=owner, at=now)
    found = said(now)
    assert bool(found) is told
    if told:
        assert found == ["R-36: 150 g of lot April left."]


def test_a_new_workshop_has_three_steps_and_one_button():
    assert [(step.done, step.is_next) for step in steps()] == [
        (False, True),
        (False, False),
        (False, False),
    ]


def test_the_button_goes_on_with_the_work(combination, kitchen):
    assert [(step.done, step.is_next) for step in steps()] == [
        (True, False),
        (True, False),
        (False, True),
    ]
    assert steps()[2].address == "trials:light"


def test_without_a_room_the_last_step_says_so_and_leads_to_one(combination):
    assert "No room is there yet" in steps()[2].words
    assert (steps()[2].address, steps()[2].button) == ("house:rooms", "Add a first room")


def test_with_a_room_no_step_speaks_of_one(combination, kitchen):
    assert not any("room" in step.words for step in steps())


def test_a_burn_leads_back_to_the_trial(lit, kitchen):
    lit("K2F", room=kitchen, ago=timedelta(hours=1))
    assert steps()[2].address == "trials:index"


def test_with_a_first_verdict_the_steps_are_gone(trial, now):
    Judgement.objects.create(
        trial=trial, digest="x", engine="0", day=TODAY, made_at=now, archive=b"", verdict="{}"
    )
    assert steps() == ()
