"""The trials slice, as Django knows it."""

from django.apps import AppConfig


class TrialsConfig(AppConfig):
    name = "throwbench.workshop.trials"
    label = "trials"
    default_auto_field = "django.db.models.BigAutoField"
