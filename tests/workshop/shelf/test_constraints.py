"""What the tables of the shelf refuse, each with its sentence, and what they just accept."""

from datetime import date

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.db.models import Model

from throwbench.workshop.shelf import models

DAY = date(2026, 2, 3)


def wax(**card) -> models.Wax:
    return models.Wax(name="R-36", **card)


def oil(**facts) -> models.Oil:
    return models.Oil(name="Slate After Rain", **facts)


def vessel(**facts) -> models.Vessel:
    return models.Vessel(name="cup", **facts)


def paper(**days) -> models.Paper:
    kept, _ = models.Oil.objects.get_or_create(name="Slate After Rain")
    return models.Paper(oil=kept, kind="safety data sheet", **days)


def lot(**facts) -> models.Lot:
    kept, _ = models.Wax.objects.get_or_create(name="R-36")
    return models.Lot(**{"code": "R36-2702", "wax": kept, **facts})


def oil_lot(**facts) -> models.Lot:
    kept, _ = models.Oil.objects.get_or_create(name="Slate After Rain")
    return lot(oil=kept, **facts)


def part(parts: float) -> models.BlendPart:
    kept, _ = models.Oil.objects.get_or_create(name="Softer Rope")
    of, _ = models.Oil.objects.get_or_create(name="Ferry Rope")
    blend, _ = models.Blend.objects.get_or_create(oil=kept, made_at="2027-05-24T09:05Z")
    return models.BlendPart(blend=blend, oil=of, parts=parts)


ACCEPTED = {
    "an oil of which nothing is known": oil,
    "density at both ends": lambda: oil(density_g_ml=0.5),
    "density at its end": lambda: oil(density_g_ml=2),
    "flash point at its low end": lambda: oil(flash_c=-50),
    "flash point at its high end": lambda: oil(flash_c=400),
    "vanillin of none": lambda: oil(vanillin_percent=0),
    "vanillin alone": lambda: oil(vanillin_percent=100),
    "soap maximum": lambda: oil(soap_max_percent=100),
    "a card of which nothing is known": wax,
    "melts just below": lambda: wax(melts_at_c=84.9, never_above_c=85),
    "one heat to add at": lambda: wax(add_oil_low_c=70, add_oil_high_c=70),
    "adds at the maximum": lambda: wax(add_oil_high_c=85, never_above_c=85),
    "one heat to pour at": lambda: wax(pour_low_c=60, pour_high_c=60),
    "pours at the maximum": lambda: wax(pour_high_c=85, never_above_c=85),
    "coldest": lambda: wax(melts_at_c=0),
    "hottest": lambda: wax(never_above_c=200),
    "no stirring": lambda: wax(stir_min=0),
    "longest stirring": lambda: wax(stir_min=120),
    "a year of cure": lambda: wax(cure_days=365),
    "largest load": lambda: wax(max_load_percent=40),
    "liquid": lambda: wax(liquid_g_ml=1.5),
    "solid": lambda: wax(solid_g_ml=0.5),
    "widest": lambda: vessel(inside_mm=500),
    "lowest": lambda: vessel(height_mm=5),
    "largest": lambda: vessel(brim_ml=20_000),
    "a paper with a date": lambda: paper(dated=DAY),
    "a paper asked for": lambda: paper(asked_on=DAY),
    "a paper of one day": lambda: paper(dated=DAY, valid_until=DAY),
    "a lot of which only the code is known": lot,
    "a milligram": lambda: lot(amount_mg=1),
    "one piece": lambda: lot(count=1),
    "a gift": lambda: lot(price_cents=0),
    "a small part": lambda: part(0.1),
}

REFUSED = {
    "oil_density_0_5_to_2_g_ml": (lambda: oil(density_g_ml=2.1), "0.5 to 2 g/ml"),
    "oil_flash_point_minus_50_to_400_c": (lambda: oil(flash_c=401), "-50 to 400 °C"),
    "oil_vanillin_0_to_100_percent": (lambda: oil(vanillin_percent=101), "0 to 100 % of the oil"),
    "oil_soap_maximum_0_to_100_percent": (lambda: oil(soap_max_percent=-1), "0 to 100 %"),
    "a_wax_melts_below_its_maximum": (
        lambda: wax(melts_at_c=85, never_above_c=85), "would melt above its own maximum",
    ),
    "add_oil_from_low_to_high": (
        lambda: wax(add_oil_low_c=74, add_oil_high_c=70), "“Add oil at” begins above its end",
    ),
    "add_oil_below_the_maximum": (
        lambda: wax(add_oil_high_c=86, never_above_c=85), "“Add oil at” goes above",
    ),
    "pour_from_low_to_high": (
        lambda: wax(pour_low_c=60, pour_high_c=56), "“Pour at” begins above its end",
    ),
    "pour_below_the_maximum": (
        lambda: wax(pour_low_c=86, never_above_c=85), "“Pour at” goes above",
    ),
    **{
        f"wax_{heat}_0_to_200": (lambda heat=heat: wax(**{heat: 201}), "is 0 to 200 °C")
        for heat in (
            "melts_at_c", "never_above_c", "add_oil_low_c", "add_oil_high_c", "pour_low_c",
            "pour_high_c",
        )
    },
    "stir_0_to_120_min": (lambda: wax(stir_min=121), "0 to 120 min"),
    "cure_0_to_365_days": (lambda: wax(cure_days=366), "0 to 365 days"),
    "maximum_load_0_01_to_40_percent": (lambda: wax(max_load_percent=41), "0.01 to 40 % of wax"),
    "liquid_wax_0_5_to_1_5_g_ml": (lambda: wax(liquid_g_ml=1.6), "Liquid wax weighs"),
    "solid_wax_0_5_to_1_5_g_ml": (lambda: wax(solid_g_ml=0.4), "Solid wax weighs"),
    "inside_diameter_10_to_500_mm": (lambda: vessel(inside_mm=9), "10 to 500 mm wide"),
    "vessel_height_5_to_1000_mm": (lambda: vessel(height_mm=1001), "5 to 1000 mm high"),
    "brim_volume_1_to_20000_ml": (lambda: vessel(brim_ml=0), "1 to 20000 ml"),
    "a_paper_is_dated_or_asked_for": (paper, "This paper has no day"),
    "a_paper_ends_after_its_date": (
        lambda: paper(dated=DAY, valid_until=date(2026, 2, 2)), "run out before its own date",
    ),
    "a_paper_asked_for_has_no_end": (
        lambda: paper(asked_on=DAY, valid_until=DAY), "without the paper's own date",
    ),
    "a_lot_is_of_one_material": (oil_lot, "a delivery of one material"),
    "amount_above_0": (lambda: lot(amount_mg=0), "The amount of a lot is above 0"),
    "count_above_0": (lambda: lot(count=0), "The count of a lot is above 0"),
    "price_0_or_above": (lambda: lot(price_cents=-1), "A price is 0 or above"),
    "parts_above_0": (lambda: part(0), "A part of a blend is above 0"),
}  # fmt: skip

