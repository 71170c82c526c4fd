"""What is in the line, oils head to head, and what an oil's own page shows."""

import re
from dataclasses import replace
from datetime import timedelta

import pytest
from django.template import Context, Template
from django.urls import reverse

from throwbench.workshop.line.compare import head_to_head, of_idea
from throwbench.workshop.line.evidence import _nose_first, evidence_of, said_of_oil
from throwbench.workshop.line.line_page import line_page
from throwbench.workshop.line.selectors import verdict_of
from throwbench.workshop.line.services import ask_verdict, decide
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.models import Candidate, TestCandle, Trial

from .conftest import burn_again, candidate, load
from .test_verdict_page import words

JOINS = "joins the line"
RHUBARBS = {"Rebarbara K", "Rhubarb Cold Frame"}


class TestTheLine:
    def test_empty_it_says_what_could_be_here(self, maker, db):
        shown = words(maker.get(reverse("line:index")).content)
        assert "Nothing is in the line yet." in shown
        assert "To the trials" in shown

    def test_it_says_how_many_and_of_which_none_may_be_sold(self, trial, judgement, by, maker):
        decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)
        decide(candidate(trial, "Kelp and Iron"), outcome=JOINS, **by)
        shown = words(maker.get(reverse("line:index")).content)
        assert "Two oils are in the line. One may not be sold yet." in shown
        assert "Sell none before its limits are known. Burn W8R to 12 mm of wax." in shown
        assert "flat cotton 5, 8 % of wax, stoneware cup, tried with sticker" in shown

    def test_tested_again_and_dropped_stand_below(self, trial, by, maker):
        decide(candidate(trial, "Slate After Rain"), outcome="test again", **by)
        decide(candidate(trial, "Rebarbara K"), outcome="dropped", why="no paper", **by)
        page = line_page()
        assert [str(one.decision.candidate) for one in page.again] == ["Slate After Rain"]
        assert [str(one.decision.candidate) for one in page.dropped] == ["Rebarbara K"]
        assert "no paper" in words(maker.get(reverse("line:index")).content)

    def test_an_oil_stands_once_by_its_last_decision(self, trial, by):
        decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)
        later = by | {"now": by["now"] + timedelta(days=1)}
        decide(candidate(trial, "Slate After Rain"), outcome="dropped", **later)
        page = line_page()
        assert page.joined == ()
        assert len(page.dropped) == 1

    def test_a_limit_that_breaks_after_it_joined_is_said(self, trial, judgement, by, maker):
        decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)
        burn_again(TestCandle.objects.get(code="K7F"), owner=by["who"], flare_up="pool")
        ask_verdict(trial, **by | {"now": by["now"] + timedelta(hours=1)})
        shown = words(maker.get(reverse("line:index")).content)
        assert "One oil is in the line. None of it may be sold yet." in shown
        assert "Sell none: a limit broke since it joined." in shown

    def test_a_hold_falls_away_once_the_limits_are_known(self, trial, judgement, by):
        kelp = candidate(trial, "Kelp and Iron")
        decide(kelp, outcome=JOINS, **by)
        assert line_page().joined[0].hold.startswith("its limits are known")
        TestCandle.objects.get(code="W8R").burns.update(wax_left_mm=12)
        ask_verdict(trial, **by | {"now": by["now"] + timedelta(hours=1)})
        (standing,) = line_page().joined
        assert standing.limits.state == "none broken"
        assert standing.hold == ""
        assert kelp.decisions.get().sell_none_before != ""

    def test_an_oil_that_joined_without_a_trial_of_it_stays_held(self, trial, by, maker):
        tar = Candidate.objects.create(
            trial=trial, oil=Oil.objects.create(name="Harbour Tar"), role="reference"
        )
        decide(tar, outcome=JOINS, why="in the line since last year", **by)
        shown = words(maker.get(reverse("line:index")).content)
        assert "Harbour Tar" in shown
        assert "Reference candle." in shown

    def test_a_sealed_trial_tells_nothing_of_its_limits(self, trial, judgement, by):
        decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)
        Trial.objects.update(sealed=True)
        assert line_page().joined[0].limits is None

    def test_it_asks_little_of_the_database(
        self, trial, judgement, by, maker, django_assert_max_num_queries
    ):
        decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)
        decide(candidate(trial, "Kelp and Iron"), outcome=JOINS, **by)
        with django_assert_max_num_queries(12):
            maker.get(reverse("line:index"))


