"""The watch of this process, as pages ask for it: whether it looks, and what it can ring with."""

import time
from dataclasses import dataclass, field
from pathlib import Path

from django.conf import settings

from throwbench.web.alarm.awake import Awake
from throwbench.web.alarm.players import Player
from throwbench.web.alarm.sound import NAME

FRESH_S = 60


def elapsed_s() -> float:
    """Seconds of a clock that nobody sets and that goes on while the machine sleeps, where the
    system has one: Linux stops its plain monotonic clock in sleep, macOS does not."""
    return time.clock_gettime(getattr(time, "CLOCK_BOOTTIME", time.CLOCK_MONOTONIC))


@dataclass(slots=True)
class WatchHere:
    """What the watch last did. One process serves one folder, so there is one."""

    player: Player = field(default_factory=lambda: Player(Path(settings.FOLDER.path) / NAME))
    awake: Awake = field(default_factory=Awake)
    looked_s: float | None = None
    """When it last looked, by `elapsed_s`; None where no watch runs."""

    def is_awake(self) -> bool:
        """Whether it looked within the last minute."""
        return self.looked_s is not None and elapsed_s() - self.looked_s < FRESH_S


watch_here = WatchHere()
