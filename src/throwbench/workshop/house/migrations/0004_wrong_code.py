"""Wrong typed codes, counted in the database."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("house", "0003_there")]

    operations = [
        migrations.CreateModel(
            name="WrongCode",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("at", models.DateTimeField()),
            ],
            options={"indexes": [models.Index(fields=["at"], name="house_wrong_at_idx")]},
        ),
    ]
