"""The panel slice, as Django knows it."""

from django.apps import AppConfig


class PanelConfig(AppConfig):
    name = "throwbench.workshop.panel"
    label = "panel"
    default_auto_field = "django.db.models.BigAutoField"
