"""A statement in one line, its because in a second."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    mark: str
    what: str
    why: str