class TestHeadToHead:
    def test_the_one_ahead_is_said_with_the_chance_of_the_verdict(self, judgement):
        found = head_to_head(judgement, RHUBARBS)
        kept = {one.candidate: one for one in verdict_of(judgement).candidates}
        first, second = found.sides
        assert kept[first.oil].chance_to_belong > kept[second.oil].chance_to_belong
        assert found.sentence.replace("\N{NO-BREAK SPACE}", " ").startswith(
            f"{first.oil} is ahead: it belongs in the two "
        )
        assert f"{100 * kept[first.oil].chance_to_belong:.0f} in 100" in found.sentence

    def test_whether_that_is_settled_is_said(self, judgement):
        found = head_to_head(judgement, RHUBARBS)
        kept = {one.candidate: one for one in verdict_of(judgement).candidates}
        settled = kept[found.sides[0].oil].placed
        assert ("The scores settle that." in found.risk) == settled

    def test_one_alone_is_no_comparison(self, judgement):
        assert head_to_head(judgement, {"Rebarbara K"}) is None

    def test_the_page_of_a_theme_shows_cold_hot_liking_and_limits(self, trial, judgement, maker):
        shown = words(maker.get(reverse("line:compare", args=[trial.pk, "rhubarb"])).content)
        for word in ("Cold throw", "Hot throw", "Liking", "Limits", "none broken", *RHUBARBS):
            assert word in shown

    def test_a_theme_that_is_not_there_is_said(self, trial, maker):
        address = reverse("line:compare", args=[trial.pk, "tar"])
        assert maker.get(address).status_code == 404

    def test_before_a_verdict_there_is_nothing_to_lay_beside(self, trial, maker):
        shown = words(maker.get(reverse("line:compare", args=[trial.pk, "rhubarb"])).content)
        assert "Nothing to lay beside each other: rhubarb." in shown

    def test_oils_of_one_idea_are_found_in_their_trial(self, judgement, maker):
        Oil.objects.filter(name__in=RHUBARBS).update(idea="garden")
        (found,) = of_idea("garden")
        assert {side.oil for side in found.sides} == RHUBARBS
        shown = words(maker.get(reverse("line:compare_idea"), {"idea": "garden"}).content)
        assert "is ahead" in shown

    def test_an_idea_is_asked_for(self, maker, db):
        assert "Name an idea" in words(maker.get(reverse("line:compare_idea")).content)

    def test_a_sealed_trial_is_left_out(self, judgement):
        Oil.objects.filter(name__in=RHUBARBS).update(idea="garden")
        Trial.objects.update(sealed=True)
        assert list(of_idea("garden")) == []


class TestTheOilsOwnPage:
    @pytest.fixture
    def shown(self):
        page = Template("{% load line %}{% oil_evidence oil %}")
        return lambda oil: words(page.render(Context({"oil": oil})).encode())

    def test_cold_and_hot_stand_with_the_chance(self, judgement, trial, shown):
        text = shown(candidate(trial, "Rebarbara K").oil)
        assert "Cold throw" in text
        assert "in 100 to belong in the two" in text

    def test_an_oil_alone_is_no_first_of_one(self, owner, rooms, now, shown):
        alone = load(["Slate After Rain"], owner=owner, rooms=rooms, choose=1)
        ask_verdict(alone, who=owner, now=now)
        text = shown(candidate(alone, "Slate After Rain").oil)
        assert "cold throw: the only one. The truth" in text

    def test_an_oil_with_an_idea_leads_to_its_head_to_head(self, judgement, trial):
        oil = candidate(trial, "Rebarbara K").oil
        page = Template("{% load line %}{% oil_evidence oil %}")
        address = f"{reverse('line:compare_idea')}?idea=cold%20garden"
        assert address not in page.render(Context({"oil": oil}))
        oil.idea = "cold garden"
        assert address in page.render(Context({"oil": oil}))

    def test_the_shelf_shows_it_on_the_page_of_the_oil(self, judgement, trial, maker):
        oil = candidate(trial, "Rebarbara K").oil
        shown = words(maker.get(reverse("shelf:oil", args=[oil.pk])).content)
        assert "in 100 to belong in the two" in shown

    def test_the_decision_stands_there(self, judgement, trial, by, shown):
        decide(candidate(trial, "Rebarbara K"), outcome="dropped", why="no paper", **by)
        assert "no paper" in shown(candidate(trial, "Rebarbara K").oil)

    def test_without_a_verdict_it_says_what_could_be_here(self, trial, shown):
        assert "No verdict speaks of Slate After Rain yet." in shown(
            candidate(trial, "Slate After Rain").oil
        )

    def test_a_sealed_trial_says_nothing(self, judgement, trial):
        Trial.objects.update(sealed=True)
        assert evidence_of(candidate(trial, "Rebarbara K").oil) == ()

    def test_an_oil_that_joined_the_trial_later_is_not_spoken_of(self, judgement, trial):
        fog = Oil.objects.create(name="Fog")
        Candidate.objects.create(trial=trial, oil=fog)
        assert evidence_of(fog) == ()

    def test_the_place_in_the_cold_is_counted(self, judgement, trial):
        (one,) = evidence_of(candidate(trial, "Rebarbara K").oil)
        assert one.sums[0].words.startswith("cold throw: ")
        assert " of 4. " in one.sums[0].words


