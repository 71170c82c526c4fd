"""The shelf slice, as Django knows it."""

from django.apps import AppConfig


class ShelfConfig(AppConfig):
    name = "throwbench.workshop.shelf"
    label = "shelf"
    default_auto_field = "django.db.models.BigAutoField"
