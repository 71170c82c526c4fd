"""Light or dark: a choice kept in a cookie; without one the device decides."""

from django.http import HttpRequest

COOKIE = "throwbench-theme"
CHOICES = ("light", "dark")
YEAR_S = 365 * 24 * 3600


def theme_of(request: HttpRequest) -> str:
    """What was chosen in this browser; empty where the device decides."""
    chosen = request.COOKIES.get(COOKIE, "")
    return chosen if chosen in CHOICES else ""