def test_a_name_cannot_become_markup(trial, by, maker):
    Oil.objects.filter(name="Slate After Rain").update(name="<b>Slate</b>")
    ask_verdict(trial, **by)
    html = maker.get(reverse("line:verdict", args=[trial.pk])).content.decode()
    assert "<b>Slate</b>" not in html
    assert "&lt;b&gt;Slate&lt;/b&gt;" in html


def test_an_oil_that_was_taken_out_since_keeps_its_row(trial, judgement, maker):
    Oil.objects.filter(name="Rhubarb Cold Frame").update(name="Cold Frame")
    shown = words(maker.get(reverse("line:verdict", args=[trial.pk])).content)
    assert "Rhubarb Cold Frame" in shown
    assert "came or changed since" in shown


class TestTheSentenceOfAnOil:
    """The nose first, the papers second."""

    def told(self, judgement, oil, **change):
        verdict = verdict_of(judgement)
        one = next(one for one in verdict.candidates if one.candidate == oil)
        scent = tuple(
            replace(item, middle=change.get(item.attribute, item.middle)) for item in one.scent
        )
        scent = tuple(item for item in scent if change.get(item.attribute, 1) is not None)
        return _nose_first(replace(one, scent=scent), verdict)

    def test_it_is_said_first_and_the_papers_after_it(self, judgement, maker):
        oil = Oil.objects.get(name="Slate After Rain")
        text = maker.get(reverse("shelf:oil", args=[oil.pk])).content.decode()
        assert said_of_oil(oil) in text
        assert text.index(said_of_oil(oil)) < text.index("None of its papers is here yet.")

    @pytest.mark.parametrize(
        ("cold", "hot", "said"),
        [
            (3.3, 3.5, "Clear in the cold, strong when lit"),
            (4.5, 2.2, "Strong in the cold, faint and too weak when lit"),
            (5.0, 4.5, "Overpowering in the cold, strong and too strong when lit"),
            (None, 1.0, "Nothing when lit"),
            (2.0, None, "Faint in the cold"),
        ],
    )
    def test_it_says_how_strong_and_whether_that_is_right(self, judgement, cold, hot, said):
        told = self.told(judgement, "Slate After Rain", cold_throw=cold, hot_throw=hot)
        assert told.partition(";")[0] == said
        assert told.endswith("in 100 to belong in the two.")

    def test_without_a_score_nothing_is_said(self, judgement):
        assert self.told(judgement, "Slate After Rain", cold_throw=None, hot_throw=None) == ""

    def test_on_another_scale_the_figure_stands(self, judgement):
        verdict = replace(verdict_of(judgement), scale=(1, 9))
        assert re.match(r"\d\.\d in the cold, \d\.\d", _nose_first(verdict.candidates[0], verdict))

    def test_a_sealed_trial_says_nothing(self, judgement, trial):
        trial.sealed, trial.unsealed_at = True, None
        trial.save()
        assert said_of_oil(Oil.objects.get(name="Slate After Rain")) == ""
