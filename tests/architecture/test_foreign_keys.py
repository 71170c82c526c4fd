"""Foreign keys and migrations only point down: line > panel > trials > shelf > house.

A linter of imports does not see a key given as text ("line.Decision"), nor a migration.
"""

import tomllib
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from django.apps import apps
from django.db import models
from django.db.migrations.loader import MigrationLoader
from django.db.models.fields.related import RelatedField
from django.test.utils import isolate_apps

ROOT = Path(__file__).parents[2]
ORDER = ("line", "panel", "trials", "shelf", "house")
"""From the top down, as the import contract has it."""


def points_up(source: str, target: str) -> bool:
    """Whether a slice points to one above it, or to one that is no slice at all."""
    if source not in ORDER:
        return False
    return target not in ORDER or ORDER.index(target) < ORDER.index(source)


def keys_of(model: type[models.Model]) -> Iterator[tuple[str, str, str]]:
    """Each relation that a model itself holds: slice, field, slice pointed to."""
    fields = [*model._meta.local_fields, *model._meta.local_many_to_many]
    for field in fields:
        if isinstance(field, RelatedField):
            target = field.remote_field.model
            label = target if isinstance(target, str) else target._meta.label
            yield model._meta.app_label, f"{model.__name__}.{field.name}", label.partition(".")[0]


def keys_pointing_up(found: Iterable[type[models.Model]]) -> list[str]:
    return [
        f"{source}.{field} points to {target}"
        for model in found
        for source, field, target in keys_of(model)
        if points_up(source, target)
    ]


def dependencies_pointing_up(edges: Iterable[tuple[str, str]]) -> list[str]:
    return [f"{source} needs {target}" for source, target in edges if points_up(source, target)]


def migration_edges() -> Iterator[tuple[str, str]]:
    """From each migration's slice to the slice of each migration that it needs."""
    loader = MigrationLoader(None)
    for (source, _), migration in loader.disk_migrations.items():
        for target, _ in [*migration.dependencies, *migration.run_before]:
            yield source, "house" if target == "__setting__" else target


def test_the_order_is_the_one_of_the_import_contract():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())
    (layers,) = (
        contract["layers"]
        for contract in settings["tool"]["importlinter"]["contracts"]
        if contract.get("containers") == ["throwbench.workshop"]
    )
    assert tuple(layers) == ORDER


def test_every_slice_is_an_app():
    assert {config.label for config in apps.get_app_configs()} >= set(ORDER)


def test_every_foreign_key_points_down():
    found = [model for model in apps.get_models() if model._meta.app_label in ORDER]
    assert len(found) > 20
    assert sum(1 for model in found for _ in keys_of(model)) > 20
    assert keys_pointing_up(found) == []


def test_every_migration_needs_lower_slices_only():
    edges = list(migration_edges())
    assert {source for source, _ in edges} >= set(ORDER) - {"house"}
    assert dependencies_pointing_up(edges) == []


@pytest.mark.parametrize("kind", [models.ForeignKey, models.OneToOneField, models.ManyToManyField])
def test_a_key_that_points_up_is_found(kind):
    with isolate_apps("throwbench.workshop.house", "throwbench.workshop.line"):
        options = {} if kind is models.ManyToManyField else {"on_delete": models.CASCADE}

        class Telltale(models.Model):
            last = kind("line.Decision", **options)

            class Meta:
                app_label = "house"

    assert keys_pointing_up([Telltale]) == ["house.Telltale.last points to line"]


def test_a_key_that_points_down_or_sideways_is_left_alone():
    with isolate_apps("throwbench.workshop.line"):

        class Quiet(models.Model):
            who = models.ForeignKey("house.Person", on_delete=models.CASCADE)
            before = models.ForeignKey("self", on_delete=models.CASCADE)

            class Meta:
                app_label = "line"

    assert keys_pointing_up([Quiet]) == []


def test_a_key_out_of_the_workshop_is_found():
    with isolate_apps("throwbench.workshop.shelf"):

        class Stray(models.Model):
            visit = models.ForeignKey("sessions.Session", on_delete=models.CASCADE)

            class Meta:
                app_label = "shelf"

    assert keys_pointing_up([Stray]) == ["shelf.Stray.visit points to sessions"]


@pytest.mark.parametrize(
    ("edge", "said"),
    [
        (("shelf", "trials"), ["shelf needs trials"]),
        (("house", "line"), ["house needs line"]),
        (("house", "auth"), ["house needs auth"]),
        (("trials", "shelf"), []),
        (("panel", "panel"), []),
        (("auth", "contenttypes"), []),
    ],
)
def test_a_migration_that_points_up_is_found(edge, said):
    assert dependencies_pointing_up([edge]) == said
