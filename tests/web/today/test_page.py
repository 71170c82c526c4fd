"""Today's page as it is sent."""

import re
from datetime import date, timedelta

import pytest

MIN = timedelta(minutes=1)


def test_a_new_workshop_is_taught_by_doing(maker):
    page = maker.get("/").text
    assert "Nothing is lit, nothing is due." in page
    assert "Three steps to a first verdict" in page
    assert page.count('aria-current="step"') == 1
    assert len(re.findall(r'class="act act--do"', page)) == 1


def test_lit_candles_lead_to_the_round(maker, lit, kitchen):
    lit("W8R", room=kitchen, ago=225 * MIN, kind="nose")
    page = maker.get("/").text
    assert "W8R is lit. Put it out by 11:20." in page
    assert 'href="/round/"' in page
    assert "3\N{NO-BREAK SPACE}h\N{NO-BREAK SPACE}45 lit, 15\N{NO-BREAK SPACE}min left" in page


def test_a_late_candle_is_the_heaviest_thing_on_the_page(maker, lit, kitchen):
    lit("W8R", room=kitchen, ago=290 * MIN)
    page = maker.get("/").text
    assert '<h1 class="say today__late">' in page
    assert "late since 10:15" in page
    assert "50\N{NO-BREAK SPACE}min too long" in page


def test_the_fire_line_stands_beside_lit_candles(maker, lit, kitchen):
    lit("W8R", room=kitchen, ago=60 * MIN)
    page = maker.get("/").text
    assert "Never leave a lit candle." in page
    assert "Wax on fire: lid on, no water." in page


def test_the_foot_stands_below(maker):
    assert "Local rules and a laboratory’s test stand above everything" in maker.get("/").text


def test_a_cure_leads_to_its_trial(maker, candle, trial):
    candle("G7A", poured_on=date(2027, 5, 15))
    page = maker.get("/").text
    assert "day 9 of 10" in page
    assert f'href="/trials/{trial.pk}/"' in page


def test_the_page_carries_no_styles_of_its_own(maker, lit, kitchen):
    lit("W8R", room=kitchen, ago=290 * MIN)
    assert "style=" not in maker.get("/").text


def test_the_page_names_no_oil_of_a_sealed_trial(maker, lit, kitchen, trial):
    trial.sealed = True
    trial.save()
    lit("W8R", room=kitchen, ago=60 * MIN)
    assert "Linen Loft" not in maker.get("/").text


@pytest.mark.parametrize("count", [1, 12])
def test_as_many_questions_for_many_candles_as_for_one(
    maker, lit, loft, count, django_assert_max_num_queries
):
    for number in range(count):
        lit(f"K{number}F", room=loft, ago=60 * MIN)
    with django_assert_max_num_queries(22):
        maker.get("/")
