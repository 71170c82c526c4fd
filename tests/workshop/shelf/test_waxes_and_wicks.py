"""Waxes with their cards, wicks and fixings."""

import pytest
from django.core.exceptions import ValidationError

from throwbench.workshop.house.corrections import corrections_of
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.shelf.selectors.oil import changes_of
from throwbench.workshop.shelf.selectors.wax import card_rows, wax_rows, wax_sentence

CARD = {
    "melts_at_c": 46, "never_above_c": 85, "add_oil_low_c": 70, "add_oil_high_c": 74,
    "stir_min": 3, "pour_low_c": 56, "pour_high_c": 60, "cure_days": 10, "max_load_percent": 9,
    "liquid_g_ml": 0.86, "solid_g_ml": 0.91,
}  # fmt: skip


@pytest.fixture
def wax(by) -> Wax:
    return services.add_wax(name="R-36", **CARD, **by)


def test_a_card_reads_in_the_order_of_the_work(wax):
    rows = [f"{row.step}: {row.says}".replace("\xa0", " ") for row in card_rows(wax)]
    assert rows == [
        "Melts at: 46 °C", "Never above: 85 °C", "Maximum load of wax: 9 % of wax",
        "Add oil at: 70 to 74 °C", "Stir: 3 min", "Pour at: 56 to 60 °C", "Cure: 10 days",
        "Density, liquid: 0.86 g/ml", "Density, solid: 0.91 g/ml",
    ]  # fmt: skip


def test_a_wax_says_first_how_it_is_worked(wax):
    said = wax_sentence(wax).replace("\xa0", " ")
    assert said == "Takes its oil at 70 to 74 °C and is poured at 56 to 60 °C."


def test_a_card_of_which_little_is_known_says_how_much_is_missing(by):
    wax = services.add_wax(name="R-40", melts_at_c=46, **by)
    assert wax_sentence(wax) == "Of its card eight of nine lines are not known yet."
    assert card_rows(wax)[1].says == "not known"


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (70, 70, "70 °C"),
        (70, None, "from 70 °C"),
        (None, 74, "up to 74 °C"),
        (None, None, "not known"),
    ],
)
def test_half_a_range_is_said_as_half(by, low, high, said):
    services.add_wax(name="R-40", add_oil_low_c=low, add_oil_high_c=high, **by)
    assert wax_rows()[0].add_oil.replace("\xa0", " ") == said


def test_a_new_card_may_move_both_ends_of_a_range_at_once(wax, by):
    services.change_wax(wax, add_oil_low_c=76, add_oil_high_c=80, why="card of 2027", **by)
    wax.refresh_from_db()
    assert (wax.add_oil_low_c, wax.add_oil_high_c) == (76, 80)
    assert {row.why for row in corrections_of([wax])} == {"card of 2027"}


def test_a_changed_card_says_what_it_was(wax, by):
    services.change_wax(wax, max_load_percent=None, **by)
    [row] = changes_of(wax)
    assert row.what == "Maximum load [% of wax]: 9 became not known"
    assert row.why == "Ragnhild: new paper"


def test_a_card_that_cannot_be_changes_nothing(wax, by):
    with pytest.raises(ValidationError, match="“Add oil at” goes above"):
        services.change_wax(wax, never_above_c=72, cure_days=12, **by)
    assert Wax.objects.get().cure_days == 10
    assert corrections_of([wax]) == []


def test_a_wick_is_a_series_and_a_size(by):
    wick = services.add_wick(series=" flat cotton ", size=" 4 ", material="cotton", **by)
    assert str(wick) == "flat cotton 4"


def test_a_fixing_is_glue_or_a_sticker(by):
    assert services.add_fixing(name="high-melt glue", kind="glue", **by).kind == "glue"
    with pytest.raises(ValidationError):
        services.add_fixing(name="nail", kind="nail", **by)
