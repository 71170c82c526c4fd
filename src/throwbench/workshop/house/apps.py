"""The house slice, as Django knows it."""

from django.apps import AppConfig


class HouseConfig(AppConfig):
    name = "throwbench.workshop.house"
    label = "house"
    default_auto_field = "django.db.models.BigAutoField"
