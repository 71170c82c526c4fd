"""The colours of a theme, by what they mean."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """Ink for facts, sea for what is settled, flame and band for what is right for a room."""

    paper: str
    rule: str
    ink: str
    ink_2: str
    ink_3: str
    ember: str
    flame: str
    band: str
    sea: str


LIGHT = Theme(
    paper="#fbfcfa",
    rule="#d8dcd6",
    ink="#15202b",
    ink_2="#44515c",
    ink_3="#5f6a74",
    ember="#a93a08",
    flame="#d9600f",
    band="#fcefe2",
    sea="#1a5a70",
)
DARK = Theme(
    paper="#11181f",
    rule="#303c47",
    ink="#edf0ea",
    ink_2="#bcc6cc",
    ink_3="#9dabb4",
    ember="#ffa067",
    flame="#f58842",
    band="#2b2119",
    sea="#86c5d8",
)
PAPER = Theme(
    paper="#ffffff",
    rule="#c4c9c3",
    ink="#000000",
    ink_2="#333c44",
    ink_3="#4a545d",
    ember="#a93a08",
    flame="#c4530a",
    band="#f7e9dc",
    sea="#1a5a70",
)
WEB = Theme(
    paper="var(--paper)",
    rule="var(--rule)",
    ink="var(--ink)",
    ink_2="var(--ink-2)",
    ink_3="var(--ink-3)",
    ember="var(--ember)",
    flame="var(--flame)",
    band="var(--band)",
    sea="var(--sea)",
)
"""For drawings that stand in a page: the page's own colours, so that one serves light and dark."""
