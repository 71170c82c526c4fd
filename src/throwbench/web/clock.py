"""The time of this folder: the real one, or in a demo its own."""

from datetime import datetime, timedelta

from django.conf import settings
from django.utils import timezone


def time_here() -> datetime:
    return timezone.now() + timedelta(seconds=settings.DEMO_OFFSET_S or 0)
