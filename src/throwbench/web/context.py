"""What every page's frame shows."""

from typing import Any

from django.conf import settings
from django.http import HttpRequest

from throwbench import __version__
from throwbench.web.entry.keys import key_of
from throwbench.web.keep.pages import worth_keeping
from throwbench.web.own_files import own_files
from throwbench.workshop.house.theme import theme_of


def frame(request: HttpRequest) -> dict[str, Any]:
    """The workshop, the demo's day, light or dark, the version."""
    return {
        "workshop": getattr(request, "workshop", None),
        "now": getattr(request, "now", None),
        "is_demo": settings.DEMO_OFFSET_S is not None,
        "trouble": own_files.trouble(),
        "theme": theme_of(request),
        "version": __version__,
        "entry_offset_ms": 1000 * (settings.DEMO_OFFSET_S or 0),
        "entry_key": key_of(request) if hasattr(request, "user") else "",
        "keep": worth_keeping(request) if hasattr(request, "user") else (),
    }
