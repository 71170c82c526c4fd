"""Before a nose sniffs, the maker is told which candle is not lit, and for how long one is."""

import re
from datetime import timedelta

import pytest

from throwbench.workshop.panel import services
from throwbench.workshop.panel.selectors.flames import flames_of
from throwbench.workshop.trials.models import Burn
from workshop.panel.conftest import WHOLE

MINUTE = timedelta(minutes=1)


@pytest.fixture
def burn(candles, owner, now):
    """A burn of one candle, so many minutes before now."""

    def lit(minutes, *, place=0, kind="nose", out=None):
        at = now - minutes * MINUTE
        return Burn.objects.create(
            candle=candles[place], number=1, kind=kind, lit_at=at, lit_by=owner, out_by_at=at,
            out_at=None if out is None else now - out * MINUTE,
        )  # fmt: skip

    return lit


@pytest.fixture
def page(maker, panel):
    def text():
        got = maker.get(f"/trials/{panel.trial_id}/panels/{panel.pk}/")
        assert got.status_code == 200
        return got.text.replace("\N{NO-BREAK SPACE}", " ")

    return text


@pytest.fixture
def flame(panel, now):
    """Of the first candle."""

    def first():
        return flames_of(panel, list(panel.seats.all()), now)[0]

    return first


@pytest.mark.parametrize(
    ("told", "said", "sentence"),
    [
        ({"minutes": 1}, "lit 1 min ago", "K7F was lit 1 min ago. Hot throw is mostly sniffed from "
         "11:34 on; a score before that counts, and the verdict says how soon it was."),
        ({"minutes": 29}, "lit 29 min ago", "K7F was lit 29 min ago."),
        ({"minutes": 30}, "lit 30 min ago", ""),
        ({"minutes": 135}, "lit 2 h 15 ago", ""),
        ({"minutes": 95, "kind": "wick"}, "lit 1 h 35 ago, wick burn",
         "K7F is lit as a wick burn: a score of it is shown and not counted."),
        ({"minutes": 95, "out": 20}, "not lit",
         "K7F is not lit. A score given now is shown and not counted."),
    ],
    ids=str,
)  # fmt: skip
def test_what_is_said_of_a_flame(burn, flame, told, said, sentence):
    burn(**told)
    assert flame().said == said
    assert flame().sentence.startswith(sentence)
    assert bool(flame().sentence) == bool(sentence)


def test_of_one_never_lit_nobody_knows(flame):
    assert flame().said == "no burn of it is noted"
    assert flame().sentence == "K7F: no burn of it is noted. A score counts as of a lit candle."


def test_one_that_is_not_lit_can_be_lit_from_there(burn, page):
    burn(95, out=20)
    burn(1, place=1)
    burn(95, place=2)
    text = page()
    assert "K7F is not lit. A score given now is shown and not counted." in text
    assert "M9C was lit 1 min ago." in text
    assert re.findall(r'href="(/light/\?candle=[^"]*)"', text) == ["/light/?candle=K7F"]
    assert "T4H is" not in text
    assert "lit 1 h 35 ago" in text


def test_once_all_have_answered_or_it_is_closed_nothing_is_asked(burn, page, panel, owner, now):
    burn(95, out=20)
    for sitting in panel.sittings.all():
        services.sit_out(sitting, who=owner, now=now)
    assert "K7F is not lit" not in page()
    services.close_panel(panel, who=owner, now=now)
    assert "not lit" not in page()
    assert flames_of(panel, list(panel.seats.all()), now) == ()


@pytest.mark.parametrize("asks", [one for one in WHOLE if one != "lit"])
def test_no_other_panel_asks_for_a_flame(opened, burn, asks, now):
    burn(95, out=20)
    panel = opened(asks)
    assert flames_of(panel, list(panel.seats.all()), now) == ()


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"minutes": 95, "out": 20}, "At 11:05 this candle was not lit. Tell the maker before you"),
        ({"minutes": 1, "kind": "wick"}, "This candle was lit 1 min ago."),
        ({"minutes": 95, "kind": "wick"}, ""),
        (None, ""),
    ],
    ids=str,
)
def test_a_nose_is_told_without_code_and_kind(nose, panel, burn, *, told, words):
    if told:
        burn(**told)
    page = nose.get("/nose/417/").text
    assert words in page
    assert ("this candle was" in page.lower()) == bool(words)
    assert "K7F" not in page
    assert "wick" not in page
