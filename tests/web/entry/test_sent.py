"""What a device sends is read as an entry, or refused with a sentence; nothing else comes of it."""

import hashlib
import json
import uuid
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from throwbench.science.errors import UnclearError
from throwbench.web.entry.sent import (
    KEPT_AT_MOST,
    MOST_FIELDS,
    PUT_BACK,
    clock_of,
    pressed_at,
    read,
    skew_ms,
)

NOW = datetime(2027, 5, 24, 9, 5, tzinfo=UTC)
NOW_MS = 1_811_149_500_000
GOOD = {
    "id": "0f8fad5b-d9cb-469f-a165-70867728950e",
    "key": "1a2b3c4d-person-1",
    "device": "7c9e6679-7425-40de-944b-e07fc1f90ae7",
    "turn": 12,
    "address": "/round/?x=1",
    "pressed_at": NOW_MS,
    "fields": [["b1-answer", "same"], ["b1-note", "Åse & co"], ["b1-note", "twice"]],
}
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=8,
)


def sent(**other):
    return read(json.dumps({**GOOD, **other}).encode())


def test_an_entry_is_read_as_it_was_kept():
    body = json.dumps(GOOD).encode()
    found = read(body)
    assert found.id == uuid.UUID(GOOD["id"])
    assert (found.turn, found.pressed_ms, found.query) == (12, NOW_MS, "x=1")
    assert found.path_info == "/round/"
    assert found.digest == hashlib.sha256(body).hexdigest()


def test_the_form_is_the_one_that_was_pressed_under_the_entrys_id():
    assert sent().form() == (
        b"b1-answer=same&b1-note=%C3%85se+%26+co&b1-note=twice"
        b"&entry=0f8fad5b-d9cb-469f-a165-70867728950e"
    )


def test_what_is_not_the_forms_own_is_left_out():
    fields = [["entry", "other"], ["csrfmiddlewaretoken", "old"], ["a", "b"]]
    assert sent(fields=fields).form() == b"a=b&entry=0f8fad5b-d9cb-469f-a165-70867728950e"


@pytest.mark.parametrize("address", ["/candles/%C3%85K7/", "/candles/ÅK7/"])
def test_a_path_is_handed_on_as_a_server_hands_it_on(address):
    assert sent(address=address).path_info == "/candles/ÅK7/".encode().decode("latin1")


def test_a_query_is_handed_on_alike():
    """Else Django could not read it, and the entry would break the workshop at every try."""
    assert sent(address="/round/?of=Å€").query == "of=Å€".encode().decode("latin1")


@pytest.mark.parametrize("name", GOOD)
def test_each_part_is_needed(name):
    with pytest.raises(UnclearError, match="What came is not an entry"):
        read(json.dumps({key: value for key, value in GOOD.items() if key != name}).encode())


@pytest.mark.parametrize(
    "other",
    [
        {"id": "x"}, {"id": 7}, {"id": ""}, {"key": ""}, {"key": "x" * 41}, {"device": "x" * 37},
        {"turn": -1}, {"turn": 1.5}, {"turn": True}, {"turn": 2**53 + 1}, {"turn": "1"},
        {"pressed_at": -1}, {"pressed_at": 1e12}, {"pressed_at": 10**15}, {"pressed_at": None},
        {"address": "round/"}, {"address": "//x/"}, {"address": "/\\x"}, {"address": "/entries/"},
        {"address": "http://x/"}, {"fields": {"a": "b"}}, {"fields": [["a"]]},
        {"fields": [["a", 1]]}, {"fields": [["a", "b", "c"]]}, {"fields": "ab"},
        {"fields": [["a", "\ud800"]]}, {"key": "\udfff"}, {"address": "/\ud800"},
        {"fields": [["a", "b"]] * (MOST_FIELDS + 1)},
    ],
    ids=lambda other: str(other)[:40],
)  # fmt: skip
def test_what_none_of_our_pages_makes_is_refused(other):
    with pytest.raises(UnclearError, match="What came is not an entry"):
        sent(**other)


@given(st.binary() | JSON.map(lambda told: json.dumps(told).encode()))
def test_whatever_comes_it_is_refused_with_a_sentence(body):
    with pytest.raises(UnclearError):
        read(body)


@given(st.fixed_dictionaries({name: st.just(value) | JSON for name, value in GOOD.items()}))
def test_half_an_entry_is_an_entry_or_refused_with_a_sentence(told):
    try:
        found = read(json.dumps(told).encode())
    except UnclearError:
        return
    assert found.form().endswith(f"entry={found.id}".encode())


@given(st.integers(0, round(KEPT_AT_MOST / timedelta(milliseconds=1))))
def test_it_was_pressed_as_long_ago_as_the_device_says(waited_ms):
    found = sent(pressed_at=NOW_MS)
    at = pressed_at(found, sent_ms=NOW_MS + waited_ms, now=NOW)
    assert NOW - at == timedelta(milliseconds=waited_ms)


@pytest.mark.parametrize(
    ("waited", "is_told"),
    [(-PUT_BACK, True), (timedelta(0), True), (KEPT_AT_MOST, True),
     (-PUT_BACK - timedelta(milliseconds=1), False),
     (KEPT_AT_MOST + timedelta(milliseconds=1), False)],
)  # fmt: skip
def test_the_clock_of_the_device_is_believed_within_bounds(waited, is_told):
    sent_ms = NOW_MS + waited // timedelta(milliseconds=1)
    if is_told:
        assert pressed_at(sent(), sent_ms=sent_ms, now=NOW) <= NOW
    else:
        with pytest.raises(UnclearError, match="cannot say when it was pressed"):
            pressed_at(sent(), sent_ms=sent_ms, now=NOW)


def test_skew_is_how_far_the_device_is_behind():
    assert NOW.timestamp() * 1000 == NOW_MS
    assert skew_ms(NOW_MS - 5000, real_now=NOW) == 5000
    assert skew_ms(NOW_MS + 5000, real_now=NOW) == -5000


@given(st.text())
def test_a_clock_is_a_number_or_refused(header):
    try:
        assert clock_of(header) == int(header)
    except UnclearError:
        assert not (header.isascii() and header.isdecimal() and len(header) < 15)
