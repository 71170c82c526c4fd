"""Where a phone gets in."""

from datetime import UTC, datetime

import pytest

from throwbench.workshop.house.doors import (
    address_for_a_guest,
    address_for_a_phone,
    network_addresses,
)  # fmt: skip
from throwbench.workshop.house.models import Workshop

LAN, TLS, OWN = "http://192.168.1.20:8650", "https://192.168.1.20:8651", "http://boat-shed:8650"
SHOW = "http://saltmyr.example:8650"
NAMED_EXAMPLE = "http://example:8650"
HOME = ["http://localhost:8650", "http://127.0.1.1:8650", "http://[::1]:8650"]
ANSWERED = datetime(2027, 5, 24, 9, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("own", "answered", "found", "told"),
    [
        (OWN, ANSWERED, [LAN, TLS], OWN),
        (OWN, None, [LAN, TLS], TLS),
        (OWN, None, [LAN], LAN),
        (OWN, None, [], OWN),
        ("", None, [LAN], LAN),
        ("", None, [LAN, TLS], TLS),
        ("", None, [], ""),
        (SHOW, None, [LAN], LAN),
        (SHOW, ANSWERED, [], ""),
        (NAMED_EXAMPLE, ANSWERED, [LAN], NAMED_EXAMPLE),
        ("http://127.0.0.1:8650", ANSWERED, [LAN], LAN),
        ("http://localhost:8650", ANSWERED, [], ""),
    ],
    ids=[
        "own that answered", "https before own unchecked", "http before own unchecked",
        "own unchecked before none", "network", "https before http", "none", "for show",
        "for show alone", "a machine of that name", "own leads home", "own leads home alone",
    ],
)  # fmt: skip
def test_a_phone_is_told_an_address_that_leads_somewhere(settings, own, answered, found, told):
    settings.NETWORK_ADDRESSES = found
    assert address_for_a_phone(Workshop(address=own, address_answered_at=answered)) == told


def test_of_a_checked_address_the_https_door_is_told(settings):
    settings.NETWORK_ADDRESSES = ["http://boat-shed:8650", "https://boat-shed:8651", LAN]
    here = Workshop(address=OWN, address_answered_at=ANSWERED)
    assert address_for_a_phone(here) == "https://boat-shed:8651"
    assert address_for_a_guest(here) == OWN


@pytest.mark.parametrize(
    ("own", "found", "told"),
    [(OWN, [TLS, LAN], LAN), (OWN, [], OWN), ("", [TLS], ""), ("http://localhost", [], "")],
)
def test_a_guest_is_told_a_plain_address(settings, own, found, told):
    settings.NETWORK_ADDRESSES = found
    assert address_for_a_guest(Workshop(address=own)) == told


def test_no_phone_is_sent_to_itself(settings):
    settings.NETWORK_ADDRESSES = HOME
    assert network_addresses() == ()
    assert address_for_a_phone(None) == ""


def test_before_the_workshop_has_begun_the_network_is_told(settings):
    settings.NETWORK_ADDRESSES = [LAN]
    assert address_for_a_phone(None) == LAN


def test_the_workshops_own_name_is_kept_over_https(settings):
    settings.NETWORK_ADDRESSES = [TLS, "https://boat-shed:8651", LAN]
    own = Workshop(address=OWN, address_answered_at=ANSWERED)
    assert address_for_a_phone(own) == "https://boat-shed:8651"


@pytest.mark.parametrize("answered", [ANSWERED, None])
def test_a_guests_phone_is_asked_to_trust_nothing(settings, answered):
    settings.NETWORK_ADDRESSES = [TLS, "https://boat-shed:8651", LAN]
    own = Workshop(address=OWN, address_answered_at=answered)
    assert address_for_a_guest(own) == (OWN if answered else LAN)
    assert address_for_a_guest(None) == LAN
