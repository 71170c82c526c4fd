"""The file `trial.json`, read."""

import json

from throwbench.formats.problem import UnreadableFile, shown
from throwbench.formats.question import FORMAT, QUESTION
from throwbench.formats.strict_json import entries_of, structured
from throwbench.verdict.question import Question


def read_question(text: str, *, file: str = QUESTION) -> Question:
    """The question that a text holds; what it leaves out is as in `Question`.

    Raises
    ------
    UnreadableFile
        If it is not such a file, or asks what no trial can be asked.
    """
    entries = entries_of(text, file=file)
    written = entries.pop("format", None)
    if type(written) is not int or written != FORMAT:
        raise UnreadableFile(
            f"{file}, format: it is {shown(json.dumps(written))}; this version reads format "
            f"{FORMAT}: take a file that Throwbench wrote, or a version that knows the other."
        )
    return structured(entries, Question, file=file)
