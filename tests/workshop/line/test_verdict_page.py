"""The verdict page: shows what was kept, computes nothing, and says what changed since."""

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from throwbench.documents import draw, result_columns
from throwbench.documents.result_columns import EVERYWHERE, ResultColumn
from throwbench.workshop.house.corrections import put_right
from throwbench.workshop.line import services
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.selectors import verdict_of
from throwbench.workshop.line.services import decide
from throwbench.workshop.panel.models import Score
from throwbench.workshop.trials.models import Swap, TestCandle, Trial

from ..conftest import signed_in
from .conftest import candidate, load


def words(content: bytes) -> str:
    """What a reader sees, spaces made one."""
    text = re.sub(r"<[^>]+>", " ", content.decode())
    return re.sub(r"\s+", " ", text.replace("\N{NO-BREAK SPACE}", " "))


@pytest.fixture
def page(trial):
    return reverse("line:verdict", args=[trial.pk])


def test_the_pick_is_the_first_sentence(judgement, maker, page):
    found = verdict_of(judgement)
    heading = re.search(r"<h1.*?</h1>", maker.get(page).content.decode(), re.S)[0]
    assert found.headline in words(heading.encode())
    assert found.risk in words(heading.encode())


def test_no_name_of_an_oil_breaks_in_it(judgement, maker, page):
    assert "Slate\N{NO-BREAK SPACE}After\N{NO-BREAK SPACE}Rain" in maker.get(page).content.decode()


def test_every_oil_has_its_row_with_strip_limits_and_decision(judgement, maker, page):
    html = maker.get(page).content.decode()
    for one in verdict_of(judgement).candidates:
        row = re.search(
            rf'<tr role="row">\s*<th scope="row"[^>]*>.*?{one.candidate}.*?</tr>', html, re.S
        )[0]
        assert 'aria-label="Hot throw' in row
        assert "chip--" in row
        assert "Decide" in row


def test_a_new_column_of_the_result_is_told_on_the_page_too(judgement, maker, page, monkeypatch):
    there = result_columns.result_columns
    new = ResultColumn("letters", lambda one: len(one.candidate), EVERYWHERE, "Letters", "new")
    monkeypatch.setattr(result_columns, "result_columns", lambda asked: (*there(asked), new))
    html = maker.get(page).content.decode()
    heads = re.findall(r'<th scope="col"[^>]*class="v-[^>]*>([^<]+)', html)
    assert heads[-2:] == ["Letters", "Decision"]
    first = verdict_of(judgement).candidates[0].candidate
    assert f'<span class="fig">{len(first)}</span><span class="v-sub">letters</span>' in html
    row = re.search(r'<tr role="row">\s*<th scope="row".*?</tr>', html, re.S)[0]
    assert f'colspan="{row.count("<td ") + 1}"' in html


def test_what_binds_the_pick_is_said(judgement, maker, page):
    shown = words(maker.get(page).content)
    for hold in verdict_of(judgement).holds:
        assert re.sub(r"\s+", " ", hold) in shown.replace(" :", ":")


def test_looking_judges_nothing(judgement, maker, page, monkeypatch):
    monkeypatch.setattr(services, "judged_apart", None)
    Score.objects.filter(attribute="liking").order_by("pk").first().delete()
    assert maker.get(page).status_code == 200
    assert Judgement.objects.count() == 1


def test_looking_again_draws_nothing(judgement, maker, page, monkeypatch):
    maker.get(page)
    monkeypatch.setattr(draw.vl_convert, "vegalite_to_svg", None)
    assert maker.get(page).status_code == 200


def test_it_asks_little_of_the_database(judgement, maker, page):
    maker.get(page)
    with CaptureQueriesContext(
        connection,
    ) as asked:
        maker.get(page)
    assert len(asked) <= 40


def test_what_came_since_is_said_with_the_button_to_ask_again(judgement, maker, page):
    assert "Ask again" not in words(maker.get(page).content)
    Score.objects.filter(attribute="liking").order_by("pk").first().delete()
    shown = words(maker.get(page).content)
    assert "1 score came or changed since." in shown
    assert "Ask again, with all that is noted now" in shown


def test_asking_again_shows_the_new_verdict(judgement, trial, maker, page):
    Score.objects.filter(attribute="liking").order_by("pk").first().delete()
    answer = maker.post(reverse("line:ask", args=[trial.pk]))
    assert answer.headers["Location"] == page
    assert Judgement.objects.count() == 2
    assert "came or changed since" not in words(maker.get(page).content)


def test_without_a_verdict_there_is_one_button(trial, maker, page):
    shown = words(maker.get(page).content)
    assert "Nobody has asked for the verdict yet." in shown
    assert "Ask for the verdict" in shown
    assert "Still missing" not in shown


def test_what_is_missing_is_said_before_it_is_asked_for(owner, maker, now):
    empty = Trial.objects.create(name="Nothing yet", made_at=now, made_by=owner)
    shown = words(maker.get(reverse("line:verdict", args=[empty.pk])).content)
    assert "No test candle is made yet." in shown
    assert "every limit is not yet known" in shown
    assert "nothing to choose by" in shown


def test_what_cannot_be_judged_is_said_on_the_page(trial, maker, owner, now):
    trial.bands.update(low=4.5, high=9)
    answer = maker.post(reverse("line:ask", args=[trial.pk]))
    assert answer.status_code == 422
    assert "does not lie on the scale" in words(answer.content)