TWICE = {
    "one_oil_a_name_without_supplier": (oil, "stands on the shelf already"),
    "one_part_an_oil_in_a_blend": (lambda: part(1), "named twice"),
    "one_paper_a_kind_version_and_date": (lambda: paper(dated=DAY), "noted already"),
    "one_lot_a_code_and_wax": (lot, "of this wax with that code"),
    "wax": (wax, "A wax of that name stands on the shelf already"),
    "vessel": (vessel, "A vessel of that name stands on the shelf already"),
    "one_wick_a_series_and_size": (
        lambda: models.Wick(series="flat cotton", size="4"), "This wick stands on the shelf",
    ),
    "fixing": (
        lambda: models.Fixing(name="glue", kind="glue"), "A fixing of that name stands",
    ),
    "supplier": (lambda: models.Supplier(name="Tarnholt"), "A supplier of that name stands"),
}  # fmt: skip


def kept(row: Model) -> None:
    row.full_clean()
    row.save()


@pytest.mark.parametrize("name", ACCEPTED)
def test_what_can_be_is_accepted(db, name):
    kept(ACCEPTED[name]())


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_is_refused_with_its_sentence(db, name):
    make, said = REFUSED[name]
    with pytest.raises(ValidationError) as refused:
        make().full_clean()
    assert said in " ".join(refused.value.messages)


@pytest.mark.parametrize("name", REFUSED)
def test_the_database_refuses_it_as_well(db, name):
    make, _ = REFUSED[name]
    row = make()
    with pytest.raises(IntegrityError, match=name), transaction.atomic():
        row.save()


@pytest.mark.parametrize("name", TWICE)
def test_the_same_thing_stands_there_once(db, name):
    make, said = TWICE[name]
    kept(make())
    with pytest.raises(ValidationError) as refused:
        make().full_clean()
    assert said in " ".join(refused.value.messages)
    with pytest.raises(IntegrityError), transaction.atomic():
        make().save()


def test_one_name_from_two_suppliers_is_two_oils(db):
    one, other = (models.Supplier.objects.create(name=name) for name in ("Tarnholt", "Fjellrype"))
    kept(oil(supplier=one))
    kept(oil(supplier=other))
    kept(oil())
    with pytest.raises(ValidationError, match="stands on the shelf already"):
        oil(supplier=one).full_clean()


@pytest.mark.parametrize("material", ["oil", "wick", "vessel"])
def test_a_code_is_of_one_lot_of_a_material(db, material):
    rows = {
        "oil": oil(), "wick": models.Wick(series="flat cotton", size="4"), "vessel": vessel(),
    }  # fmt: skip
    rows[material].save()
    of = {material: rows[material]}
    kept(models.Lot(code="TR-2702", **of))
    with pytest.raises(ValidationError, match=f"A lot of this {material} with that code"):
        models.Lot(code="TR-2702", **of).full_clean()


def test_two_oils_of_one_delivery_may_share_a_code(db):
    for name in ("Linen Loft", "Slate After Rain"):
        of = models.Oil.objects.create(name=name)
        kept(models.Lot(code="TR-2702", oil=of))


def test_two_pieces_of_a_vessel_differ_in_name(db):
    cup = models.Vessel.objects.create(name="cup")
    kept(models.Piece(vessel=cup, name="Cup 7"))
    with pytest.raises(ValidationError, match="A vessel of that name is there"):
        models.Piece(vessel=cup, name="Cup 7").full_clean()


def test_every_constraint_of_the_shelf_is_tried():
    """A new constraint needs a row above."""
    tried = {*REFUSED, *TWICE} | {
        "one_oil_a_name_and_supplier", "one_piece_a_name",
        *(f"one_lot_a_code_and_{name}" for name in ("oil", "wick", "vessel")),
    }  # fmt: skip
    named = {
        constraint.name
        for name in models.__all__
        if hasattr(getattr(models, name), "_meta")
        for constraint in getattr(models, name)._meta.constraints
    }
    assert named - tried == set()
