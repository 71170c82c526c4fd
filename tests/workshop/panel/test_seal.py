"""A sealed trial is sealed while a panel is open, and opens with the last that closes."""

from datetime import timedelta

from throwbench.workshop.panel import services
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.services import plan


def test_closing_the_last_panel_opens_the_seal(opened, trial, by, now):
    panel = opened()
    assert Trial.objects.get().is_sealed
    services.close_panel(panel, **by)
    assert Trial.objects.get().unsealed_at == now


def test_another_open_panel_keeps_the_seal(opened, by):
    first, second = opened(), opened("unlit", tags=["100", "200", "300"])
    services.close_panel(first, **by)
    assert Trial.objects.get().is_sealed
    services.close_panel(second, **by)
    assert not Trial.objects.get().is_sealed


def test_the_next_panel_seals_again(opened, by):
    services.close_panel(opened(), **by)
    opened(tags=None)
    assert Trial.objects.get().is_sealed


def test_opened_by_hand_the_next_panel_seals_again(opened, trial, by):
    plan.break_seal(trial, why="a candle leaked", **by)
    opened()
    assert Trial.objects.get().is_sealed
    assert trial.seal_breaks.count() == 1


def test_a_trial_that_was_never_sealed_stays_open(opened, trial, by):
    Trial.objects.update(sealed=False)
    trial.refresh_from_db()
    services.close_panel(opened(), **by)
    assert Trial.objects.get().unsealed_at is None


def test_closed_twice_it_keeps_its_first_time(panel, owner, now):
    services.close_panel(panel, who=owner, now=now)
    services.close_panel(panel, who=owner, now=now + timedelta(hours=1))
    assert panel.closed_at == now
