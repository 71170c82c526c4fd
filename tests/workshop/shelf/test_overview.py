"""The shelf in one sentence, its news, and what a page of an oil says first."""

from datetime import date

import pytest

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.shelf.selectors.oil import (
    line_said_back,
    oil_history,
    oil_sentence,
    soap_rows,
)
from throwbench.workshop.shelf.selectors.papers import papers_of
from throwbench.workshop.shelf.selectors.shelf import news, oil_rows, overview
from throwbench.workshop.shelf.selectors.words import vanillin_words

TODAY = date(2027, 5, 24)
KINDS = ("safety data sheet", "conformity certificate", "allergen statement")


def paper(oil, by, kind="conformity certificate", ends=None):
    services.add_paper(oil, kind=kind, version="2", dated=date(2026, 2, 3), valid_until=ends, **by)


def first_words(oil):
    return oil_sentence(oil, papers_of(oil, today=TODAY)).replace("\xa0", " ")


def test_an_empty_shelf_says_how_it_begins(db):
    assert overview(TODAY) == "The shelf is empty: it begins with one line per oil."


def test_the_shelf_counts_oils_and_suppliers_and_what_is_out_of_date(rope, linen, by):
    paper(linen, by, ends=date(2027, 1, 31))
    assert overview(TODAY) == "Two oils from two suppliers; one certificate is out of date."


def test_papers_of_two_kinds_out_of_date_are_papers(rope, linen, by):
    paper(linen, by, ends=date(2027, 1, 31))
    paper(rope, by, kind="safety data sheet", ends=date(2027, 1, 31))
    assert overview(TODAY).endswith("; two papers are out of date.")


def test_a_shelf_without_papers_says_so(by):
    services.add_oil(name="Goat Willow", supplier=None, **by)
    assert overview(TODAY) == "One oil; no papers are noted yet."


def test_papers_in_date_are_said_to_be(rope, by):
    paper(rope, by)
    assert overview(TODAY) == "One oil from one supplier; no paper is out of date."


def test_a_blend_is_counted_apart(rope, linen, by):
    services.add_blend(name="Softer Rope", parts={rope: 80, linen: 20}, **by)
    assert overview(TODAY).startswith("Two oils")
    assert [row.oil.name for row in oil_rows(TODAY)] == ["Ferry Rope", "Linen Loft"]


def test_oils_stand_in_order_whatever_their_capitals(rope, by):
    services.add_oil(name="a small oil", supplier=None, **by)
    assert [row.oil.name for row in oil_rows(TODAY)] == ["a small oil", "Ferry Rope"]


@pytest.mark.parametrize(
    ("ends", "state", "said"),
    [
        (date(2027, 1, 31), "late", "ran out on 31 Jan 2027"),
        (date(2027, 6, 1), "in date", "in date until 1 Jun 2027"),
        (date(2028, 2, 3), "in date", "in date"),
        (None, "in date", "in date"),
    ],
)
def test_a_row_says_which_paper_wants_a_hand(rope, by, ends, state, said):
    paper(rope, by, ends=ends)
    [row] = oil_rows(TODAY)
    assert (row.state, row.papers.replace("\xa0", " ")) == (state, said)


def test_an_oil_without_papers_says_so_in_its_row(rope):
    [row] = oil_rows(TODAY)
    assert (row.state, row.papers) == ("not yet known", "no papers")


def test_the_longest_overdue_paper_stands_in_the_row(rope, by):
    paper(rope, by, ends=date(2027, 6, 1))
    paper(rope, by, kind="safety data sheet", ends=date(2027, 1, 31))
    assert oil_rows(TODAY)[0].state == "late"


def test_news_names_papers_lots_and_vessels_that_are_never_lit(linen, by):
    paper(linen, by, ends=date(2027, 1, 31))
    for code, day in (("TR-2702", date(2027, 2, 14)), ("TR-2705", date(2027, 5, 20))):
        services.add_lot(linen, code=code, came_on=day, **by)
    cup = services.add_vessel(name="cup", **by)
    services.add_piece(cup, name="Cup 7", flaw="structural", flaw_note="a chip", **by)
    assert [said.replace("\xa0", " ") for said in news(TODAY, since=date(2027, 4, 24))] == [
        "The conformity certificate of Linen Loft ran out on 31 Jan 2027.",
        "The lot of Linen Loft changed on 20 May: TR-2705 after TR-2702.",
        "Cup 7 is never lit: a chip.",
    ]


@pytest.mark.parametrize(("count", "last"), [(4, "Cup 3 is"), (5, "2 more vessels are never lit.")])
def test_news_of_one_kind_are_counted_when_there_are_many(by, count, last):
    cup = services.add_vessel(name="cup", **by)
    for number in range(count):
        services.add_piece(cup, name=f"Cup {number}", flaw="structural", **by)
    said = news(TODAY, since=TODAY)
    assert len(said) == 4
    assert said[-1].startswith(last)


def test_an_oil_says_first_which_paper_ran_out(rope, by):
    paper(rope, by, ends=date(2027, 1, 31))
    assert first_words(rope) == "Its conformity certificate ran out on 31 Jan 2027."


