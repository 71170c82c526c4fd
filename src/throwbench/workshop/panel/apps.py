"""The panel slice, as Django knows it."""

from django.apps import AppConfig


class PanelConfig(AppConfig):
    name = "throwbench.workshop.panel"
    label = "panel"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Typed codes open the sitting of a personal link."""
        from throwbench.workshop.house import opened_by_code  # noqa: PLC0415
        from throwbench.workshop.panel.services.links import by_code  # noqa: PLC0415

        opened_by_code.WAYS.append(by_code)
