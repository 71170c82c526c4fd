"""The line slice, as Django knows it."""

from django.apps import AppConfig


class LineConfig(AppConfig):
    name = "throwbench.workshop.line"
    label = "line"
    default_auto_field = "django.db.models.BigAutoField"
