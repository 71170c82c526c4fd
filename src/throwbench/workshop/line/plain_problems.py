"""Problems as the maker speaks: they name the candle and the burn, not the line of a file.

Only for reading: what is kept, and what the command prints, quote the file.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import fields, replace

from throwbench.documents.words import attribute_words
from throwbench.formats.archive import BURNS, CANDLES, SCORES, trial_of
from throwbench.formats.numbers import said
from throwbench.formats.problem import Problem
from throwbench.formats.trial import Trial
from throwbench.records import Burn, Check
from throwbench.science.units import named
from throwbench.verdict.result import Verdict
from throwbench.workshop.line.drawings import kept
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.selectors import kept_archive, verdict_of

Place = tuple[str, int, bool]
"""A file, a line of it, and whether the column is one of a check."""

WORDS = {"lit_at": "lit", "out_at": "put out", "put_out": "how it ended", "check_h": ""}
"""What a column is called where its name does not say it; a check has its hour in its place."""
_NOT_USED = "Not used: "
_OF_CHECK = frozenset(item.name for item in fields(Check)) - {"line"}


def plainly(judgement: Judgement) -> Verdict:
    """The kept verdict for a reader: what is asked about, and what was not used, in plain words."""
    found = verdict_of(judgement)
    told = json.loads(kept(judgement, "problems.json", lambda: _told(judgement)))
    return replace(
        found,
        problems=tuple(told.get(one, one) for one in found.problems),
        holds=tuple(_hold(one, told) for one in found.holds),
    )


def _hold(sentence: str, told: Mapping[str, str]) -> str:
    quoted = sentence.removeprefix(_NOT_USED)
    return sentence.replace(quoted, told.get(quoted, quoted))


def _told(judgement: Judgement) -> bytes:
    return json.dumps(told_plainly(trial_of(kept_archive(judgement)))).encode()


def told_plainly(trial: Trial) -> dict[str, str]:
    """By the sentence that quotes a file, the one that names the candle, where that is known."""
    places = dict(_places(trial))
    found = ((one, places.get(_place(one))) for one in trial.problems)
    return {str(one): _plain(one, where) for one, where in found if where is not None}


def _place(problem: Problem) -> Place:
    return problem.file, problem.line, problem.file == BURNS and problem.column in _OF_CHECK


def _places(trial: Trial) -> Iterator[tuple[Place, str]]:
    """What stands on each line. No assessor is named: not everybody reads who sniffed how."""
    for score in trial.scores:
        what = f"{attribute_words(score.attribute)} scored in the {score.room}"
        yield (SCORES, score.line, False), f"{score.candle}, {what}"
    for made in trial.combinations:
        yield (CANDLES, made.line, False), f"{made.candle}, as made"
    for burn in trial.burns:
        yield from _places_of(burn)


def _places_of(burn: Burn) -> Iterator[tuple[Place, str]]:
    here = f"{burn.candle}, burn {burn.burn}"
    yield (BURNS, burn.line, False), here
    for check in burn.checks:
        hour = "" if check.check_h is None else f" at {said(check.check_h)} h"
        yield (BURNS, check.line, False), here
        yield (BURNS, check.line, True), f"{here}, check{hour}"


def _plain(problem: Problem, where: str) -> str:
    column = _column(problem.column)
    return f"{where}, {column}: {problem.sentence}" if column else f"{where}: {problem.sentence}"


def _column(name: str) -> str:
    return WORDS[name] if name in WORDS else named(name)[0]
