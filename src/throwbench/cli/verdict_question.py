"""What `throwbench verdict` is asked: by its options, or by an archive with options beside it."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

import click
from click.core import ParameterSource

from throwbench.cli.options import read_band, read_days, read_house, read_scale, refuse_unused
from throwbench.formats.trial import Trial, read_trial
from throwbench.verdict.question import Question

ONE_FILE_EACH = ("candles", "one_of")


def asked(ctx: click.Context, options: Mapping[str, Any]) -> tuple[Question, Trial]:
    """The question, and the files it is asked of.

    Raises
    ------
    UnreadableFile
        If a file gives no row, or the archive cannot be read.
    """
    if options["burns"] is None:
        return _of_archive(ctx, options)
    question = Question(**_said(options))
    trial = read_trial(
        options["scores"],
        options["burns"],
        candles=options["candles"],
        one_of=options["one_of"],
        scale=question.scale,
        house=question.house,
    )
    return question, trial


def _of_archive(ctx: click.Context, options: Mapping[str, Any]) -> tuple[Question, Trial]:
    """An option takes the place of what the archive says; a house limit that of its own rule."""
    # Only an archive needs the reader of JSON, which takes a while to load.
    from throwbench.formats.archive import trial_of  # noqa: PLC0415
    from throwbench.formats.archive_reading import read_archive  # noqa: PLC0415

    refuse_unused(ctx, ONE_FILE_EACH, belongs_to="SCORES and BURNS given as two files")
    archive = read_archive(options["scores"])
    given = {
        name: value
        for name, value in _said(options).items()
        if ctx.get_parameter_source(name) is ParameterSource.COMMANDLINE
    }
    if "house" in given:
        given["house"] = {**archive.question.house, **given["house"]}
    archive = replace(archive, question=replace(archive.question, **given))
    return archive.question, trial_of(archive)


def _said(options: Mapping[str, Any]) -> dict[str, Any]:
    """The entries of a question, each under the name of its option."""
    return {
        "day": options["day"].date() if options["day"] else date.today(),
        "trial": options["trial"],
        "workshop": options["workshop"],
        "choose": options["choose"],
        "bands": tuple(read_band(text) for text in options["bands"]),
        "scale": read_scale(options["scale"]),
        "cure_days": read_days(options["cure_days"]),
        "leave_out": frozenset(options["leave_out"]),
        "house": dict(read_house(entry) for entry in options["house"]),
        "invented": options["invented"],
    }
