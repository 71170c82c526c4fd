"""A small row of single scores, to stand in a sentence where an average would hide a split."""

from collections.abc import Sequence

from throwbench.documents import marks
from throwbench.documents.inline import drawn
from throwbench.documents.layout import DOT_STEP
from throwbench.documents.marks import Datum
from throwbench.documents.tokens import WEB, Theme

_WIDTH, _EDGE, _LINE = 120.0, 14.0, 8.0


def rug(scores: Sequence[int], *, scale: tuple[int, int], theme: Theme = WEB) -> str:
    """Return one dot for each score on its step: side by side, then in a next line, never smeared.

    Its height grows with the lines.
    """
    low, high = scale
    step = (_WIDTH - 2 * _EDGE) / (high - low)
    abreast = max(1, int(step // DOT_STEP))
    dots: list[Datum] = []
    for score in range(low, high + 1):
        count = list(scores).count(score)
        for index in range(count):
            line, place = divmod(index, abreast)
            in_line = min(abreast, count - line * abreast)
            across = _EDGE + (score - low) * step + (place - (in_line - 1) / 2) * DOT_STEP
            dots.append({"x": across, "y": 10 + line * _LINE})
    bottom = max((float(dot["y"]) for dot in dots), default=10.0) + 8
    steps = [_EDGE + (score - low) * step for score in range(low, high + 1)]
    grid: list[Datum] = [{"x": x, "x2": x, "y": 2, "y2": bottom - 2} for x in steps]
    layers = [
        marks.rules(grid, colour=theme.rule, width=1),
        marks.spots(dots, colour=theme.ink_2, size=33),
    ]
    return drawn(layers, box=(0.0, 0.0, _WIDTH, bottom))
