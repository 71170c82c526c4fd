"""What waits on this device: only the device knows, so its own script fills the page."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET


@require_GET
def page(request: HttpRequest) -> HttpResponse:
    """The frame of the list; the workshop itself cannot say what has not reached it."""
    return render(request, "waiting.html")
