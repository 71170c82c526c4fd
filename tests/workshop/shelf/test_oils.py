"""Oils: typed in a line, typed in a form, and their facts put right."""

import pytest
from django.core.exceptions import ValidationError

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.corrections import corrections_of
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Oil, Supplier


def test_one_line_makes_an_oil_and_its_supplier(by):
    made = services.oil_from_line("slate rain, Tarnholt, 8 %, wick 4", **by)
    assert made.oil.name == "slate rain"
    assert made.oil.supplier.name == "Tarnholt"
    assert (made.read.load_percent, made.read.wick) == (8, "4")


def test_the_line_stays_with_its_oil_word_for_word(by):
    line = "slate rain, Tarnholt, 8 %, wick 4, came in a blue bottle"
    made = services.oil_from_line(line, **by)
    assert Oil.objects.get().as_typed == line
    assert made.read.not_understood == ("came in a blue bottle",)


def test_facts_in_the_line_become_facts_of_the_oil(by):
    oil = services.oil_from_line("slate rain, flash 200F, density 0,97, vanillin 0.3 %", **by).oil
    assert oil.flash_c == pytest.approx(93.333, abs=0.001)
    assert (oil.density_g_ml, oil.vanillin_percent, oil.supplier) == (0.97, 0.3, None)


def test_an_oil_of_which_only_the_name_is_known_is_kept(by):
    oil = services.add_oil(name=" Goat Willow ", supplier=None, **by)
    oil.refresh_from_db()
    assert (oil.name, oil.flash_c, oil.soap_browns) == ("Goat Willow", None, None)


def test_a_line_that_is_refused_leaves_no_supplier_behind(by):
    services.oil_from_line("slate rain, Tarnholt", **by)
    with pytest.raises(ValidationError, match="stands on the shelf already"):
        services.oil_from_line("slate rain, Tarnholt", **by)
    with pytest.raises(ValidationError, match="Vanillin is 0 to 100 %"):
        services.oil_from_line("other, Fjellrype Duft, vanillin 400 %", **by)
    assert [row.name for row in Supplier.objects.all()] == ["Tarnholt"]


def test_a_changed_fact_keeps_what_it_was(by):
    oil = services.add_oil(name="Linen Loft", supplier=None, flash_c=85, **by)
    services.change_oil(oil, flash_c=88, why="sheet 5", **by)
    [kept] = corrections_of([oil])
    assert (kept.field, kept.was, kept.became, kept.why) == ("flash_c", "85", "88", "sheet 5")


def test_a_change_without_a_reason_is_for_a_new_paper(by):
    oil = services.add_oil(name="Linen Loft", supplier=None, **by)
    services.change_oil(oil, flash_c=88, why=" ", **by)
    assert [(row.was, row.why) for row in corrections_of([oil])] == [("", "new paper")]


def test_what_did_not_change_is_not_kept_as_changed(by):
    oil = services.add_oil(name="Linen Loft", supplier=None, flash_c=85, **by)
    assert services.change_oil(oil, flash_c=85, idea="", **by) == []


def test_a_fact_that_no_oil_has_is_a_slip_of_the_program(by):
    with pytest.raises(TypeError, match="colour"):
        services.add_oil(name="Linen Loft", supplier=None, colour="blue", **by)


@pytest.mark.parametrize("written", ["Tarnholt Riechstoffe", "tarnholt  riechstoffe", "TARNHOLT"])
def test_a_supplier_is_found_by_name_or_first_word(by, written):
    there = services.add_supplier(name="Tarnholt Riechstoffe", **by)
    assert services.supplier_named(written) == there


def test_a_first_word_that_fits_two_suppliers_finds_neither(by):
    services.add_supplier(name="Tarnholt Riechstoffe", **by)
    services.add_supplier(name="Tarnholt Duft", **by)
    assert services.supplier_named("Tarnholt").name == "Tarnholt"


def test_half_a_word_makes_a_supplier_of_its_own(by):
    there = services.add_supplier(name="Tarnholt Riechstoffe", **by)
    assert services.supplier_named("Tarn") != there


def test_no_name_is_no_supplier(db):
    assert services.supplier_named("  ") is None
    assert not Supplier.objects.exists()


def test_a_line_without_a_name_is_refused(by):
    with pytest.raises(UnclearError, match="“8 %” is not a name"):
        services.oil_from_line("8 %, wick 4", **by)
