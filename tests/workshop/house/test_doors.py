"""Where a phone gets in."""

import pytest

from throwbench.workshop.house.doors import address_for_a_phone
from throwbench.workshop.house.models import Workshop

LAN = "http://192.168.1.20:8650"


@pytest.mark.parametrize(
    ("own", "found", "told"),
    [
        ("http://boat-shed:8650", [LAN], "http://boat-shed:8650"),
        ("", [LAN], LAN),
        ("", [], ""),
        ("http://saltmyr.example:8650", [LAN], LAN),
        ("http://saltmyr.example:8650", [], ""),
        ("http://example:8650", [LAN], "http://example:8650"),
    ],
    ids=["own", "network", "none", "for show", "for show alone", "a machine of that name"],
)
def test_a_phone_is_told_an_address_that_leads_somewhere(settings, own, found, told):
    settings.NETWORK_ADDRESSES = found
    assert address_for_a_phone(Workshop(address=own)) == told


def test_before_the_workshop_has_begun_the_network_is_told(settings):
    settings.NETWORK_ADDRESSES = [LAN]
    assert address_for_a_phone(None) == LAN
