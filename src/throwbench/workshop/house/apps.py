"""The house slice, as Django knows it."""

from django.apps import AppConfig


class HouseConfig(AppConfig):
    name = "throwbench.workshop.house"
    label = "house"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Typed codes sign in."""
        from throwbench.workshop.house import opened_by_code, sign_in  # noqa: PLC0415

        opened_by_code.WAYS.append(sign_in.by_code)
