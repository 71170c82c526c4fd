"""A step that was tried is kept without the device: nothing ever read it."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("house", "0005_one_house_limit")]

    operations = [
        migrations.RemoveIndex(model_name="heard", name="house_heard_rung_618026_idx"),
        migrations.RemoveField(model_name="heard", name="device"),
        migrations.AddIndex(
            model_name="heard",
            index=models.Index(fields=["rung", "at"], name="house_heard_rung_25ac3c_idx"),
        ),
    ]
