"""The reference page of the files, made from the records themselves."""

from collections.abc import Iterable
from datetime import datetime

from throwbench.formats.burns import OLDER_WORDS
from throwbench.formats.cells import NOT_KNOWN, kind_of
from throwbench.formats.numbers import said
from throwbench.formats.scores import CANNOT_TELL
from throwbench.formats.slips import FAHRENHEIT_FROM
from throwbench.records import (
    ATTRIBUTES,
    Burn,
    Check,
    Column,
    Combination,
    Score,
    ThemeMember,
    columns,
)

_KINDS = {str: "text", int: "whole number", float: "number", bool: "yes, no", datetime: "day, time"}

_CELLS = """\
## How a file is read

Text in UTF-8, one row per line, the columns named in the first line; comma, semicolon or tab
between the cells. Case, blanks and hyphens in a column's name are forgiven, the order of the
columns is free, and a column that is not needed may be missing. A decimal point or a decimal
comma; in a file with commas between the cells, "1,234" is held back, because it may be 1.234 or
1234. A number may have its unit behind it ("185F", "5.5 oz", "8 % of total"); alone it is in the
unit of the column. A day with its time is written 2026-05-24 18:30; an offset from UTC (+02:00)
stands with every time of a file or with none. Yes and no may be true and false, or 1 and 0. An
empty cell is not known; {not_known} say the same, except in a column of
free text. An apostrophe before =, +, - or @ at the beginning of a text is taken off: it keeps a
spreadsheet from taking the text for a formula, and is put there when a file is written.

What is wrong with a value is told by file, line and column, and has one of three outcomes:

- **refused**: not possible. In scores, candles and groups the row is left out. In burns the
  cell alone, because the rest of the row may hold the sight of a broken limit; a burn without its
  times is left out as a whole.
- **held back**: the value counts as empty until it is corrected. So is a temperature from
  {fahrenheit}: it is likely to be in °F.
- **asked**: outside the usual range; used as written."""

_SCORES = """\
## Scores

One row per score, with the columns `attribute` and `score`; or one row per sniff, with one column
per attribute ({attributes}), where an empty cell is
no answer. `{cannot_tell}` is an answer without a score. A score is a whole step. Where nobody names
the scale it is 1 to 5 if all scores lie in it, else 1 to 10, and 0 to 10 where a 0 was given."""

_BURNS = """\
## Burns

One row per check. The columns of the burn stand on its first row, and are repeated or left blank
on its later rows; a row with neither candle nor number belongs to the burn above it. {older}, an
older word."""

_CANDLES = """\
## Candles

Optional, `--candles`. One row per test candle: what it is made of."""

_THEME = """\
## At most one of

Optional, `--one-of`. One row per oil; of each group at most one joins."""

_TOGETHER = """\
## All in one

The files of a trial with what is asked of it, as one folder or one .zip:
[the archive](archive.md)."""


def describe() -> str:
    """The page `docs/reference/files.md`: every file, its columns, and how cells are read."""
    sections = (
        "# The files and their columns",
        "Made from the records by `throwbench.formats.describe()`, not written by hand.",
        _CELLS.format(
            not_known=_either(f'"{word}"' for word in NOT_KNOWN),
            fahrenheit=_either(
                f"{said(at)} °C in `{name}`" for name, at in FAHRENHEIT_FROM.items()
            ),
        ),
        _SCORES.format(
            cannot_tell=CANNOT_TELL, attributes=", ".join(f"`{name}`" for name in ATTRIBUTES)
        ),
        _table(columns(Score)),
        _BURNS.format(
            older=_either(f"`{old}` is read as `{new}`" for old, new in OLDER_WORDS.items())
        ),
        _table(columns(Burn)),
        "Of each check:",
        _table(columns(Check)),
        _CANDLES,
        _table(columns(Combination)),
        _THEME,
        _table(columns(ThemeMember)),
        _TOGETHER,
    )
    return "\n\n".join(sections) + "\n"


def _either(words: Iterable[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} or {last}" if first else last


def _table(items: Iterable[Column]) -> str:
    head = ("Column", "What", "Kind", "Possible", "Usual", "Needed")
    rows = [head, tuple("---" for _ in head), *(_row(item) for item in items)]
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)


def _row(item: Column) -> tuple[str, ...]:
    kind = ", ".join(item.words) or _KINDS[kind_of(item)]
    return (
        f"`{item.name}`",
        item.meaning,
        f"{kind} [{item.unit}]" if item.unit else kind,
        _range(item.possible),
        _range(item.usual),
        "yes" if item.required else "",
    )


def _range(ends: tuple[float, float] | None) -> str:
    return f"{said(ends[0])} to {said(ends[1])}" if ends else ""
