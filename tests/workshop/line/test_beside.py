"""What the shelf and the maker's notes say stands beside the verdict; none of it is judged."""

from dataclasses import replace
from datetime import date

import pytest
from django.urls import reverse

from paper import pages
from throwbench.workshop.line.beside import with_the_shelf
from throwbench.workshop.line.selectors import verdict_of
from throwbench.workshop.shelf.models import Oil, Paper
from throwbench.workshop.trials.models import Burn, Candidate, Pour

SLATE, KELP = "Slate After Rain", "Kelp and Iron"
TODAY = date(2027, 5, 24)
CERTIFICATE = "conformity certificate"


@pytest.fixture
def browned(trial):
    """A note on a candle of the slate oil, which names a nose."""
    burn = Burn.objects.filter(candle__combination__candidate__oil__name=SLATE).order_by("pk")[0]
    burn.note = "day 14: Pernille says the wax has browned"
    burn.save()
    return burn


def of(verdict, oil):
    return next(one for one in verdict.candidates if one.candidate == oil)


def equally_good(judgement, *oils):
    found = verdict_of(judgement)
    return replace(
        found,
        candidates=tuple(
            replace(one, equally_good=one.candidate in oils) for one in found.candidates
        ),
    )


def spaced(text):
    return " ".join(text.replace("\xa0", " ").split())


def test_an_oil_to_be_chosen_by_its_papers_says_which_ran_out(trial, judgement):
    kelp = Oil.objects.get(name=KELP)
    days = {"dated": date(2025, 2, 1), "valid_until": date(2027, 1, 31)}
    Paper.objects.create(oil=kelp, kind=CERTIFICATE, version="1", **days)
    told = with_the_shelf(equally_good(judgement, KELP, SLATE), trial, today=TODAY)
    assert [spaced(said) for said in told.holds[:2]] == sorted(
        [
            "Kelp and Iron: its conformity certificate ran out on 31 Jan 2027; its safety data "
            "sheet and allergen statement are not yet known.",
            "Slate After Rain: none of its papers is here yet.",
        ],
        key=lambda said: [one.candidate for one in told.candidates].index(said.split(":")[0]),
    )


def test_a_paper_runs_out_the_day_after_its_last(trial, judgement):
    kelp = Oil.objects.get(name=KELP)
    for kind in ("safety data sheet", CERTIFICATE, "allergen statement"):
        days = {"dated": date(2025, 2, 1), "valid_until": TODAY}
        Paper.objects.create(oil=kelp, kind=kind, version="1", **days)
    told = with_the_shelf(equally_good(judgement, KELP), trial, today=TODAY)
    assert told.holds[0] == "Kelp and Iron: its papers are in date."


@pytest.mark.parametrize(
    ("percent", "said"),
    [
        (None, "On the shelf: vanillin: not known, so browning is open."),
        (0, "On the shelf: vanillin: no browning to expect from it."),
        (0.4, "On the shelf: vanillin 0.4 %: little browning to expect."),
        (4, "On the shelf: vanillin 4 %: browning to expect, look at a candle after two weeks."),
    ],
)
def test_an_oil_to_be_chosen_by_its_papers_has_its_vanillin(trial, judgement, percent, said):
    Oil.objects.filter(name=KELP).update(vanillin_percent=percent)
    told = with_the_shelf(equally_good(judgement, KELP), trial, today=TODAY)
    assert spaced(of(told, KELP).reasons[-1]) == said


def test_an_oil_that_is_placed_says_vanillin_only_where_browning_is_to_expect(trial, judgement):
    found = equally_good(judgement)
    Oil.objects.filter(name=SLATE).update(vanillin_percent=0.5)
    assert with_the_shelf(found, trial, today=TODAY) == found
    Oil.objects.filter(name=SLATE).update(vanillin_percent=0.6)
    told = of(with_the_shelf(found, trial, today=TODAY), SLATE)
    assert "browning to expect" in told.reasons[-1]


def test_a_note_of_browning_is_quoted_and_stands_under_burns_well(trial, judgement, browned, maker):
    told = of(with_the_shelf(verdict_of(judgement), trial, today=TODAY), SLATE)
    code = browned.candle.code
    assert f"browning in your notes on {code}" in told.burns_well
    assert (
        f"Your note on {code}, burn {browned.number}: “day 14: Pernille says the wax has browned”."
    ) in told.reasons
    page = spaced(maker.get(reverse("line:verdict", args=[trial.pk])).content.decode())
    assert "says the wax has browned" in page
    assert f"browning in your notes on {code}" in page


def test_nothing_noted_gives_way_to_the_note(trial, judgement, browned):
    found = verdict_of(judgement)
    bare = tuple(replace(one, burns_well=("nothing noted",)) for one in found.candidates)
    told = with_the_shelf(replace(found, candidates=bare), trial, today=TODAY)
    assert of(told, SLATE).burns_well == (f"browning in your notes on {browned.candle.code}",)
    assert of(told, KELP).burns_well == ("nothing noted",)


def test_the_report_has_the_note_without_the_name_of_a_nose(trial, judgement, browned, maker):
    address = reverse("line:report", args=[trial.pk])
    before = maker.get(address).content
    said = spaced(" ".join(pages(before)))
    assert "one assessor says the wax has browned" in said
    assert "Pernille" not in said
    Oil.objects.filter(name=SLATE).update(vanillin_percent=4)
    after = spaced(" ".join(pages(maker.get(address).content)))
    assert "vanillin 4 %: browning to expect" in after


def test_a_note_on_a_pour_counts_for_all_its_candles(trial, judgement, owner, now):
    member = Candidate.objects.get(trial=trial, oil__name=SLATE)
    made = member.combinations.first()
    pour = Pour.objects.create(
        candidate=member, wax=made.wax, load_percent=8, begun_at=now, begun_by=owner,
        poured_at=now, poured_by=owner, note="discoloured in the pitcher",
    )  # fmt: skip
    candle = made.candles.first()
    candle.pour = pour
    candle.save()
    told = of(with_the_shelf(verdict_of(judgement), trial, today=TODAY), SLATE)
    assert f"Your note on {candle.code}, its pour: “discoloured in the pitcher”." in told.reasons


def test_nothing_of_it_is_in_the_kept_verdict(trial, judgement, browned, maker):
    maker.get(reverse("line:verdict", args=[trial.pk]))
    judgement.refresh_from_db()
    assert "browned" not in judgement.verdict
