"""The answer on one attribute: its figures and its sentences."""

from dataclasses import dataclass

from throwbench.science.words import counted
from throwbench.verdict.links import Groups, not_met, to_link
from throwbench.verdict.result import Band, Interval, Place
from throwbench.verdict.sniffs import ALONE, ENOUGH, again, equal, others
from throwbench.verdict.words import first_of, in_100, listed

ANOTHER = "Let another nose score them too: one nose does not stand for those who buy."


@dataclass(frozen=True, slots=True, kw_only=True)
class ScentOfCandidate:
    """The average nose's expected score of one candidate, on the maker's own scale.

    place, placed, equally_good : where it stands against the pick, as in a verdict. split : 'loved
    by 2, disliked by 3', where opinions split on its liking.
    """

    candidate: str
    expected: float
    interval_90: Interval
    chance_in_band: float | None
    chance_to_belong: float
    chance_best: float
    place: Place
    placed: bool
    equally_good: bool
    split: str | None
    scores: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScentAnswer:
    """Candidates from the highest worth to the lowest. `spreads`: mean sds, in steps.

    level : those that nobody is ahead of, where the first one's lead tells nothing. unlinked :
    candidates in groups, where no nose met two of different groups.
    """

    attribute: str
    scale: tuple[int, int]
    choose: int
    bands: tuple[Band, ...]
    candidates: tuple[ScentOfCandidate, ...]
    clear_winner: str | None
    level: tuple[str, ...]
    unlinked: Groups
    room_per_nose: str | None
    counted: int
    not_counted: int
    noses: int
    spreads: dict[str, float]
    own_taste: bool

    def sentence(self) -> str:
        """Who is ahead, how sure that is, and how little is known."""
        return " ".join((self._lead(), self._told(), self._how_little(), *self._untold()))

    def next_steps(self) -> tuple[str, ...]:
        """What to sniff next, the most binding first."""
        if len(self.candidates) == 1:
            return (ALONE,)
        # One without a score is drawn from the others, which makes it no equal of theirs.
        scored = [item for item in self.candidates if item.scores]
        without = [item.candidate for item in self.candidates if not item.scores]
        said = [f"{first_of(without)}: no score yet. Sniff it."] if without else []
        said += [to_link(self.unlinked)] if self.unlinked else []
        said += [ANOTHER] if self.noses == 1 else []
        said += again(scored, self.clear_winner)
        said += others(scored)
        said += [] if self.unlinked else equal(scored)
        return tuple(said) or (ENOUGH,)

    @property
    def first(self) -> ScentOfCandidate:
        """The clear winner, else the one of the highest worth."""
        won = (item for item in self.candidates if item.candidate == self.clear_winner)
        return next(won, self.candidates[0])

    def _lead(self) -> str:
        if len(self.candidates) == 1:
            return f"{self.first.candidate} stands alone: nothing to compare it with."
        best = f"{self.first.candidate}{{}}, the best {in_100(self.first.chance_best)}."
        if self.clear_winner is not None:
            return f"Clear winner: {best.format('')}{self._right()}"
        if self.level:
            names = first_of(self.level)
            return f"No clear winner yet: {names} are level, nobody is ahead.{self._right()}"
        return f"No clear winner yet: {best.format(' is ahead')}{self._right()}"

    def _right(self) -> str:
        """What best means where a band says what is right."""
        if not self.bands:
            return ""
        where = (
            f"{one.low:g} to {one.high:g}{f' in {one.room}' * bool(one.room)}" for one in self.bands
        )
        return f" Best is nearest to what is right: {listed(tuple(where))}."

    def _told(self) -> str:
        low, high = self.first.interval_90.low, self.first.interval_90.high
        whose = (
            f"The expected score of {self.first.candidate}"
            if self.level
            else ("Its expected score")
        )
        return (
            f"{whose} is {self.first.expected:.1f}, 9 times in 10 between {low:.1f} and "
            f"{high:.1f}, on a scale of {self.scale[0]} to {self.scale[1]}."
        )

    def _how_little(self) -> str:
        few = counted(self.counted, "score")
        noses = counted(self.noses, "assessor")
        if self.noses == 1:
            return (
                f"That rests on {few} of {noses}: very little, since another may judge otherwise."
            )
        without = [item.candidate for item in self.candidates if not item.scores]
        missing = f" {listed(without)}: no score yet." if without else ""
        if not self.own_taste:
            missing += " An assessor's own taste cannot be told from chance: too few second sniffs."
        shown = f" {self.not_counted} more do not count." if self.not_counted else ""
        return f"That rests on {few} of {noses}.{shown}{missing}"

    def _untold(self) -> tuple[str, ...]:
        """What the plan of the sniffs cannot tell apart, and on whom opinions split."""
        split = [f"{item.candidate} ({item.split})" for item in self.candidates if item.split]
        return (
            *((not_met(self.unlinked),) if self.unlinked else ()),
            *((self.room_per_nose,) if self.room_per_nose else ()),
            *((f"Opinions split on {first_of(split)}.",) if split else ()),
        )
