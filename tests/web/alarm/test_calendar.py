"""The calendar file: the right moment over both changes of clocks, and what RFC 5545 demands.

Articles named in the tests are those of RFC 5545. The file is read as text by the rules of 3.1
(lines end in CR LF, a folded line goes on after a space), apart from the library that wrote it.
"""

import csv
import re
from datetime import date, datetime, timedelta, timezone
from pathlib import Path

import pytest

from throwbench.workshop.house.models import Ring
from throwbench.workshop.trials.services import burn as burning
from wall import at

HOUR = timedelta(hours=1)
NIGHTS = Path(__file__).parents[2] / "reference" / "summer-time.csv"


def nights() -> list:
    lines = [line for line in NIGHTS.read_text().splitlines() if not line.startswith("#")]
    return [pytest.param(row, id=row["id"]) for row in csv.DictReader(lines)]


def lines_of(file: str) -> list[str]:
    """Content lines, unfolded (3.1)."""
    assert "\n" not in file.replace("\r\n", "")
    return re.sub("\r\n[ \t]", "", file).rstrip("\r\n").split("\r\n")


def events_of(file: str) -> list[dict[str, list[str]]]:
    """Name and value of each line of each event, its alarms included."""
    events: list[dict[str, list[str]]] = []
    for line in lines_of(file):
        if line == "BEGIN:VEVENT":
            events.append({})
        elif events and line != "END:VEVENT":
            name, value = line.split(":", 1)
            events[-1].setdefault(name.split(";")[0], []).append(value)
    return events


def events(maker) -> list[dict[str, list[str]]]:
    answer = maker.get("/round/put-out.ics")
    assert answer.status_code == 200
    return events_of(answer.text)


def moment(wall: str, offset_h: str) -> datetime:
    zone = timezone(timedelta(hours=int(offset_h)))
    return datetime.fromisoformat(wall).replace(tzinfo=zone)


@pytest.fixture(params=nights())
def night(request, candle, loft, owner) -> dict[str, str]:
    """A candle lit that night, by the service that lights candles."""
    row = request.param
    lit_at = moment(row["lit"], row["lit_offset_h"])
    burning.light(
        candle("W8R", poured_on=date(2027, 3, 1)), kind="wick", room=loft, lit_at=lit_at,
        limit_h=float(row["burn_h"]), sure=True, who=owner, now=lit_at,
    )  # fmt: skip
    return row


def test_hours_are_elapsed_hours_over_both_changes_of_clocks(maker, night):
    lit_at = moment(night["lit"], night["lit_offset_h"])
    (event,) = events(maker)
    assert event["DTSTART"] == [night["out_utc"]]
    told = datetime.strptime(night["out_utc"], "%Y%m%dT%H%M%S%z")
    assert told == moment(night["out"], night["out_offset_h"])
    assert told - lit_at == float(night["burn_h"]) * HOUR


def test_the_pages_say_the_same_time(maker, night):
    assert f'clock__fig">{night["out"][-5:]}<' in maker.get("/round/").text
    (one,) = maker.get("/alarm/").json()["deadlines"]
    assert one["due"] == moment(night["out"], night["out_offset_h"]).timestamp() * 1000


