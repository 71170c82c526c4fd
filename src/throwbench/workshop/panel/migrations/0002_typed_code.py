"""The short code of a personal link."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("panel", "0001_initial")]

    operations = [
        migrations.AddField(
            model_name="sitting",
            name="code_hash",
            field=models.CharField(
                max_length=64, blank=True, help_text="of the short code that is typed instead"
            ),
        ),
        migrations.AddConstraint(
            model_name="sitting",
            constraint=models.UniqueConstraint(
                fields=["code_hash"],
                condition=~models.Q(code_hash=""),
                name="a_typed_code_is_for_one_sitting",
                violation_error_message="This code is another sitting's. Make a new link.",
            ),
        ),
    ]
