"""A graded flare-up under a limit of the maker's own: the words decide only what they can."""

from datetime import datetime, timedelta
from typing import Any

import pytest

from throwbench.workshop.house.models import Person
from throwbench.workshop.house.services import set_house_limit
from throwbench.workshop.trials.asking import QuestionsError
from throwbench.workshop.trials.models import Burn, Check, TestCandle
from throwbench.workshop.trials.selectors.broken import judged, to_be_put_out
from throwbench.workshop.trials.services import burn as burning


@pytest.fixture
def lit(cured: TestCandle, owner: Person, now: datetime) -> Burn:
    at = now - timedelta(hours=2)
    return burning.light(cured, kind="wick", lit_at=at, who=owner, now=at)


def own_limit(seconds: float, *, owner: Person, now: datetime) -> dict[str, Any]:
    set_house_limit(rule="secondary-ignition", value=seconds, who=owner, now=now)
    return {"at": now, "who": owner, "now": now}


@pytest.mark.parametrize(
    ("grade", "own", "words"),
    [
        ("short", 5.0, "K7F has a flare-up of up to 10 s; the limit is at most 5 s"),
        ("long", 20.0, "K7F has a flare-up of longer than 10 s; the limit is at most 20 s"),
    ],
)
def test_words_that_do_not_tell_ask_for_the_seconds(*, lit, owner, now, grade, own, words) -> None:
    told = own_limit(own, owner=owner, now=now)
    with pytest.raises(QuestionsError) as asked:
        burning.check(lit, flare_up=grade, **told)
    assert words in str(asked.value)
    assert "Write the seconds" in str(asked.value)
    assert not Check.objects.exists()
    burning.check(lit, flare_up=grade, flare_up_s=own, **told)
    assert to_be_put_out([lit], now.date()) == {}


@pytest.mark.parametrize(("grade", "own"), [("short", 5.0), ("long", 20.0)])
def test_the_seconds_put_it_out(lit, owner, now, grade, own) -> None:
    told = own_limit(own, owner=owner, now=now)
    burning.check(lit, flare_up=grade, flare_up_s=own + 2, **told)
    said = f"flare-up {own + 2:g} s is over {own:g} s (house limit)"
    assert to_be_put_out([lit], now.date()) == {lit.pk: (said,)}


def test_without_its_seconds_the_limit_is_not_yet_known(lit, owner, now) -> None:
    told = own_limit(5.0, owner=owner, now=now)
    burning.check(lit, flare_up="short", sure=True, **told)
    found = judged([lit.candle], now.date())["K7F"]
    assert found.state == "not yet known"
    assert "Write the seconds" in (found.missing or "")
    assert to_be_put_out([lit], now.date()) == {}


def test_longer_than_10_s_is_longer_than_5_s(lit, owner, now) -> None:
    told = own_limit(5.0, owner=owner, now=now)
    burning.check(lit, flare_up="long", **told)
    said = "flare-up longer than 5 s (house limit)"
    assert to_be_put_out([lit], now.date()) == {lit.pk: (said,)}


@pytest.mark.parametrize("grade", ["none", "short"])
def test_under_the_limit_that_the_words_name_nothing_is_asked(lit, owner, now, grade) -> None:
    burning.check(lit, flare_up=grade, at=now, who=owner, now=now)
    assert Check.objects.get().flare_up == grade


def test_a_grade_put_right_beside_its_seconds_is_not_asked_about(lit, owner, now) -> None:
    told = own_limit(5.0, owner=owner, now=now)
    noted = burning.check(lit, flare_up="none", flare_up_s=4.0, **told)
    slip = {"field": "flare_up", "value": "short", "why": "slip", "who": owner, "now": now}
    burning.put_check_right(noted, **slip)
    assert Check.objects.get().flare_up == "short"


def test_the_seconds_are_written_afterwards(lit, owner, now) -> None:
    noted = burning.check(lit, flare_up="short", at=now, who=owner, now=now)
    own_limit(5.0, owner=owner, now=now)
    assert judged([lit.candle], now.date())["K7F"].state == "not yet known"
    slip = {"field": "flare_up_s", "value": 7.0, "why": "timed", "who": owner, "now": now}
    burning.put_check_right(noted, **slip)
    assert judged([lit.candle], now.date())["K7F"].state == "broken"
