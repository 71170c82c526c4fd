"""Asking for the verdict: judged from the archive, once for each state of the notes."""

from dataclasses import asdict
from datetime import timedelta

import pytest
from django.db import IntegrityError, connection, transaction

from throwbench import __version__
from throwbench.formats.archive import digest
from throwbench.formats.kept import verdict_from_json
from throwbench.workshop.house.models import HouseLimit
from throwbench.workshop.line import services
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.selectors import archive_of, kept_archive, verdict_of
from throwbench.workshop.line.services import ask_verdict
from throwbench.workshop.panel.models import Score, Sniff
from throwbench.workshop.trials.models import Band, Trial

from .conftest import candidate


def test_the_same_notes_are_judged_once(trial, owner, now, monkeypatch):
    first = ask_verdict(trial, who=owner, now=now)
    monkeypatch.setattr(services, "judged_apart", None)
    again = ask_verdict(trial, who=owner, now=now + timedelta(hours=1))
    assert again == first
    assert Judgement.objects.count() == 1


def test_one_more_score_is_judged_anew(trial, judgement, owner, now):
    Score.objects.filter(attribute="liking").order_by("pk").first().delete()
    assert ask_verdict(trial, who=owner, now=now) != judgement


def test_another_version_judges_anew(trial, judgement, owner, now, monkeypatch):
    monkeypatch.setattr(services, "__version__", "99.0")
    newer = ask_verdict(trial, who=owner, now=now)
    assert newer.engine == "99.0"
    assert newer.digest == judgement.digest


def test_it_is_judged_outside_a_transaction(trial, owner, now, monkeypatch):
    """A long computation never holds the database: no block is open but that of the test."""
    judged = services.judged_apart
    held = []

    def judge(notes):
        held.append(len(connection.savepoint_ids))
        return judged(notes)

    monkeypatch.setattr(services, "judged_apart", judge)
    ask_verdict(trial, who=owner, now=now)
    assert held == [0]


def test_it_keeps_digest_version_day_and_notes(trial, judgement, now):
    assert judgement.digest == digest(archive_of(trial, day=judgement.day))
    assert judgement.engine == __version__
    assert judgement.day.isoformat() == "2027-05-24"
    assert kept_archive(judgement) == archive_of(trial, day=judgement.day)


def test_it_keeps_the_verdict_whole(judgement):
    kept = verdict_of(judgement)
    assert asdict(kept) == asdict(verdict_from_json(judgement.verdict))
    assert kept.pick[0] == "Slate After Rain"


def test_the_day_is_that_of_the_workshop(trial, owner, now):
    """22:30 in London is the next day in Oslo."""
    late = now.replace(hour=22, minute=30)
    assert ask_verdict(trial, who=owner, now=late).day.isoformat() == "2027-05-25"


def test_the_database_keeps_one_a_digest_and_version(judgement):
    with pytest.raises(IntegrityError), transaction.atomic():
        Judgement.objects.create(
            trial=judgement.trial, digest=judgement.digest, engine=judgement.engine,
            day=judgement.day, made_at=judgement.made_at, archive=b"", verdict="{}",
        )  # fmt: skip


def test_the_sentence_of_a_second_one_is_said(judgement):
    twin = Judgement(
        trial=judgement.trial, digest=judgement.digest, engine=judgement.engine,
        day=judgement.day, made_at=judgement.made_at, archive=b"-", verdict="{}",
    )  # fmt: skip
    with pytest.raises(Exception, match="judged already"):
        twin.full_clean()


class TestTheQuestion:
    """What is asked stands in the archive, out of the trial and the house."""

    def test_it_names_trial_and_workshop(self, trial, workshop):
        workshop.invented = True
        workshop.save()
        asked = archive_of(trial, day=trial.made_at.date()).question
        assert (asked.trial, asked.workshop) == ("Long Light", "Saltmyr Lysstøperi")
        assert asked.invented
        assert asked.choose == 2
        assert asked.scale == (1, 5)

    def test_a_band_of_a_kind_holds_for_each_such_room_with_scores(self, trial, now):
        bands = archive_of(trial, day=now.date()).question.bands
        assert [(band.low, band.high, band.room) for band in bands] == [(3.2, 4.4, "kitchen")]

    def test_a_band_of_a_kind_without_scores_is_left_out(self, trial, now):
        Score.objects.filter(sniff__seat__room__name="kitchen", attribute="hot_throw").delete()
        assert archive_of(trial, day=now.date()).question.bands == ()

    def test_a_room_whose_scores_do_not_count_has_no_band(self, trial, owner, now):
        """Of a wax that cures 90 days no score counts yet; the verdict can still be asked."""
        trial.candidates.first().combinations.first().wax.__class__.objects.update(cure_days=90)
        assert archive_of(trial, day=now.date()).question.bands == ()
        assert verdict_of(ask_verdict(trial, who=owner, now=now)).pick == ()

    def test_a_room_whose_rows_are_refused_has_no_band(self, trial, owner, now):
        """As when a burn is noted as out a day late: the verdict can still be asked."""
        Sniff.objects.filter(seat__room__name="kitchen", minutes_lit__isnull=False).update(
            minutes_lit=1500
        )
        assert archive_of(trial, day=now.date()).question.bands == ()
        verdict = verdict_of(ask_verdict(trial, who=owner, now=now))
        assert any("minutes_lit: 1500 min is refused" in one for one in verdict.problems)

    def test_notes_of_which_no_row_can_be_read_are_still_looked_at(self, trial, now):
        """A page that only says what came since must open; asking for the verdict says why not."""
        Sniff.objects.update(clean_air_min=5000)
        assert archive_of(trial, day=now.date()).question.bands == ()

    def test_a_band_without_a_kind_holds_for_all_rooms(self, trial, now):
        Band.objects.update(room_kind="")
        bands = archive_of(trial, day=now.date()).question.bands
        assert [band.room for band in bands] == [None]

    def test_a_house_limit_is_asked_for(self, trial, owner, now):
        HouseLimit.objects.create(rule="flame-height", value=50, set_by=owner, set_at=now)
        assert archive_of(trial, day=now.date()).question.house == {"flame-height": 50.0}

    def test_an_empty_trial_is_said_to_be_empty(self, owner, now):
        empty = Trial.objects.create(name="Nothing yet", made_at=now, made_by=owner)
        kept = verdict_of(ask_verdict(empty, who=owner, now=now))
        assert kept.pick == ()
        assert kept.headline.startswith("No pick")


def test_an_oil_keeps_its_supplier_and_theme(trial, judgement):
    kept = {one.candidate: one for one in verdict_of(judgement).candidates}
    assert kept["Rebarbara K"].group == "rhubarb"
    assert kept["Rebarbara K"].supplier == candidate(trial, "Rebarbara K").oil.supplier.name
