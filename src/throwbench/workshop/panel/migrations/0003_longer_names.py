"""Room for longer names of what is asked and scored; which there are stands in the records."""

from django.db import migrations, models

from throwbench.workshop.panel.models import attributes, kinds


class Migration(migrations.Migration):
    dependencies = [("panel", "0002_typed_code")]

    operations = [
        migrations.AlterField(
            model_name="panel",
            name="asks",
            field=models.CharField(max_length=20, choices=kinds, default="lit"),
        ),
        migrations.AlterField(
            model_name="score",
            name="attribute",
            field=models.CharField(max_length=20, choices=attributes),
        ),
    ]
