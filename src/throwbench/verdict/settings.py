"""What a verdict is asked, and the settings that shape its words."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from throwbench.verdict.result import Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Every figure is a setting; the defaults are those of the project's definitions.

    choose : how many may join. bands : what is right for hot throw, for all rooms or per room.
    scale : lowest and highest step, None to take it from the scores. groups : candidate to theme;
    at most one of a theme joins. cure_days : cure that a score needs where the combination gives
    none. leave_out : kinds of counted scores to leave out ("tired", "perfume", "recognised").
    house : house limits by rule id.
    """

    choose: int = 1
    bands: tuple[Band, ...] = ()
    scale: tuple[int, int] | None = None
    groups: Mapping[str, str] = field(default_factory=dict)
    cure_days: float | None = None
    leave_out: frozenset[str] = frozenset()
    house: Mapping[str, float] = field(default_factory=dict)
    clear_of_many: float = 0.85
    """Chance to be best that names a clear winner among three or more."""
    clear_of_two: float = 0.95
    placed: float = 0.90
    """Chance to belong (or not to) from which a candidate is placed."""
    little: float = 0.2
    """A swap that changes the expected worth by less, in steps, costs little."""
    outside: float = 0.5
    """What each step of hot throw outside its band takes from the worth, in steps."""
    draws: int = 4000
    random_state: int = 0
