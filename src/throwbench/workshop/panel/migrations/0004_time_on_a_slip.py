"""Whether the time of a sniff is known: that of a slip is, where it stands on the slip."""

from django.apps.registry import Apps
from django.db import migrations, models
from django.db.backends.base.schema import BaseDatabaseSchemaEditor


def slips_so_far(apps: Apps, _schema: BaseDatabaseSchemaEditor) -> None:
    """Until now the time of a slip is the one at which it was typed in."""
    apps.get_model("panel", "Sniff").objects.filter(way="slip").update(is_timed=False)


class Migration(migrations.Migration):
    dependencies = [("panel", "0003_longer_names")]

    operations = [
        migrations.AddField(
            model_name="sniff",
            name="is_timed",
            field=models.BooleanField(
                default=True, help_text="the nose sniffed then; else a slip was typed in then"
            ),
        ),
        migrations.RunPython(slips_so_far, migrations.RunPython.noop),
    ]
