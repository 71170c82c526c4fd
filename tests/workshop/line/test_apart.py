"""The verdict worked out in a process of its own is the one that the function gives."""

from dataclasses import replace

import pytest

from throwbench.formats.judged import judge_archive
from throwbench.formats.kept import verdict_to_json
from throwbench.science.errors import SaidError
from throwbench.verdict.result import Band
from throwbench.workshop.line.apart import judged_apart
from throwbench.workshop.line.selectors import archive_of


def test_it_is_the_verdict_of_the_function_to_the_last_figure(trial, now):
    notes = archive_of(trial, day=now.date())
    assert judged_apart(notes) == verdict_to_json(judge_archive(notes)[0])


def test_a_refusal_comes_back_as_its_sentence(trial, now):
    notes = archive_of(trial, day=now.date())
    attic = replace(notes.question, bands=(Band(3.2, 4.4, "attic"),))
    with pytest.raises(SaidError, match="attic"):
        judged_apart(replace(notes, question=attic))