def test_what_the_standard_demands_is_there(maker, lit, loft):
    """3.6: PRODID and VERSION; 3.6.1: UID and DTSTAMP; 3.3.5: times in UTC; 3.1: at most 75
    octets a line."""
    lit("W8R", room=loft, ago=2 * HOUR)
    file = maker.get("/round/put-out.ics").text
    lines = lines_of(file)
    assert (lines[0], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR")
    assert "VERSION:2.0" in lines
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    assert max(len(line.encode()) for line in file.split("\r\n")) <= 75
    (event,) = events_of(file)
    assert event["DTSTAMP"] == ["20270524T090500Z"]
    assert event["DTSTART"] == ["20270524T110500Z"]
    assert event["DTEND"] == ["20270524T112000Z"]
    assert len(event["UID"]) == 1
    assert event["LOCATION"] == ["Boat-shed loft"]
    assert event["SUMMARY"] == ["Put out W8R"]


def test_it_rings_at_the_time_and_ten_minutes_before(maker, lit, loft):
    """3.6.6: a DISPLAY alarm has ACTION, TRIGGER and DESCRIPTION; 3.3.6: durations."""
    lit("W8R", room=loft, ago=2 * HOUR)
    (event,) = events(maker)
    assert event["BEGIN"] == ["VALARM", "VALARM"]
    assert event["ACTION"] == ["DISPLAY", "DISPLAY"]
    assert event["TRIGGER"] == ["-PT10M", "P0D"]
    assert event["DESCRIPTION"][1:] == ["Put out W8R", "Put out W8R"]


def test_candles_of_one_time_are_one_event(maker, lit, loft, kitchen):
    lit("W8R", room=loft, ago=2 * HOUR)
    lit("K2F", room=kitchen, ago=2 * HOUR)
    lit("T9R", room=kitchen, ago=HOUR)
    first, second = events(maker)
    assert first["SUMMARY"] == ["Put out K2F and W8R"]
    assert first["LOCATION"] == ["Kitchen and Boat-shed loft"]
    assert second["SUMMARY"] == ["Put out T9R"]
    assert first["UID"] != second["UID"]


def test_a_second_file_replaces_the_first(maker, lit, loft, monkeypatch, now):
    """3.8.4.7: the same UID; 3.8.7.4: a greater SEQUENCE."""
    burn = lit("W8R", room=loft, ago=2 * HOUR)
    (before,) = events(maker)
    lit("K2F", room=loft, ago=2 * HOUR)
    burn.out_at = now
    burn.save()
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: at("11:20"))
    (after,) = events(maker)
    assert after["SUMMARY"] == ["Put out K2F"]
    assert after["UID"] == before["UID"]
    assert int(after["SEQUENCE"][0]) > int(before["SEQUENCE"][0])
    assert after["DTSTAMP"] > before["DTSTAMP"]


def test_a_clock_that_is_a_lifetime_ahead_breaks_no_file(maker, lit, loft):
    """3.3.8: an integer ends at 2147483647."""
    lit("W8R", room=loft, ago=timedelta(days=70 * 366))
    (event,) = events(maker)
    assert event["SEQUENCE"] == ["2147483647"]


def test_no_oil_and_no_name_of_a_person_leaves_the_workshop(maker, lit, loft, odd):
    lit("W8R", room=loft, ago=2 * HOUR, handed_to=odd)
    file = maker.get("/round/put-out.ics").text
    assert "Linen" not in file
    assert "Tarnholt" not in file
    assert "Odd" not in file


def test_a_demo_says_that_it_is_one(maker, lit, loft, settings):
    settings.DEMO_OFFSET_S = 0
    lit("W8R", room=loft, ago=2 * HOUR)
    (event,) = events(maker)
    assert event["SUMMARY"] == ["Demo: put out W8R"]
    assert event["DESCRIPTION"][0].startswith("Demo: all of it is invented.")


def test_a_room_with_a_comma_stays_one_value(maker, lit, loft):
    """3.3.11: a comma in a text is escaped."""
    loft.name = "loft, north; left"
    loft.save()
    lit("W8R", room=loft, ago=2 * HOUR)
    (event,) = events(maker)
    assert event["LOCATION"] == [r"Loft\, north\; left"]


def test_it_is_a_file_of_a_calendar(maker, lit, loft):
    lit("W8R", room=loft, ago=2 * HOUR)
    answer = maker.get("/round/put-out.ics")
    assert answer.headers["Content-Type"] == "text/calendar; charset=utf-8"
    assert 'filename="put-out.ics"' in answer.headers["Content-Disposition"]


def test_with_nothing_lit_there_is_a_sentence_and_no_file(maker):
    answer = maker.get("/round/put-out.ics")
    assert answer.status_code == 404
    assert "No candle is lit, so there is no time to put in a calendar." in answer.text


def test_that_it_was_made_is_noted_for_each_candle_once(maker, lit, loft, now):
    burn = lit("W8R", room=loft, ago=2 * HOUR)
    for _ in range(2):
        events(maker)
    ring = Ring.objects.get()
    assert (ring.deadline, ring.due_at, ring.rung) == (
        f"burn {burn.pk}",
        now + 2 * HOUR,
        "calendar",
    )
