"""Where things stand on the chart: columns, and the height each row needs."""

from dataclasses import dataclass

from throwbench.documents.rows import Row
from throwbench.documents.widths import wrap

WIDTH = 712.0
NAME_END = 166.0
STRIP = (172.0, 444.0)
AXIS = (194.0, 418.0)
CHANCE = 450.0
LIMITS = 520.0
LIMIT_TEXT = 539.0

NAME_SIZE = 15.0
TEXT = 14.0
SMALL = 13.0

CUT_PX = 18.0
"""Room for the sign that a line was cut."""

DOT_STEP = 8.0
DOTS_FROM = 27.0
DOT_LINE = 7.5
MOST_DOTS_ABREAST = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One combination, broken into lines. `boxed` has its evidence inside, on one line."""

    state: str
    head: tuple[str, ...]
    evidence: tuple[str, ...]

    @property
    def height(self) -> float:
        return 18.0 * len(self.head) + 15.0 * len(self.evidence) + 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A row with its text broken into lines, `top` and `height` [px]."""

    row: Row
    top: float
    name: tuple[str, ...]
    cut: tuple[tuple[str, ...], tuple[str, ...]]
    limits: tuple[Limit, ...]
    dot_lines: int

    @property
    def cut_height(self) -> float:
        return 15.0 * max(len(part) for part in self.cut)

    @property
    def head(self) -> float:
        """Where the oil's own line begins, under the line between groups."""
        return self.top + self.cut_height

    @property
    def height(self) -> float:
        name = 17.0 * len(self.name) + 21.0
        dots = DOTS_FROM + DOT_LINE * self.dot_lines
        return self.cut_height + max(name, dots, 4.0 + sum(x.height for x in self.limits)) + 3.0


def place_rows(rows: tuple[Row, ...], *, top: float, step_px: float) -> tuple[Placed, ...]:
    """Stack the rows from `top` on [px]; `step_px` is the width of one step of the scale."""
    placed: list[Placed] = []
    for row in rows:
        one = _place(row, top=top, step_px=step_px)
        placed.append(one)
        top += one.height
    return tuple(placed)


def abreast(step_px: float) -> int:
    """Return how many dots of one score stand side by side: six, fewer on a fine scale."""
    return max(1, min(MOST_DOTS_ABREAST, int((step_px - DOT_STEP / 2) // DOT_STEP)))


def _place(row: Row, *, top: float, step_px: float) -> Placed:
    scores = row.counted + row.not_counted
    most = max((scores.count(score) for score in scores), default=0)
    left, right = row.cut or ("", "")
    return Placed(
        row=row,
        top=top,
        name=wrap(text=row.oil, face="besley", size_px=NAME_SIZE, within_px=NAME_END),
        cut=(_cut_lines(left, NAME_END), _cut_lines(right, WIDTH - CHANCE)),
        limits=tuple(_limit(one.state, one.words, one.short) for one in row.limits),
        dot_lines=-(-most // abreast(step_px)),
    )


def _cut_lines(text: str, within_px: float) -> tuple[str, ...]:
    return wrap(text=text, face="words", size_px=SMALL, within_px=within_px) if text else ()


def _limit(state: str, words: str, evidence: str) -> Limit:
    """Put what broke beside the word 'broken' where it fits on the line."""
    room = WIDTH - LIMIT_TEXT - 8.0
    if state == "broken":
        together = wrap(
            text=f"{words}: {evidence}", face="words_strong", size_px=SMALL, within_px=room
        )
        if len(together) == 1:
            return Limit(state=state, head=together, evidence=())
    return Limit(
        state=state,
        head=wrap(text=words, face="words_strong", size_px=SMALL, within_px=room),
        evidence=_at_most_two(evidence, within_px=room + 4.0),
    )


def _at_most_two(text: str, *, within_px: float) -> tuple[str, ...]:
    """Cut what is longer, at a comma if it has one; the report and the table say it whole."""

    def lines(said: str, room: float) -> tuple[str, ...]:
        return wrap(text=said, face="words", size_px=SMALL, within_px=room)

    whole = lines(text, within_px)
    if len(whole) <= 2:
        return whole
    left = text
    while "," in left and len(lines(left, within_px - CUT_PX)) > 2:
        left = left.rpartition(",")[0]
    *before, last = lines(left, within_px - CUT_PX)[:2]
    return (*before, f"{last} …")
