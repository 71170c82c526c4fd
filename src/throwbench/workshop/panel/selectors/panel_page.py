"""The maker's page of a panel: which tag in front of what, and who has answered where."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from throwbench.documents.words import in_words
from throwbench.verdict.words import number
from throwbench.workshop.house.corrections import corrections_of, said_of
from throwbench.workshop.house.models import Correction
from throwbench.workshop.panel.models import Asks, Panel, Score, Seat, Sniff, Way
from throwbench.workshop.panel.selectors.flames import Flame, flames_of
from throwbench.workshop.panel.selectors.sittings import OpenSitting, sittings_of

Sniffs = Mapping[tuple[int, int], Sniff]
"""By sitting and seat."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """One tag to put in front. `oil` is empty while the trial is sealed and the code tells."""

    tag: str
    room: str
    code: str
    oil: str
    given: int
    flame: Flame | None
    """At an open lit panel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One nose at one tag; `said` holds no score while the trial is sealed or the panel open."""

    tag: str
    said: str
    sniff: int | None = None
    """Where it can be put right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PutRight:
    what: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NoseLine:
    sitting: OpenSitting
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPage:
    panel: Panel
    fronts: tuple[Front, ...]
    noses: tuple[NoseLine, ...]
    put_right: tuple[PutRight, ...]

    @property
    def asked_about(self) -> tuple[Flame, ...]:
        """Candles that are not as a nose expects them while somebody is still to come."""
        flames = (front.flame for front in self.fronts if self.waiting)
        return tuple(flame for flame in flames if flame is not None and flame.sentence)

    @property
    def pairs_tag_and_oil(self) -> bool:
        """Blotters of a sealed trial have no code to stand for the oil."""
        return self.panel.asks == Asks.BLOTTER and self.panel.trial.is_sealed

    @property
    def sitting(self) -> int:
        """How many noses take part: those that do not sit out."""
        return sum(not line.sitting.sits_out for line in self.noses)

    @property
    def waiting(self) -> tuple[str, ...]:
        return tuple(line.sitting.name for line in self.noses if line.sitting.comes)

    @property
    def sentence(self) -> str:
        """'Four of six noses are still to come.'"""
        if self.panel.closed_at is not None:
            given = sum(front.given for front in self.fronts)
            return f"This panel is closed, with {in_words(given, 'sniff')}."
        if not self.waiting:
            return "Every nose has answered; the panel can be closed."
        if self.sitting == 1:
            return "One nose is still to come."
        count, verb = number(len(self.waiting)), "is" if len(self.waiting) == 1 else "are"
        return f"{count} of {number(self.sitting)} noses {verb} still to come.".capitalize()


def panel_page(panel: Panel, now: datetime) -> PanelPage:
    """Everything of one panel in a handful of queries."""
    sittings = sittings_of(panel, now)
    seats = list(panel.seats.select_related("room", "oil", "candle__combination__candidate__oil"))
    sniffs = {(one.sitting_id, one.seat_id): one for one in _sniffs(panel)}
    flames = {flame.seat: flame for flame in flames_of(panel, seats, now)}
    shows = panel.closed_at is not None and not panel.trial.is_sealed
    return PanelPage(
        panel=panel,
        fronts=tuple(
            _front(seat, sittings, flames.get(seat.pk), is_sealed=panel.trial.is_sealed)
            for seat in seats
        ),
        noses=tuple(_line(row, seats, sniffs, shows) for row in sittings),
        put_right=tuple(_put_right(sniffs.values(), sittings)) if shows else (),
    )


def _sniffs(panel: Panel) -> list[Sniff]:
    found = Sniff.objects.filter(sitting__panel=panel)
    return list(found.prefetch_related("scores"))


def _front(
    seat: Seat, sittings: Sequence[OpenSitting], flame: Flame | None, *, is_sealed: bool
) -> Front:
    oil = seat.oil
    if seat.candle is not None and not is_sealed:
        oil = seat.candle.combination.candidate.oil
    return Front(
        tag=seat.tag,
        room=seat.room.name,
        code=seat.candle.code if seat.candle else "",
        oil=oil.name if oil else "",
        given=sum(seat in row.given for row in sittings),
        flame=flame,
    )


def _line(row: OpenSitting, seats: Sequence[Seat], sniffs: Sniffs, shows: bool) -> NoseLine:
    cells = tuple(_cell(row, seat, sniffs.get((row.sitting.pk, seat.pk)), shows) for seat in seats)
    return NoseLine(sitting=row, cells=cells)


def _cell(row: OpenSitting, seat: Seat, sniff: Sniff | None, shows: bool) -> Cell:
    if sniff is None:
        return Cell(tag=seat.tag, said="sits out" if row.sits_out else "to come")
    said = _scores(sniff.scores.all()) if shows else "given"
    may = shows or sniff.way == Way.SLIP
    return Cell(tag=seat.tag, said=said, sniff=sniff.pk if may else None)


def _scores(scores: Iterable[Score]) -> str:
    """'liking 4, hot throw cannot tell'."""
    return ", ".join(
        f"{one.get_attribute_display()} {'cannot tell' if one.value is None else one.value}"
        for one in scores
    )


def _put_right(sniffs: Iterable[Sniff], sittings: Sequence[OpenSitting]) -> Iterator[PutRight]:
    name = {row.sitting.pk: row.name for row in sittings}
    tag = {seat.pk: seat.tag for row in sittings for seat in (*row.given, *row.ahead)}
    rows = list(sniffs)
    scores = {score.pk: (one, score) for one in rows for score in one.scores.all()}
    of_sniff = {one.pk: one for one in rows}
    for slip in corrections_of(score for _, score in scores.values()):
        one, score = scores[slip.row]
        where = f"{name[one.sitting_id]} at {tag[one.seat_id]}"
        yield PutRight(what=f"{where}: {score.get_attribute_display()} {_was(slip)}", why=slip.why)
    for slip in corrections_of(rows):
        one = of_sniff[slip.row]
        where = f"{name[one.sitting_id]} at {tag[one.seat_id]}"
        yield PutRight(what=f"{where}: {slip.field} {_was(slip)}", why=slip.why)


def _was(slip: Correction) -> str:
    said = said_of(slip)
    return f"first noted as {said.was}, it was {said.became}"