def test_one_candle_alone_is_not_ranked_against_nothing(owner, rooms, maker, now):
    one = load(["Slate After Rain"], owner=owner, rooms=rooms, choose=1)
    services.ask_verdict(one, who=owner, now=now)
    shown = words(maker.get(reverse("line:verdict", args=[one.pk])).content)
    assert "It stands alone: nothing to compare it with." in shown
    assert "Slate After Rain joins the line" in shown


def test_no_clear_winner_is_said(owner, rooms, maker, now):
    near = ("Rebarbara K", "Bakehouse at Five", "Kelp and Iron")
    close = load(near, owner=owner, rooms=rooms, choose=1)
    services.ask_verdict(close, who=owner, now=now)
    shown = words(maker.get(reverse("line:verdict", args=[close.pk])).content)
    assert "No clear winner yet" in shown


def test_only_the_owner_reads_how_a_nose_scores(judgement, maker, helper, page):
    assert "Pernille uses the upper end" in words(maker.get(page).content)
    shown = words(signed_in(helper).get(page).content)
    assert "Pernille" not in shown
    assert re.search("One assessor scores about|Assessors use the scale apart", shown)


def test_swapped_tags_and_slips_stand_where_the_maker_looks(judgement, by, maker, page):
    first, second = (TestCandle.objects.get(code=code) for code in ("T4H", "M9C"))
    Swap.objects.create(first=first, second=second, why="tags swapped", who=by["who"], at=by["now"])
    check = TestCandle.objects.get(code="K7F").burns.first().checks.exclude(flame_mm=None).first()
    put_right(check, field="flame_mm", value=18, why="typed 80 for 18", **by)
    put_right(check.burn, field="mass_after_mg", value=468_000, why="read the wrong line", **by)
    put_right(check.burn, field="relit", value=None, why="another candle", **by)
    shown = words(maker.get(page).content)
    assert "The tags of T4H and M9C were swapped, and put right." in shown
    assert re.search(r"Put right: flame was [0-9.]+ mm, it is 18 mm\.", shown)
    assert re.search(r"Put right: mass after was [0-9.]+ g, it is 468 g\.", shown)
    assert "Put right: relit was no, it is nothing." in shown


def test_opinions_that_split_show_their_single_scores(owner, rooms, maker, now):
    split = load(("Ferry Rope", "Slate After Rain"), owner=owner, rooms=rooms, choose=1)
    services.ask_verdict(split, who=owner, now=now)
    html = maker.get(reverse("line:verdict", args=[split.pk])).content.decode()
    assert "Opinions split: loved by 2, disliked by 3." in html
    assert 'aria-label="liking: 1, ' in html


def test_a_decision_stands_in_its_row_and_in_the_history(trial, judgement, by, maker, page):
    decide(candidate(trial, "Slate After Rain"), outcome="joins the line", why="liked best", **by)
    html = maker.get(page).content.decode()
    assert html.count("chip--joins") == 2
    assert "liked best" in html
    assert "Decide anew" in html


def test_the_button_names_those_that_still_wait(trial, judgement, by, maker, page):
    assert "These two join the line" in words(maker.get(page).content)
    first, second = verdict_of(judgement).pick
    decide(candidate(trial, first), outcome="joins the line", **by)
    assert f"{second} joins the line" in words(maker.get(page).content)
    decide(candidate(trial, second), outcome="joins the line", **by)
    assert reverse("line:join", args=[trial.pk]) not in maker.get(page).content.decode()


def test_a_theme_may_be_called_anything(owner, rooms, maker, now):
    trial = load(("Rebarbara K", "Rhubarb Cold Frame"), owner=owner, rooms=rooms, choose=1)
    trial.candidates.update(group="green/sharp & cold")
    services.ask_verdict(trial, who=owner, now=now)
    html = maker.get(reverse("line:verdict", args=[trial.pk])).content.decode()
    (address,) = re.findall(r'href="(/trials/\d+/compare/[^"]+)"', html)
    assert "is ahead" in words(maker.get(address.replace("&amp;", "&")).content)


def test_next_steps_stand_with_their_cautions(judgement, maker, page):
    shown = words(maker.get(page).content)
    assert "Never leave melting wax or a lit candle. Wax on fire: lid on, no water." in shown
    assert "Local rules and a laboratory’s test stand above everything on this page." in shown


def test_how_it_was_worked_out_can_be_done_again(judgement, maker, page):
    shown = words(maker.get(page).content)
    assert judgement.digest in shown
    assert "throwbench verdict long-light-2027-05-24.zip --json" in shown


def test_nothing_in_it_needs_a_style_attribute(judgement, maker, page):
    assert " style=" not in maker.get(page).content.decode()


@pytest.mark.parametrize("name", ["verdict", "report", "picture", "table", "export", "join"])
def test_a_sealed_trial_shows_no_name(judgement, trial, maker, name):
    Trial.objects.filter(pk=trial.pk).update(sealed=True)
    answer = maker.get(reverse(f"line:{name}", args=[trial.pk]))
    assert answer.status_code == 403
    assert "This trial is sealed" in words(answer.content)
    assert "Slate" not in answer.content.decode()


@pytest.mark.parametrize("name", ["verdict", "report", "export", "join"])
def test_an_assessor_is_not_let_in(judgement, trial, nose, name):
    assert nose.get(reverse(f"line:{name}", args=[trial.pk])).status_code == 403


def test_a_trial_that_is_not_there_is_said(maker, db):
    assert maker.get(reverse("line:verdict", args=[4711])).status_code == 404


def test_a_plain_look_cannot_ask(trial, maker):
    assert maker.get(reverse("line:ask", args=[trial.pk])).status_code == 405
