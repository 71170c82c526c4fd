"""The file `trial.json`, written: what is asked of a trial, beside its files."""

import json
from dataclasses import asdict

from throwbench.verdict.question import Question
from throwbench.verdict.result import Band

QUESTION = "trial.json"
FORMAT = 1
"""Of `trial.json`: it grows by one when a file of before would be read otherwise."""


def write_question(question: Question) -> str:
    """The question as JSON; equal questions give the same text."""
    entries = asdict(question) | {
        "format": FORMAT,
        "day": question.day.isoformat(),
        "bands": [_band(band) for band in question.bands],
        "cure_days": None if question.cure_days is None else float(question.cure_days),
        "leave_out": sorted(question.leave_out),
        "house": {rule: float(value) for rule, value in question.house.items()},
    }
    return json.dumps(entries, ensure_ascii=False, allow_nan=False, indent=2, sort_keys=True) + "\n"


def _band(band: Band) -> dict[str, float | str | None]:
    return {"low": float(band.low), "high": float(band.high), "room": band.room}
