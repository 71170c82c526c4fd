"""How the bands of a trial are drawn: places in per cent along the maker's scale."""

from dataclasses import dataclass

from throwbench.records.attribute import HOT_THROW
from throwbench.science.words import plain
from throwbench.workshop.trials.models import Band, Trial

ROW_PX, HEAD_PX = 48, 46


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the scale with its word."""

    x: str
    figure: int
    word: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One band: where it lies, and the words in it."""

    room: str
    said: str
    low: str
    high: str
    width: str
    middle: str
    top: int
    bottom: int
    words: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    steps: tuple[Step, ...]
    rows: tuple[Row, ...]
    height: int
    label: str


def drawing_of(trial: Trial, bands: list[Band]) -> Drawing:
    """The scale with every band in its own row."""
    rows = tuple(_row(trial, band, place) for place, band in enumerate(bands))
    said = "; ".join(f"{row.room}: right from {row.said}" for row in rows)
    return Drawing(
        steps=tuple(_steps(trial)),
        rows=rows,
        height=HEAD_PX + ROW_PX * len(rows),
        label=f"{said}. Scale {trial.scale_low} to {trial.scale_high}.",
    )


def room_words(band: Band) -> str:
    """The kind of room, or all of them."""
    return band.room_kind or "all rooms"


def _steps(trial: Trial) -> list[Step]:
    figures = range(trial.scale_low, trial.scale_high + 1)
    named = (trial.scale_low, trial.scale_high) == (1, len(HOT_THROW.steps))
    ends = {trial.scale_low: "start", trial.scale_high: "end"}
    return [
        Step(
            x=_x(trial, figure),
            figure=figure,
            word=HOT_THROW.steps[figure - 1] if named else "",
            anchor=ends.get(figure, "middle"),
        )
        for figure in figures
    ]


def _row(trial: Trial, band: Band, place: int) -> Row:
    top = HEAD_PX + ROW_PX * place
    wide = 100 * (band.high - band.low) / (trial.scale_high - trial.scale_low)
    return Row(
        room=room_words(band),
        said=f"{plain(band.low)} to {plain(band.high)}",
        low=_x(trial, band.low),
        high=_x(trial, band.high),
        width=f"{wide:.2f}%",
        middle=_x(trial, (band.low + band.high) / 2),
        top=top,
        bottom=top + 36,
        words=top + 23,
    )


def _x(trial: Trial, score: float) -> str:
    return f"{100 * (score - trial.scale_low) / (trial.scale_high - trial.scale_low):.2f}%"
