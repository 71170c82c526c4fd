"""A verdict as JSON to keep, and back."""

import json
from dataclasses import asdict

from throwbench.formats.strict_json import entries_of, structured
from throwbench.verdict.result import Verdict


def verdict_to_json(verdict: Verdict) -> str:
    """The fields of a verdict as one object: what `--json` prints, without the sentence."""
    return json.dumps(asdict(verdict), ensure_ascii=False, allow_nan=False, indent=2)


def verdict_from_json(text: str) -> Verdict:
    """The verdict that was written, equal to it field by field.

    Raises
    ------
    UnreadableFile
        If the text is not one that `verdict_to_json` gives.
    """
    file = "the kept verdict"
    return structured(entries_of(text, file=file), Verdict, file=file)
