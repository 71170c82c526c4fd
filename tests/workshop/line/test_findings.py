"""How sure a verdict is: one finding of a kind, however many notes are asked about."""

from dataclasses import replace

import pytest

from throwbench.workshop.house.models import Person
from throwbench.workshop.line.findings import findings_of
from throwbench.workshop.line.selectors import verdict_of

SHORT = tuple(f"K7F, burn {number}, put out: the burn of 1 min is asked about" for number in (1, 2))


def test_what_is_asked_about_stands_in_one_finding(judgement, trial, owner):
    found = replace(verdict_of(judgement), problems=SHORT)
    (asked,) = (
        one
        for one in findings_of(found, trial, reader=owner, assessors=())
        if one.what == "Asked about in the notes."
    )
    assert (asked.why, *asked.more) == SHORT


def test_where_nothing_is_asked_about_nothing_is_said(judgement, trial, owner):
    found = replace(verdict_of(judgement), problems=())
    said = [one.what for one in findings_of(found, trial, reader=owner, assessors=())]
    assert "Asked about in the notes." not in said


@pytest.mark.parametrize(
    ("role", "sealed", "said"),
    [("owner", False, True), ("helper", False, True), ("owner", True, False),
     ("assessor", False, False)],
)  # fmt: skip
def test_a_nose_that_could_know_the_names_is_told(judgement, trial, owner, *, role, sealed, said):
    trial.sealed = sealed
    Person.objects.filter(sittings__panel__trial=trial).update(role="assessor")
    sniffed = Person.objects.filter(sittings__sniffs__seat__panel__trial=trial).first()
    Person.objects.filter(pk=sniffed.pk).update(role=role)
    found = findings_of(verdict_of(judgement), trial, reader=owner, assessors=())
    assert ("A nose could know the names." in [one.what for one in found]) == said
