"""What is planted in the demo shows where the page about it says: event, page, sentence."""

import html
import json
import re
import zipfile
from io import BytesIO
from pathlib import Path

import pytest
from django.test import Client

from throwbench.demo.workshop.long_light import NAME
from throwbench.demo.workshop.times import MORNING
from throwbench.web.folder import Folder
from throwbench.workshop.house.models import Person
from throwbench.workshop.line.models import Judgement

HOW_TO = Path(__file__).parents[3] / "docs" / "how-to"
ROW = re.compile(r"^\| (.+?) \| [^|]*: `(/\S*)` \| (.+?) \|$", re.MULTILINE)
PLANTED = ROW.findall((HOW_TO / "demo.md").read_text(encoding="utf-8"))

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("demo")]


@pytest.fixture
def maker(settings, tmp_path, monkeypatch) -> Client:
    """The maker's browser, on the morning of the decision."""
    settings.FOLDER = Folder(tmp_path)
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: MORNING)
    client = Client()
    client.force_login(Person.objects.get(name="Ragnhild"))
    return client


def words(page: str) -> str:
    """What a person reads, in one line."""
    body = re.sub(r"<(head|script|svg)\b.*?</\1>", "", page, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"</?(?:b|i|a|strong|span)\b[^>]*>", "", body)).split())


def test_every_event_and_every_truth_has_its_row():
    assert len({event for event, _, _ in PLANTED}) >= 10 + 10


@pytest.mark.parametrize(("event", "address", "sentence"), PLANTED)
def test_the_sentence_stands_on_its_page(maker, event, address, sentence):
    answer = maker.get(address)
    assert answer.status_code == 200
    assert sentence in words(answer.content.decode())


def test_the_page_of_the_export_shows_what_the_demo_asks():
    page = (HOW_TO / "export.md").read_text(encoding="utf-8")
    shown = page.partition("```json trial.json\n")[2].partition("```")[0]
    kept = Judgement.objects.get(trial__name=NAME).archive
    with zipfile.ZipFile(BytesIO(bytes(kept))) as archive:
        assert json.loads(shown) == json.loads(archive.read("trial.json"))
