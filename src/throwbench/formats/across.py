"""What is asked about files that were each read well alone but do not fit each other."""

from collections.abc import Iterator

from throwbench.formats.problem import Problem, Reading
from throwbench.records import Burn, Combination, Score, ThemeMember


def questions_across(
    *,
    scores: Reading[Score] | None = None,
    burns: Reading[Burn] | None = None,
    combinations: Reading[Combination] | None = None,
    theme: Reading[ThemeMember] | None = None,
) -> tuple[Problem, ...]:
    """All that is asked about files beside each other; a file that is not given is not missed."""
    problems: list[Problem] = []
    if combinations is not None:
        known = {row.candle: row for row in combinations.rows}
        for reading in (scores, burns):
            if reading is not None:
                problems += _unknown_candles(reading, known, combinations.file)
        if scores is not None:
            problems += _other_oils(scores, known, combinations.file)
    if theme is not None:
        oils = {row.candidate for row in (scores.rows if scores else ())}
        oils |= {row.oil for row in (combinations.rows if combinations else ())}
        problems += _unknown_oils(theme, oils)
        if combinations is not None:
            problems += _other_groups(theme, combinations)
    return tuple(problems)


def _unknown_candles(
    reading: Reading[Score] | Reading[Burn], known: dict[str, Combination], file: str
) -> Iterator[Problem]:
    first: dict[str, int] = {}
    for row in reading.rows:
        first.setdefault(row.candle, row.line)
    spelled = {code.casefold(): code for code in known}
    for candle, line in first.items():
        if candle not in known:
            like = spelled.get(candle.casefold())
            hint = f"did you mean {like}?" if like else "add a row for it, or correct the code."
            yield _asked(
                reading.file,
                line,
                "candle",
                candle,
                f"{candle} is asked about, {file} has no row for it; what the candle is made of "
                f"stays unknown: {hint}",
            )


def _other_oils(
    scores: Reading[Score], known: dict[str, Combination], file: str
) -> Iterator[Problem]:
    first: dict[tuple[str, str], int] = {}
    for row in scores.rows:
        first.setdefault((row.candle, row.candidate), row.line)
    for (candle, candidate), line in first.items():
        made_of = known.get(candle)
        if made_of is not None and made_of.oil != candidate:
            yield _asked(
                scores.file,
                line,
                "candidate",
                candidate,
                f"candle {candle} is {candidate} here and {made_of.oil} in {file}, line "
                f"{made_of.line}; a candle holds one oil: check the code, and whether two tags "
                "were swapped.",
            )


def _unknown_oils(theme: Reading[ThemeMember], oils: set[str]) -> Iterator[Problem]:
    for row in theme.rows:
        if row.candidate not in oils:
            yield _asked(
                theme.file,
                row.line,
                "candidate",
                row.candidate,
                f"{row.candidate} is asked about, no other file has an oil of that name; each "
                "oil of a group is spelled as in the scores: correct it, or take the row out.",
            )


def _other_groups(
    theme: Reading[ThemeMember], combinations: Reading[Combination]
) -> Iterator[Problem]:
    groups = {row.oil: row.group for row in combinations.rows if row.group is not None}
    for row in theme.rows:
        other = groups.get(row.candidate, row.group)
        if other != row.group:
            yield _asked(
                theme.file,
                row.line,
                "group",
                row.group,
                f"{row.candidate} is in {row.group} here and in {other} in "
                f"{combinations.file}; an oil belongs to one group: correct one of the two.",
            )


def _asked(file: str, line: int, column: str, value: str, sentence: str) -> Problem:
    return Problem(
        file=file, line=line, column=column, value=value, outcome="asked", sentence=sentence
    )
