"""Blends: parts by weight; a used version never changes, it gets a next one."""

import uuid

import pytest
from django.apps import apps
from django.core.exceptions import ValidationError

from throwbench.science.errors import OutOfRangeError, UnclearError
from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Blend, Oil
from throwbench.workshop.shelf.selectors.blends import is_used, parts_of, parts_sentence


@pytest.fixture
def softer(rope, linen, by) -> Blend:
    return services.add_blend(name="Softer Rope", parts={rope: 80, linen: 20}, **by).blend


@pytest.fixture
def used(softer, owner, now) -> Blend:
    """The blend as a candidate of a trial."""
    trials = apps.get_model("trials", "Trial")
    trial = trials.objects.create(name="Softer Rope", made_at=now, made_by=owner)
    apps.get_model("trials", "Candidate").objects.create(trial=trial, oil=softer.oil)
    return softer


def shares(blend: Blend) -> dict[str, float]:
    return {part.oil.name: part.share_percent for part in parts_of(blend)}


def test_a_blend_is_an_oil_with_parts(softer):
    assert shares(softer) == {"Ferry Rope": 80, "Linen Loft": 20}
    assert parts_sentence(softer) == "80\xa0% Ferry Rope and 20\xa0% Linen Loft, by weight."
    assert (softer.oil.supplier, softer.version) == (None, 1)


def test_parts_need_not_add_up_to_100(rope, linen, by):
    blend = services.add_blend(name="Half", parts={rope: 1, linen: 3}, **by).blend
    assert shares(blend) == {"Linen Loft": 75, "Ferry Rope": 25}


def test_a_blend_of_one_oil_is_refused_and_leaves_nothing(rope, by):
    with pytest.raises(UnclearError, match="two or more different oils"):
        services.add_blend(name="Alone", parts={rope: 1}, **by)
    assert not Oil.objects.filter(name="Alone").exists()


def test_a_part_of_nothing_is_refused(rope, linen, by):
    with pytest.raises(OutOfRangeError, match="Parts of Linen Loft from Tarnholt"):
        services.add_blend(name="Half", parts={rope: 1, linen: 0}, **by)


def test_a_blend_of_invented_oils_is_invented(rope, by):
    other = services.add_oil(name="Goat Willow", supplier=None, invented=True, **by)
    assert services.add_blend(name="Half", parts={rope: 1, other: 1}, **by).invented


def test_an_unused_version_changes_in_place(softer, rope, linen, by):
    oil = services.change_parts(softer, parts={rope: 70, linen: 30}, **by)
    assert oil == softer.oil
    assert shares(Blend.objects.get()) == {"Ferry Rope": 70, "Linen Loft": 30}


def test_a_used_version_stays_and_gets_a_next_one(used, rope, linen, by):
    assert is_used(used)
    oil = services.change_parts(used, parts={rope: 70, linen: 30}, **by)
    assert (oil.name, oil.blend.version, oil.blend.made_from) == ("Softer Rope, version 2", 2, used)
    assert shares(Blend.objects.get(pk=used.pk)) == {"Ferry Rope": 80, "Linen Loft": 20}


def test_a_version_made_from_an_old_one_is_the_newest(used, rope, linen, by):
    services.change_parts(used, parts={rope: 70, linen: 30}, **by)
    oil = services.change_parts(used, parts={rope: 60, linen: 40}, **by)
    assert oil.name == "Softer Rope, version 3"


def test_a_blend_inside_another_one_is_used(softer, rope, by):
    assert not is_used(softer)
    services.add_blend(name="Softest", parts={softer.oil: 1, rope: 1}, **by)
    assert is_used(softer)


def test_a_blend_is_never_a_part_of_itself(softer, rope, by):
    with pytest.raises(UnclearError, match="Softer Rope would be a part of itself"):
        services.change_parts(softer, parts={softer.oil: 1, rope: 1}, **by)


def test_a_blend_is_not_a_part_of_itself_through_another(softer, rope, linen, by):
    outer = services.add_blend(name="Softest", parts={softer.oil: 1, rope: 1}, **by)
    with pytest.raises(UnclearError, match="Softer Rope would be a part of itself"):
        services.change_parts(softer, parts={outer: 1, linen: 1}, **by)


def test_pressed_twice_a_next_version_is_made_once(used, rope, linen, by):
    entry = uuid.uuid4()
    first = services.change_parts(used, parts={rope: 7, linen: 3}, entry=entry, **by)
    assert services.change_parts(used, parts={rope: 7, linen: 3}, entry=entry, **by) == first
    assert Blend.objects.count() == 2


def test_two_blends_of_one_name_are_refused(softer, rope, linen, by):
    with pytest.raises(ValidationError, match="stands on the shelf already"):
        services.add_blend(name="Softer Rope", parts={rope: 1, linen: 1}, **by)