def test_an_oil_says_which_papers_are_missing(rope, by):
    assert first_words(rope) == "None of its papers is here yet."
    paper(rope, by)
    said = first_words(Oil.objects.get(pk=rope.pk))
    assert said == "Its safety data sheet and allergen statement are not yet known."
    paper(rope, by, kind="safety data sheet")
    said = first_words(Oil.objects.get(pk=rope.pk))
    assert said == "Its allergen statement is not yet known."


def test_with_its_papers_there_the_flash_point_is_asked_for(rope, linen, by):
    for oil in (rope, linen):
        for kind in KINDS:
            paper(oil, by, kind=kind)
    assert first_words(rope) == "Its papers are in date."
    assert first_words(linen) == "Its flash point is not known."


def test_a_blend_says_what_it_is_made_of(rope, linen, by):
    blend = services.add_blend(name="Softer Rope", parts={rope: 80, linen: 20}, **by)
    assert first_words(blend) == "80 % Ferry Rope and 20 % Linen Loft, by weight."


@pytest.mark.parametrize(
    ("percent", "said"),
    [
        (None, "not known, so browning is open"),
        (0, "no browning to expect from it"),
        (0.5, "little browning to expect"),
        (0.6, "browning to expect, look at a candle after two weeks"),
    ],
)
def test_vanillin_says_what_to_expect(percent, said):
    assert vanillin_words(percent) == f"vanillin: {said}"


def test_behaviour_in_soap_may_be_unknown_yes_or_no(by):
    oil = services.add_oil(
        name="Bakehouse", supplier=None, soap_browns=True, soap_seizes=False, **by
    )
    assert soap_rows(oil) == (
        ("thickens", "not known"), ("seizes", "no"), ("browns", "yes"), ("fades", "not known"),
    )  # fmt: skip


def test_the_rest_of_a_line_is_said_back(by):
    services.add_wick(series="flat cotton", size="4", **by)
    services.add_wick(series="round paper-core", size="4", **by)
    oil = services.oil_from_line("slate rain, Tarnholt, 8 % of wax, wick 4", **by).oil
    [said] = line_said_back(oil)
    assert said == (
        "8 % of wax is a share of 7.41 % of total. Wick 4 was read: flat cotton 4 or "
        "round paper-core 4. The load stands ready in its trial."
    )


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("slate rain, 8 % of wax, wick 4", "Wick 4 was read: flat cotton 4. The load and the wick "
         "stand ready in its trial."),
        ("slate rain, wick 4", "flat cotton 4. The wick stands ready in its trial."),
        ("slate rain, wick 9", "Wick 9 was read; no such wick stands on the shelf yet."),
    ],
)  # fmt: skip
def test_what_stands_ready_in_the_trial_is_said(by, line, said):
    services.add_wick(series="flat cotton", size="4", **by)
    [told] = line_said_back(services.oil_from_line(line, **by).oil)
    assert told.endswith(said)


def test_a_long_line_without_a_comma_says_that_it_is_a_name(by):
    long = services.oil_from_line("sea salt & sage 10 ml bottle from Fjellrype", **by).oil
    assert line_said_back(long) == (
        "All of it was read as the name: commas part it from what else is known.",
    )
    assert line_said_back(services.oil_from_line("slate after rain", **by).oil) == ()


def test_a_wick_that_is_not_there_is_said(by):
    oil = services.oil_from_line("slate rain, wick 9", **by).oil
    [said] = line_said_back(oil)
    assert said.startswith("Wick 9 was read; no such wick stands on the shelf yet.")


def test_what_was_not_understood_is_said_in_three_parts(by):
    oil = services.oil_from_line("slate rain, Tarnholt, blue bottle, 200 g", **by).oil
    [said] = line_said_back(oil)
    assert said.startswith("“blue bottle” and “200 g” were not understood and stand here")
    assert "After the name come a supplier, a load, a wick" in said
    assert said.endswith("Add what was meant under “Change the facts”.")


def test_an_oil_of_the_whole_form_says_nothing_back(rope):
    assert line_said_back(rope) == ()


def test_the_history_holds_lots_and_changes_the_newest_first(rope, by):
    services.change_oil(rope, flash_c=None, **by)
    services.add_lot(
        rope, code="FD-2702", came_on=date(2027, 2, 14), amount_mg=200_000, price_cents=1840, **by
    )
    services.add_lot(rope, code="FD-?", **by)
    assert [(row.on, row.what) for row in oil_history(rope)] == [
        (TODAY, "Flash point [°C]: 94 became not known"),
        (date(2027, 2, 14), "200 g came in lot FD-2702, 18.40 €"),
        (None, "An amount not known came in lot FD-?"),
    ]


def test_a_long_list_of_oils_comes_a_page_at_a_time(maker, by):
    Oil.objects.bulk_create(Oil(name=f"oil {number:03}") for number in range(101))
    first, second = (maker.get(f"/shelf/?page={number}").text for number in (1, 2))
    assert "oil 099" in first
    assert "oil 100" not in first
    assert "Oils after these" in first
    assert "oil 100" in second
    assert "Oils before these" in second
