"""One page open in two tabs: the second writes what was changed in it, and takes nothing back."""

from html.parser import HTMLParser
from typing import Any

import pytest
from django.db.models import Model
from django.test import Client

from throwbench.workshop.house.models import HouseLimit
from throwbench.workshop.shelf.models import Oil, Vessel, Wax
from throwbench.workshop.trials.services import plan


class _Boxes(HTMLParser):
    """What a browser sends of a page when nothing is touched; its only form of several boxes."""

    def __init__(self) -> None:
        super().__init__()
        self.sent: dict[str, str] = {}
        self._name = ""
        self._is_text = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = dict(attrs)
        name, value = known.get("name") or "", known.get("value") or ""
        if tag == "input" and name and (known.get("type") != "checkbox" or "checked" in known):
            self.sent[name] = value
        if tag in ("select", "textarea"):
            self._name, self._is_text = name, tag == "textarea"
            self.sent.setdefault(name, "")
        if tag == "option" and "selected" in known:
            self.sent[self._name] = value

    def handle_data(self, data: str) -> None:
        if self._is_text:
            self.sent[self._name] += data.removeprefix("\n")

    def handle_endtag(self, tag: str) -> None:
        self._is_text = self._is_text and tag != "textarea"


class Tab:
    """A page that was opened once, and is sent later."""

    def __init__(self, client: Client, page: str) -> None:
        self.client, self.page = client, page
        self._take(client.get(page))

    def _take(self, answer: Any) -> None:
        boxes = _Boxes()
        boxes.feed(answer.content.decode().replace("\r\n", "\n"))
        self.boxes = boxes.sent

    def send(self, **changed: str) -> Any:
        """As a browser sends it: lines end as the standard has it."""
        self.boxes |= changed
        told = {name: text.replace("\n", "\r\n") for name, text in self.boxes.items()}
        answer = self.client.post(self.page, told)
        if answer.status_code == 200:
            self._take(answer)
        return answer


@pytest.fixture
def rows(kitchen, workshop, owner, now) -> dict[str, tuple[str, Model]]:
    """Each page that changes something, and its row."""
    note = "two\r\nlines"
    oil = Oil.objects.create(name="Ferry Rope", note=note)
    wax = Wax.objects.create(name="R-36", note=note, cure_days=10)
    vessel = Vessel.objects.create(name="cup", material="stoneware")
    trial = plan.plan_trial(
        name="Long Light", question="Which?", choose=1, wax=wax, who=owner, now=now
    )
    return {
        "room": (f"/house/rooms/{kitchen.pk}/", kitchen),
        "settings": ("/house/settings/", workshop),
        "oil": (f"/shelf/oils/{oil.pk}/change/", oil),
        "wax": (f"/shelf/waxes/{wax.pk}/change/", wax),
        "vessel": (f"/shelf/vessels/{vessel.pk}/change/", vessel),
        "trial": (f"/trials/{trial.pk}/change/", trial),
    }


PAIRS = [
    ("room", ("airing_h", "7", 7), ("name", "scullery", "scullery")),
    ("settings", ("zone", "Europe/Paris", "Europe/Paris"), ("name", "Ours", "Ours")),
    ("oil", ("flash_c", "96", 96), ("note", "one line", "one line")),
    ("oil", ("soap_browns", "yes", True), ("name", "Rope", "Rope")),
    ("oil", ("note", "one line", "one line"), ("idea", "harbour", "harbour")),
    ("wax", ("cure_days", "12", 12), ("melts_at_c", "46", 46)),
    ("vessel", ("inside_mm", "68", 68), ("name", "mug", "mug")),
    ("trial", ("choose", "3", 3), ("decide_on", "2027-06-19", "2027-06-19")),
    ("trial", ("sealed", "yes", True), ("fill_g", "168", 168_000)),
]


def held(row: Model, name: str) -> Any:
    row.refresh_from_db()
    value = getattr(row, "fill_mg" if name == "fill_g" else name)
    return str(value) if name == "decide_on" else value


@pytest.mark.parametrize(("what", "first", "second"), PAIRS)
def test_what_one_tab_changed_the_other_leaves_alone(maker, rows, what, first, second):
    page, row = rows[what]
    one, other = Tab(maker, page), Tab(maker, page)
    assert one.send(**{first[0]: first[1]}).status_code == 302
    assert other.send(**{second[0]: second[1]}).status_code == 302
    assert held(row, first[0]) == first[2]
    assert held(row, second[0]) == second[2]


@pytest.mark.parametrize("what", ["room", "settings", "oil", "wax", "vessel", "trial"])
def test_where_both_changed_one_thing_it_asks_and_then_takes_the_answer(maker, rows, what):
    page, row = rows[what]
    one, other = Tab(maker, page), Tab(maker, page)
    was = held(row, "name")
    one.send(name="from the first")
    asked = other.send(name="from the second")
    assert asked.status_code == 200
    said = asked.content.decode()
    assert f"was “{was}” when this page was opened" in said
    assert "was changed to “from the first” meanwhile" in said
    assert "Send this once more to keep “from the second”" in said
    assert held(row, "name") == "from the first"
    assert other.send().status_code == 302
    assert held(row, "name") == "from the second"


def test_an_own_limit_that_was_set_meanwhile_is_asked_about(maker, workshop):
    page = "/house/limits/vessel-temperature/"
    one, other = Tab(maker, page), Tab(maker, page)
    one.send(value="70")
    said = other.send(value="65").content.decode()
    assert "was empty when this page was opened, and was changed to “70 °C” meanwhile" in said
    assert HouseLimit.objects.get().value == 70
    assert other.send().status_code == 302
    assert HouseLimit.objects.get().value == 65


def test_choices_units_and_empty_boxes_are_said_as_they_are_read(maker, rows):
    page, _ = rows["room"]
    one, other = Tab(maker, page), Tab(maker, page)
    one.send(has_door="no", airing_h="")
    said = other.send(has_door="", airing_h="7").content.decode()
    assert "Door that shuts was “yes” when this page was opened, and was changed to “no”" in said
    assert "to keep “not known”" in said
    assert "Airing between nose burns was “4 h” when this page" in said
    assert "changed to empty meanwhile" in said
    assert "to keep “7 h”, or write empty" in said


def test_the_same_change_twice_is_one(maker, rows):
    page, row = rows["room"]
    one, other = Tab(maker, page), Tab(maker, page)
    one.send(airing_h="7")
    assert other.send(airing_h="7").status_code == 302
    assert held(row, "airing_h") == 7


def test_while_it_asks_what_was_left_alone_is_shown_as_it_is_now(maker, rows):
    page, row = rows["room"]
    one, other = Tab(maker, page), Tab(maker, page)
    one.send(name="scullery", airing_h="7")
    other.send(name="pantry")
    assert other.boxes["airing_h"] == "7"
    other.send()
    assert (held(row, "name"), held(row, "airing_h")) == ("pantry", 7)


def test_sent_without_what_was_seen_all_of_it_is_written(maker, rows):
    """A page kept by a browser since before this was asked."""
    page, row = rows["room"]
    maker.post(page, {"name": "scullery", "kind": "large room", "has_door": "", "airing_h": ""})
    assert [held(row, name) for name in ("name", "has_door", "airing_h")] == [
        "scullery",
        None,
        None,
    ]
