"""By known answer: with the oils permuted among the candles, the road sends the same bytes.

Clock and chance stand still. What is compared is everything a browser is sent, headers and cookies
too; the maker's own page is the control that the two workshops do differ.
"""

import random
import secrets
import uuid
from datetime import UTC, datetime

import pytest
from django.db import transaction
from django.test import Client

from throwbench.records.attribute import KINDS
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Asks, Panel
from workshop.conftest import signed_in
from workshop.panel.conftest import CODES, DAY, OILS, WHOLE, made

STILL = datetime(2027, 5, 24, 9, 5, tzinfo=UTC)
ORDERS = ((0, 1, 2), (1, 0, 2), (1, 2, 0), (2, 1, 0))


@pytest.fixture(autouse=True)
def chance_stands_still(monkeypatch):
    """Every draw comes from one seed; `again` goes back to its beginning."""
    drawn = random.Random()
    letters = "abcdefghijklmnopqrstuvwxyz0123456789"

    def text(count: int = 16) -> str:
        return "".join(drawn.choice(letters) for _ in range(count))

    monkeypatch.setattr(secrets, "choice", drawn.choice)
    monkeypatch.setattr(secrets, "randbelow", drawn.randrange)
    monkeypatch.setattr(secrets, "token_urlsafe", text)
    monkeypatch.setattr(secrets, "token_hex", text)
    monkeypatch.setattr(uuid, "uuid4", lambda: uuid.UUID(int=drawn.getrandbits(128)))
    monkeypatch.setattr("time.time", STILL.timestamp)
    return lambda: drawn.seed(417)


class Ear:
    """Everything a browser was sent, in order."""

    def __init__(self) -> None:
        self.heard: list[tuple[str, int, list[tuple[str, str]], str, bytes]] = []

    def get(self, browser: Client, path: str):
        return self._keep(path, browser.get(path))

    def post(self, browser: Client, path: str, sent: dict[str, object] | None = None):
        return self._keep(path, browser.post(path, sent or {}))

    def _keep(self, path: str, answer):
        headers = sorted(answer.headers.items())
        cookies = answer.cookies.output()
        self.heard.append((path, answer.status_code, headers, cookies, answer.content))
        return answer


def built(order: tuple[int, ...], asks: str, owner: Person) -> Panel:
    """The same workshop, with the oils in another order among candles or blotters."""
    trial, oils, candles = made(owner, STILL, order=order, sealed=False)
    names = ("kitchen", "back room", "loft")
    rooms = [Room.objects.create(name=name, kind="living room") for name in names]
    noses = [Person.objects.create(name=name) for name in ("Odd", "Pernille", "Tor")]
    sniffed = [oils[which] for which in order] if asks == Asks.BLOTTER else candles
    return services.open_panel(
        trial, day=DAY, asks=asks, seats=list(zip(sniffed, rooms, strict=True)), assessors=noses,
        who=owner, now=STILL, chance=random.Random(7),
    )  # fmt: skip


def walked(panel: Panel, owner: Person) -> Ear:
    """Each way of the road from end to end: phone handed round, personal link, signed in, paper."""
    ear = Ear()
    odd, pernille, tor = panel.sittings.all()
    phone, linked, own = Client(), Client(), signed_in(tor.assessor)
    phone.force_login(owner, backend="throwbench.workshop.house.sign_in.OneTimeLink")
    token = services.personal_link(pernille, now=STILL)
    here = f"/trials/{panel.trial_id}/panels/{panel.pk}/"
    if KINDS[panel.asks].has_slip:
        ear.get(phone, f"{here}slips.pdf")
    ear.get(phone, f"{here}front-tags.pdf")
    ear.post(phone, f"{here}hand-round/")
    ear.get(phone, "/nose/someone-else/")
    for name in ("Tor", owner.name, "Guest"):
        ear.post(phone, "/nose/someone-else/", {"name": name})
    ear.post(phone, "/nose/mine/out/")
    ear.get(phone, "/nose/mine/")
    ear.get(phone, "/way-back/")
    ear.post(phone, "/way-back/", {"code": "none"})
    ear.get(linked, f"/nose/by/{token}/")
    ear.get(linked, "/nose/by/old/")
    for browser, sitting in ((phone, odd), (linked, pernille), (own, tor)):
        ear.get(browser, "/nose/")
        ear.post(browser, "/nose/is/", {"nose": sitting.assessor_id})
        ear.get(browser, "/nose/mine/")
        ear.post(browser, "/nose/mine/today/", {"tired": "on"})
        for seat in panel.seats.all():
            _sniffed(ear, browser, panel, seat.tag, sitting.assessor_id)
        ear.get(browser, "/nose/mine/")
    ear.post(own, "/nose/mine/out/")
    ear.get(own, "/nose/999/")
    ear.get(linked, "/house/")
    services.close_panel(panel, who=owner, now=STILL)
    for browser in (phone, linked, own):
        ear.get(browser, "/nose/")
        ear.get(browser, "/nose/mine/")
    return ear


