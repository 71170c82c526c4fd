"""One assessor's score of one test candle on one attribute."""

from dataclasses import dataclass

from throwbench.records.attribute import ATTRIBUTES
from throwbench.records.column import column


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """One sniff's answer on one attribute. `score` is None where the assessor cannot tell."""

    candle: str = column("code of the test candle", required=True)
    candidate: str = column("the oil compared", required=True)
    assessor: str = column("who sniffed", required=True)
    room: str = column("where", required=True)
    sitting: str = column("one assessor's run of sniffs", required=True)
    attribute: str = column("what was scored", required=True, words=ATTRIBUTES)
    score: int | None = column("step on the maker's scale; empty or 'cannot tell': no score")
    cure_days: float | None = column("days from pour to sniff", unit="d", possible=(0, 3650))
    minutes_lit: float | None = column(
        "minutes the candle had been lit", unit="min", possible=(0, 1440)
    )
    clean_air_min: float | None = column(
        "minutes in clean air before the sniff", unit="min", possible=(0, 1440)
    )
    burn_kind: str | None = column(
        "kind of burn the sniff was in", words=("nose", "wick", "long", "unlit")
    )
    tired: bool | None = column("the nose was tired")
    perfume: bool | None = column("the assessor wore perfume")
    recognised: bool | None = column("the assessor recognised the scent")
    counts: bool | None = column("the maker's own word on whether this score counts")
    line: int = 0
