"""What a device has to know to trust this workshop."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Authority:
    """A certificate authority of one workshop, as it is shown: never its key."""

    der: bytes
    fingerprint: str
    """SHA-256 in 32 pairs of digits with colons, as systems show it."""
    mark: str
    """Eight letters and digits of its name."""
    name: str
    """Under which a device lists it."""
    ends: datetime

    @property
    def file_name(self) -> str:
        return f"throwbench-{self.mark}.crt"

    @property
    def pairs(self) -> tuple[str, ...]:
        return tuple(self.fingerprint.split(":"))

    @property
    def lines(self) -> tuple[str, ...]:
        """The fingerprint in four lines of eight pairs, to be compared by eye."""
        return tuple(" ".join(self.pairs[at : at + 8]) for at in (0, 8, 16, 24))
