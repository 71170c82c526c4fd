"""How long a burn lasts and a wick stands: one house limit each, no setting beside it."""

from collections.abc import Callable
from typing import Any

from django.apps.registry import Apps
from django.db import migrations
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.utils import timezone

SHIPPED_H = 4.0
"""The setting that nobody had changed."""
TRIM_MM = (3.0, 8.0)
"""The shipped limits of the wick: shorter and longer than this is marked."""


def carry(apps: Apps, _schema: BaseDatabaseSchemaEditor) -> None:
    """A setting that was changed becomes a house limit; of two, the stricter one stays."""
    for here in _rows(apps, "Workshop").all():
        if here.burn_limit_h != SHIPPED_H:
            _set(apps, "burn-length", here.burn_limit_h, stricter=min)
        short, long = TRIM_MM
        if here.trim_mm < short:
            _set(apps, "trim-short", here.trim_mm, stricter=max)
        if here.trim_mm > long:
            _set(apps, "trim-long", here.trim_mm, stricter=min)


def _set(apps: Apps, rule: str, value: float, *, stricter: Callable[[float, float], float]) -> None:
    limits = _rows(apps, "HouseLimit")
    own = limits.filter(rule=rule).first()
    if own is not None:
        own.value = stricter(own.value, value)
        own.save()
        return
    people = _rows(apps, "Person")
    owner = people.filter(role="owner").order_by("id").first()
    owner = owner or people.create(name="The maker", role="owner")
    limits.create(rule=rule, value=value, set_by=owner, set_at=timezone.now())


def _rows(apps: Apps, model: str) -> Any:
    return apps.get_model("house", model).objects


class Migration(migrations.Migration):
    dependencies = [("house", "0004_wrong_code")]

    operations = [
        migrations.RunPython(carry, migrations.RunPython.noop),
        migrations.RemoveConstraint(model_name="workshop", name="burn_limit_between_0_and_24_h"),
        migrations.RemoveConstraint(model_name="workshop", name="trim_above_0_to_50_mm"),
        migrations.RemoveField(model_name="workshop", name="burn_limit_h"),
        migrations.RemoveField(model_name="workshop", name="trim_mm"),
    ]
