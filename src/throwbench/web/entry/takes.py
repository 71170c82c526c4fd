"""Which pages take an entry that a device kept; every other one is never asked to do anything."""

from django.http import HttpRequest
from django.urls import Resolver404, resolve

TAKE_ENTRIES = frozenset(
    (
        *("trials:round", "trials:all_out", "trials:hand_over", "trials:add_photo"),
        *("trials:light", "trials:burn", "trials:swapped"),
        *("trials:weigh", "trials:read", "trials:poured"),
        "panel:score",
        *("alarm:heard", "alarm:there", "alarm:timers", "alarm:timer_done"),
    )
)
"""Addresses by name: each keeps what was pressed under the entry's id. Among them are all forms
that a page marks with `data-entry`, and what its script notes."""


def takes_entries(request: HttpRequest) -> bool:
    """Whether the page of that address takes entries; one that is not there says so itself."""
    try:
        return resolve(request.path_info).view_name in TAKE_ENTRIES
    except Resolver404:
        return True
