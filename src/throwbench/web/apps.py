"""The frame, as Django knows it."""

from django.apps import AppConfig
from django.db.models.signals import post_migrate


class WebConfig(AppConfig):
    name = "throwbench.web"
    label = "web"

    def ready(self) -> None:
        from throwbench.web.append_only import put_back  # noqa: PLC0415
        from throwbench.web.field_words import speak_as_the_house_does  # noqa: PLC0415

        speak_as_the_house_does()
        post_migrate.connect(put_back, dispatch_uid="append-only")