def _sniffed(ear: Ear, browser: Client, panel: Panel, tag: str, nose: int) -> None:
    path = f"/nose/{tag}/"
    page = ear.get(browser, path)
    entry = page.context["form"]["entry"].value()
    ear.post(browser, path, {"nose": nose, "entry": entry})  # nothing pressed
    steps = {name: value or "none" for name, value in WHOLE[panel.asks].items()}
    sent = {**steps, "nose": nose, "entry": entry, "word": "rain", "known": "on"}
    ear.post(browser, path, sent)
    ear.post(browser, path, sent)  # pressed twice
    ear.get(browser, "/nose/thanks/")
    ear.get(browser, path)


@pytest.fixture
def world(owner, chance_stands_still):
    """Builds, lets a walk happen, and takes everything back, ids included."""

    def run(order: tuple[int, ...], asks: str, walk):
        with transaction.atomic():
            chance_stands_still()
            panel = built(order, asks, owner)
            came = walk(panel, owner)
            transaction.set_rollback(True)
        return came

    return run


@pytest.fixture(scope="module")
def first_walks() -> dict[str, Ear]:
    return {}


@pytest.mark.parametrize("order", ORDERS[1:], ids=str)
@pytest.mark.parametrize("asks", KINDS)
def test_with_the_oils_permuted_the_road_sends_the_same_bytes(world, asks, order, first_walks):
    if asks not in first_walks:
        first_walks[asks] = world(ORDERS[0], asks, walked)
    heard, again = first_walks[asks].heard, world(order, asks, walked).heard
    assert len(heard) == len(again)
    for one, other in zip(heard, again, strict=True):
        assert one == other


def test_the_walk_went_all_the_way(world):
    """Else equal bytes would prove nothing."""
    heard = world(ORDERS[0], "lit", walked).heard
    paths = [path for path, *_ in heard]
    ok = {path for path, status, *_ in heard if status == 200}
    assert {"/nose/", "/nose/mine/", "/nose/thanks/", "/nose/someone-else/", "/way-back/"} <= ok
    assert sum(path.endswith(".pdf") for path in paths) == 2
    bodies = b"".join(body for *_, body in heard)
    for sentence in (b"Is that you?", b"opens nothing any more", b"You sit out",
                     b"Whose nose?", b"Do you like it?", b"Thank you", b"was given already",
                     b"Nothing is pressed here", b"is closed"):  # fmt: skip
        assert sentence in bodies, sentence


def makers_page(panel: Panel, owner: Person) -> bytes:
    browser = Client()
    browser.force_login(owner, backend="throwbench.workshop.house.sign_in.OneTimeLink")
    return browser.get(f"/trials/{panel.trial_id}/panels/{panel.pk}/").content


@pytest.mark.parametrize("asks", KINDS)
def test_the_makers_page_does_differ(world, asks):
    first = world(ORDERS[0], asks, makers_page)
    assert first != world(ORDERS[1], asks, makers_page)
    assert first == world(ORDERS[0], asks, makers_page)


@pytest.mark.parametrize("asks", KINDS)
def test_no_page_of_the_road_names_oil_supplier_or_code(world, asks):
    heard = world(ORDERS[0], asks, walked).heard
    names = {word for oil in OILS for word in oil} | set(CODES)
    for path, _, headers, cookies, body in heard:
        sent = f"{path} {headers} {cookies} ".encode() + body
        assert [name for name in names if name.encode() in sent] == [], path


def test_an_order_that_follows_the_oils_is_heard(world, monkeypatch):
    """The other control: one that leaks is caught."""

    def by_oil(sitting, seats, place):
        return sorted(seats, key=lambda seat: seat.candle.combination.candidate.oil.name)

    monkeypatch.setattr("throwbench.workshop.panel.selectors.sittings.in_order_of", by_oil)
    first = world(ORDERS[0], "lit", walked)
    assert first.heard != world(ORDERS[1], "lit", walked).heard
