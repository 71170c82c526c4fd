"""Papers: asked for, in date, run out; the newest of a kind counts."""

from datetime import date, timedelta

import pytest

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.selectors.papers import (
    older_papers,
    papers_of,
    papers_running_out,
)

TODAY = date(2027, 5, 24)
CERTIFICATE = "conformity certificate"


@pytest.fixture
def certify(rope, by):
    """Note a certificate of Ferry Rope."""

    def noted(version="2", dated=date(2026, 2, 3), **days):
        return services.add_paper(
            rope, kind=CERTIFICATE, version=version, dated=dated, **{**days, **by}
        )

    return noted


def shown(oil, kind="Conformity certificate"):
    return next(row for row in papers_of(oil, today=TODAY) if row.kind == kind)


def spaced(*said):
    """With plain blanks, so that a day can be compared as it is read."""
    return tuple(one.replace("\xa0", " ") for one in said)


def test_every_kind_of_paper_has_a_row_even_if_nothing_is_known(rope):
    rows = papers_of(rope, today=TODAY)
    assert [row.kind for row in rows] == [
        "Safety data sheet", "Conformity certificate", "Allergen statement",
    ]  # fmt: skip
    assert {(row.state, row.words) for row in rows} == {("not yet known", "not yet known")}


def test_a_paper_is_in_date_to_the_end_of_its_last_day(rope, certify):
    certify(valid_until=TODAY)
    assert spaced(shown(rope).words) == ("in date until 24 May 2027",)


def test_a_paper_has_run_out_the_day_after(rope, certify):
    certify(valid_until=TODAY - timedelta(days=1))
    assert spaced(shown(rope).state, shown(rope).words) == ("late", "ran out on 23 May 2027")


def test_a_paper_that_names_no_end_says_so(rope, certify):
    certify()
    assert (shown(rope).state, shown(rope).words) == ("in date", "in date, no end named")


def test_a_paper_asked_for_is_not_yet_known(rope, certify):
    certify(version="", dated=None, asked_on=date(2027, 4, 2))
    row = shown(rope)
    assert spaced(row.state, row.asked) == ("not yet known", "asked for on 2 Apr 2027")


def test_a_paper_that_came_fills_what_was_asked(rope, certify):
    certify(version="", dated=None, asked_on=date(2027, 4, 2))
    certify(version="3", dated=date(2027, 1, 12))
    [paper] = rope.papers.all()
    assert (paper.version, paper.asked_on) == ("3", date(2027, 4, 2))


def test_a_new_one_may_be_asked_for_while_the_old_one_counts(rope, certify):
    certify(valid_until=date(2027, 1, 31))
    certify(version="", dated=None, asked_on=date(2027, 5, 20))
    row = shown(rope)
    assert spaced(row.words, row.asked) == ("ran out on 31 Jan 2027", "asked for on 20 May 2027")


def test_the_newest_of_a_kind_counts_and_the_older_stay(rope, certify):
    certify(version="2", valid_until=date(2027, 1, 31))
    certify(version="3", dated=date(2027, 1, 12), valid_until=date(2029, 1, 12))
    assert shown(rope).version == "3"
    assert [row.version for row in older_papers(rope)] == ["2"]
    assert papers_running_out(TODAY) == ()


def test_papers_that_ran_out_or_soon_do_are_named_by_day(rope, linen, by, certify):
    certify(valid_until=TODAY + timedelta(days=30))
    services.add_paper(
        linen, kind=CERTIFICATE, version="2", dated=date(2026, 2, 3),
        valid_until=date(2027, 1, 31), **by,
    )  # fmt: skip
    assert spaced(*(row.sentence() for row in papers_running_out(TODAY))) == (
        "The conformity certificate of Linen Loft ran out on 31 Jan 2027.",
        "The conformity certificate of Ferry Rope runs out on 23 Jun 2027.",
    )


def test_a_paper_that_holds_longer_is_not_named(rope, certify):
    certify(valid_until=TODAY + timedelta(days=31))
    assert papers_running_out(TODAY) == ()
