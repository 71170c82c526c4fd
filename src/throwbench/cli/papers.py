"""The papers of a verdict, written only where they were asked for."""

import os
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from throwbench.cli.say import Refusal
from throwbench.formats.archive import NAMES
from throwbench.formats.judged import readings_of
from throwbench.formats.trial import Trial
from throwbench.verdict.question import Question
from throwbench.verdict.result import Verdict

PAPERS = ("report", "picture", "table")
READ = ("scores", "burns", "candles", "one_of")


def keep_what_is_read(options: Mapping[str, Any]) -> None:
    """A slip of the pen must not write a paper over the maker's own notes, nor make a folder."""
    taken = dict.fromkeys(_read(options), "one of the files that are read")
    for name in PAPERS:
        path = _place(options[name]) if options[name] else None
        if path in taken:
            raise Refusal(
                f"--{name} {options[name]} is {taken[path]}. "
                "A paper goes to a file of its own. Choose another name."
            )
        if path is not None:
            _demand_folder(path)
            taken[path] = f"the file of --{name} already"


def _demand_folder(path: str) -> None:
    folder = os.path.dirname(path)
    if not os.path.isdir(folder):
        raise Refusal(
            f"{path} was not written: there is no folder {folder}. A file in a folder that can be "
            "written to is needed. Make that folder, or choose another place."
        )


def _read(options: Mapping[str, Any]) -> Iterator[str]:
    """The files that are named, and those of an archive that is a folder."""
    for name in filter(None, (options[name] for name in READ)):
        yield _place(name)
        yield from (_place(name, inside) for inside in NAMES)


def _place(*names: str) -> str:
    """Where it lies, links followed; a link that leads to itself is left to who opens it."""
    return os.path.realpath(os.path.join(*names))


def write_papers(
    found: Verdict, trial: Trial, question: Question, options: Mapping[str, Any]
) -> None:
    """Only what was asked for is made: setting a report takes longer than the verdict."""
    if not any(options[name] for name in PAPERS):
        return
    from throwbench.documents.heading import Heading  # noqa: PLC0415
    from throwbench.documents.picture import picture  # noqa: PLC0415
    from throwbench.documents.report import report  # noqa: PLC0415
    from throwbench.documents.table import table  # noqa: PLC0415

    heading = Heading(
        workshop=question.workshop,
        trial=question.trial,
        day=question.day,
        invented=question.invented,
    )
    made: dict[str, Callable[[], bytes]] = {
        "report": lambda: report(
            found,
            heading=heading,
            readings=readings_of(trial, question),
            assessor_names=sorted({score.assessor for score in trial.scores}),
        ),
        "picture": lambda: picture(found, heading=heading),
        "table": lambda: table(found).encode(),
    }
    for name, make in made.items():
        if options[name]:
            _save(Path(options[name]), make())


def _save(path: Path, content: bytes) -> None:
    try:
        path.write_bytes(content)
    except OSError as error:
        raise Refusal(
            f"{path} was not written: {error.strerror}. A file in a folder that can be written to "
            "is needed. Choose another place."
        ) from error
