"""The archive, asked on the command line, gives the kept verdict: whole, and to the last digit."""

import io
import json
import zipfile

import pytest
from click.testing import CliRunner
from django.conf import settings
from django.urls import reverse

from throwbench.cli import main
from throwbench.workshop.house.models import HouseLimit
from throwbench.workshop.line.services import ask_verdict
from throwbench.workshop.panel.models import Score


def ask_the_command(content: bytes, tmp_path) -> dict:
    path = tmp_path / "notes.zip"
    path.write_bytes(content)
    told = CliRunner().invoke(main, ["verdict", str(path), "--json"])
    assert told.exit_code == 0, told.output
    found = json.loads(told.output)
    del found["sentence"]
    return found


def test_the_command_gives_the_same_verdict(trial, judgement, maker, tmp_path):
    answer = maker.get(reverse("line:export", args=[trial.pk]))
    assert answer.headers["Content-Type"] == "application/zip"
    assert 'filename="long-light-2027-05-24.zip"' in answer.headers["Content-Disposition"]
    assert ask_the_command(answer.content, tmp_path) == json.loads(judgement.verdict)


def test_a_house_limit_goes_with_it(trial, owner, now, tmp_path):
    HouseLimit.objects.create(rule="flame-height", value=20, set_by=owner, set_at=now)
    kept = ask_verdict(trial, who=owner, now=now)
    assert ask_the_command(bytes(kept.archive), tmp_path) == json.loads(kept.verdict)
    assert any("Your own limit" in said for said in json.loads(kept.verdict)["defaults"])


def test_the_notes_of_an_old_verdict_stay_to_be_had(judgement, maker, by, tmp_path):
    trial = judgement.trial
    Score.objects.filter(attribute="liking").order_by("pk").first().delete()
    newer = ask_verdict(trial, **by)
    old = maker.get(reverse("line:archive", args=[trial.pk, judgement.pk])).content
    assert old == bytes(judgement.archive) != bytes(newer.archive)
    assert ask_the_command(old, tmp_path) == json.loads(judgement.verdict)


def test_it_holds_the_files_and_the_question(trial, judgement, maker):
    content = maker.get(reverse("line:export", args=[trial.pk])).content
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        assert sorted(packed.namelist()) == [
            "burns.csv", "candles.csv", "one-of.csv", "scores.csv", "trial.json",
        ]  # fmt: skip


def test_the_verdict_of_another_trial_is_not_there(trial, judgement, maker):
    assert maker.get(reverse("line:archive", args=[trial.pk + 1, judgement.pk])).status_code == 404


def test_without_a_verdict_there_is_nothing_to_export(trial, maker):
    answer = maker.get(reverse("line:export", args=[trial.pk]))
    assert answer.headers["Location"] == reverse("line:verdict", args=[trial.pk])


@pytest.mark.parametrize(
    ("name", "kind", "begins"),
    [
        ("report", "application/pdf", b"%PDF"),
        ("picture", "image/png", b"\x89PNG"),
        ("table", "text/csv; charset=utf-8", b"oil,supplier"),
    ],
)
def test_each_paper_is_made_once(judgement, maker, name, kind, begins):
    trial = judgement.trial
    first = maker.get(reverse(f"line:{name}", args=[trial.pk]))
    assert first.headers["Content-Type"] == kind
    assert first.content.startswith(begins)
    again = maker.get(reverse(f"line:{name}", args=[trial.pk]))
    assert again.content == first.content
    kept = [path.name for path in settings.FOLDER.charts.glob(f"*{name}*")]
    assert len(kept) == (name != "table")


def test_no_paper_names_an_assessor(trial, judgement, maker):
    table = maker.get(reverse("line:table", args=[trial.pk])).content.decode()
    assert "Pernille" not in table
