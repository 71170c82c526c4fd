"""The newest entry is found at once: pages compare it with this machine's clock."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("house", "0006_heard_without_device")]

    operations = [
        migrations.AddIndex(
            model_name="entry",
            index=models.Index(fields=["at"], name="house_entry_at_ad5635_idx"),
        ),
    ]
