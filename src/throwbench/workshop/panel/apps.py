"""The panel slice, as Django knows it."""

from typing import Any

from django.apps import AppConfig
from django.contrib.auth.signals import user_logged_in
from django.http import HttpRequest


class PanelConfig(AppConfig):
    name = "throwbench.workshop.panel"
    label = "panel"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Typed codes open the sitting of a personal link, and whoever signs in leaves it."""
        from throwbench.workshop.house import opened_by_code  # noqa: PLC0415
        from throwbench.workshop.panel.services.links import by_code  # noqa: PLC0415

        opened_by_code.WAYS.append(by_code)
        user_logged_in.connect(_leave_the_link, dispatch_uid="leave the link")


def _leave_the_link(request: HttpRequest, **_: Any) -> None:
    """Else what this person presses would count as the answer of the link's nose."""
    from throwbench.workshop.panel.services.links import KEPT_AS  # noqa: PLC0415

    request.session.pop(KEPT_AS, None)
