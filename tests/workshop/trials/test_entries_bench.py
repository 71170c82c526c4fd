"""What was pressed at the bench comes through the door: questions are told, presses keep order."""

from datetime import timedelta

import pytest

from sending import Device, said
from throwbench.workshop.house.models import Entry
from throwbench.workshop.trials.models import Pour, Temperature, Weighing
from throwbench.workshop.trials.services import pour as pouring

MINUTE = timedelta(minutes=1)


@pytest.fixture
def device(maker, now) -> Device:
    return Device(maker, now)


@pytest.fixture
def pour(slate, wax, by) -> Pour:
    return pouring.begin_pour(slate, wax=wax, load_percent=8, wax_mg=400_000, **by)


def at(pour: Pour, what: str) -> str:
    return f"/trials/{pour.candidate.trial_id}/pour/{pour.pk}/{what}/"


def test_a_weighing_is_noted_at_the_time_of_its_press(device, pour, now):
    answer = device.send(
        device.entry(at(pour, "weigh/wax"), [("grams", "400,5")], pressed=now - 9 * MINUTE)
    )
    assert (answer.status_code, answer.json()["outcome"]) == (200, "kept")
    kept = Weighing.objects.get()
    assert (kept.mg, kept.at) == (400_500, now - 9 * MINUTE)


def test_an_unlikely_weighing_is_asked_about_and_nothing_is_noted(device, pour):
    pouring.weigh(pour, what="wax", mg=400_000, who=pour.begun_by, now=device.now)
    answer = device.send(device.entry(at(pour, "weigh/oil"), [("grams", "320")]))
    assert (answer.status_code, answer.json()["outcome"]) == (422, "asks")
    assert "32" in said(answer)
    assert not Weighing.objects.filter(what="oil").exists()
    assert not Entry.objects.exists()


def test_a_temperature_outside_the_card_is_asked_about_and_can_be_confirmed(device, pour):
    told = [("step", "poured"), ("celsius", "50"), ("instrument", "")]
    answer = device.send(device.entry(at(pour, "read"), told))
    assert "Pour temperature is 50 °C; the wax card says 56–60 °C." in said(answer)
    sure = device.send(device.entry(at(pour, "read"), [*told, ("sure", "typed")]))
    assert sure.json()["outcome"] == "kept"
    assert Temperature.objects.get().celsius == 50


def test_a_box_that_is_not_read_is_told(device, pour):
    answer = device.send(device.entry(at(pour, "weigh/wax"), [("grams", "many")]))
    assert answer.json()["outcome"] == "asks"
    assert "many" in said(answer)


def test_the_last_weighing_is_the_one_pressed_last(device, pour, now):
    """A laptop and a phone at one bench: what was pressed first may come last."""
    first, last = (
        device.entry(at(pour, "weigh/wax"), [("grams", grams)], pressed=now - ago * MINUTE)
        for grams, ago in (("402", 8), ("400", 2))
    )
    for body in (last, first):
        assert device.send(body).json()["outcome"] == "kept"
    assert [one.mg for one in pour.weighings.all()] == [402_000, 400_000]
