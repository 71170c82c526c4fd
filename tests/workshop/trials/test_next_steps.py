"""Each page of a trial's road has its next step as a button; an empty wax card is asked for."""

from datetime import date, datetime
from typing import Any

import pytest
from django.test import Client

from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models import Candidate, TestCandle, Trial
from throwbench.workshop.trials.selectors.trial_list import done_of
from throwbench.workshop.trials.services import plan
from workshop.trials.conftest import poured

By = dict[str, Any]


def page_of(maker: Client, trial: Trial, step: str) -> str:
    return maker.get(f"/trials/{trial.pk}/{step}/").content.decode()


def test_before_the_pour_the_cure_leads_to_the_pitchers(
    maker: Client, candle: TestCandle, trial: Trial
) -> None:
    page = page_of(maker, trial, "cure")
    assert f'<a class="act act--do" href="/trials/{trial.pk}/pour/">To the pitchers</a>' in page


@pytest.mark.parametrize(
    ("day", "button"),
    [
        (date(2027, 5, 20), "See the burns"),
        (date(2027, 5, 1), "Burn and sniff"),
    ],
)
def test_the_cure_has_its_next_step_as_its_one_button(
    maker: Client, candle: TestCandle, trial: Trial, day: date, button: str
) -> None:
    poured(candle, day)
    page = page_of(maker, trial, "cure")
    assert page.count("act--do") == 1
    assert page.partition("act--do")[2].partition("</a>")[0].endswith(button)


def test_a_cure_of_unknown_days_leads_to_the_wax_card(
    maker: Client, candle: TestCandle, trial: Trial
) -> None:
    poured(candle, date(2027, 5, 20))
    Wax.objects.update(cure_days=None)
    page = page_of(maker, trial, "cure")
    assert page.partition("act--do")[2].partition("</a>")[0].endswith("Fill in the wax card")


def test_pour_day_asks_for_an_empty_wax_card(
    maker: Client, candle: TestCandle, trial: Trial
) -> None:
    assert "wax card of R-36" not in page_of(maker, trial, "pour")
    Wax.objects.update(never_above_c=None)
    page = page_of(maker, trial, "pour")
    assert "The wax card of R-36 does not say how hot it may be: fill it in." in page
    Wax.objects.update(
        melts_at_c=None, add_oil_low_c=None, add_oil_high_c=None, stir_min=None,
        pour_low_c=None, pour_high_c=None,
    )  # fmt: skip
    page = page_of(maker, trial, "pour")
    assert "The wax card of R-36 is empty: fill it in." in page
    assert f"/shelf/waxes/{Wax.objects.get().pk}/" in page


def test_the_cure_names_the_oil_beside_its_code_unless_it_is_sealed(
    maker: Client, cured: TestCandle, trial: Trial, by: By
) -> None:
    assert "Slate After Rain · poured on" in page_of(maker, trial, "cure")
    plan.change_plan(trial, sealed=True, **by)
    assert "Slate" not in page_of(maker, trial, "cure")


class TestTheRoadTicksWhatIsDone:
    def test_nothing_is_done_before_there_is_a_candle(self, slate: Candidate) -> None:
        assert done_of(slate.trial) == frozenset()

    def test_a_candle_is_planned_then_poured_then_lit(
        self, candle: TestCandle, other_candle: TestCandle, now: datetime
    ) -> None:
        trial = candle.combination.candidate.trial
        assert done_of(trial) == {"plan"}
        poured(candle)
        assert done_of(trial) == {"plan"}
        poured(other_candle)
        assert done_of(trial) == {"plan", "pour"}
        TestCandle.objects.update(ended_at=now)
        assert done_of(trial) == {"plan", "pour", "cure"}

    def test_the_page_says_it_in_words(self, maker: Client, candle: TestCandle) -> None:
        page = maker.get(f"/trials/{candle.combination.candidate.trial_id}/pour/").content.decode()
        assert '<span class="unseen">done: </span><span class="road__word">Plan' in page
