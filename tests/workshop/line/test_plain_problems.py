"""What is asked about names the candle and the burn; what is kept goes on quoting the file."""

import json
from datetime import timedelta

import pytest
from django.urls import reverse

from throwbench.formats.archive import trial_of
from throwbench.workshop.line import papers
from throwbench.workshop.line.plain_problems import plainly, told_plainly
from throwbench.workshop.line.selectors import kept_archive
from throwbench.workshop.line.services import ask_verdict
from throwbench.workshop.trials.models import TestCandle

from .test_verdict_page import words

LONG = "K7F, burn 2, put out: the burn of 4 h 50 is asked about, usual is 1 h to 4 h 15"


@pytest.fixture
def odd(trial, by):
    """A burn that is too long, with a check off its hour and a mass that grew."""
    burn = TestCandle.objects.get(code="K7F").burns.get(number=2)
    burn.out_at = burn.lit_at + timedelta(hours=4, minutes=50)
    burn.mass_after_mg = burn.mass_before_mg + 1000
    burn.save()
    first = burn.checks.order_by("at").first()
    first.at = burn.lit_at + timedelta(minutes=75)
    first.save()
    return ask_verdict(trial, **by)


def test_what_is_asked_about_names_candle_and_burn(odd, trial, maker):
    shown = words(maker.get(reverse("line:verdict", args=[trial.pk])).content)
    assert LONG in shown
    assert "K7F, burn 2, check at 1.25 h: 1.25 h is asked about" in shown
    assert "burns.csv, line" not in shown


def test_what_was_not_used_names_candle_and_burn(odd):
    holds = [one for one in plainly(odd).holds if one.startswith("Not used: ")]
    assert [one.partition(" g is held back")[0].rpartition(" ")[0] for one in holds] == [
        "Not used: K7F, burn 2, mass after:"
    ]


def test_the_report_says_the_same(odd, monkeypatch):
    seen = []
    monkeypatch.setattr(papers, "report", lambda found, **_: seen.append(found) or b"%PDF")
    papers.report_of(odd, odd.day)
    assert any(one.startswith(LONG) for one in seen[0].problems)


def test_what_is_kept_quotes_the_file(odd, trial, maker):
    maker.get(reverse("line:verdict", args=[trial.pk]))
    odd.refresh_from_db()
    problems = json.loads(odd.verdict)["problems"]
    assert any(one.startswith("burns.csv, line ") and "4 h 50" in one for one in problems)


def test_every_problem_of_a_known_row_is_told_and_none_twice(odd):
    notes = trial_of(kept_archive(odd))
    told = told_plainly(notes)
    assert set(told) == {str(one) for one in notes.problems}
    assert not [one for one in told.values() if ".csv" in one or "_" in one]


def test_no_assessor_is_named_by_it(odd):
    names = {score.assessor for score in trial_of(kept_archive(odd)).scores}
    assert not [said for said in plainly(odd).problems for name in names if name in said]
