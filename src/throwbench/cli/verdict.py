"""`throwbench verdict`: from scores and burns to a pick with its risk."""

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from throwbench.cli.options import read_band, read_days, read_house, read_scale
from throwbench.cli.say import Refusal, refusing, say_json
from throwbench.cli.verdict_table import lines_of
from throwbench.formats import UnreadableFile
from throwbench.formats.trial import Trial, read_trial
from throwbench.rules.limit import figure_of, limits_on
from throwbench.rules.turn import by_candle
from throwbench.verdict.burn_reading import BurnReading, read_candle
from throwbench.verdict.judge import verdict
from throwbench.verdict.result import Verdict
from throwbench.verdict.settings import Settings

FILE = click.Path()
PAPERS = ("report", "picture", "table")


@click.command()
@click.argument("scores", type=FILE)
@click.argument("burns", type=FILE)
@click.option("--candles", type=FILE, help="What each test candle is made of.")
@click.option("--choose", type=click.IntRange(1), default=1, help="How many may join the line.")
@click.option(
    "--band", "bands", multiple=True, help="Right hot throw: 3.2-4.4, or kitchen=3.2-4.4."
)
@click.option("--one-of", type=FILE, help="Themes: at most one candidate of a group joins.")
@click.option("--scale", help="The steps of the scores, such as 1-5.")
@click.option("--cure-days", help="Cure a score needs where no wax card says so.")
@click.option(
    "--leave-out",
    multiple=True,
    type=click.Choice(["tired", "perfume", "recognised"]),
    help="Do not count such scores.",
)
@click.option("--house", multiple=True, metavar="RULE=VALUE", help="A limit of your own.")
@click.option("--day", type=click.DateTime(["%Y-%m-%d"]), help="Day of the verdict; else today.")
@click.option("--report", type=FILE, help="Write the report (PDF).")
@click.option("--picture", type=FILE, help="Write the picture (PNG).")
@click.option("--table", type=FILE, help="Write the table (CSV).")
@click.option("--workshop", default="My workshop", help="At the head of the report.")
@click.option("--trial", default="Test candles", help="At the head of report and picture.")
@click.option("--invented", is_flag=True, help="Say on every sheet that the data are invented.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of words.")
def command(day: datetime | None, as_json: bool, **options: Any) -> None:
    """Which oils join the line: the pick with its risk, three columns per oil, what to do next.

    SCORES and BURNS are CSV files, one row per score and one per check of a burn.
    """
    today = day.date() if day else date.today()
    _keep_what_is_read(options)
    with refusing():
        found, trial = _judged(options, today)
    _write(found, trial, options, today)
    if as_json:
        say_json(found)
    else:
        click.echo("\n".join(lines_of(found)))


def _judged(options: dict[str, Any], day: date) -> tuple[Verdict, Trial]:
    scale = read_scale(options["scale"])
    try:
        trial = read_trial(
            options["scores"],
            options["burns"],
            candles=options["candles"],
            one_of=options["one_of"],
            scale=scale,
        )
    except UnreadableFile as error:
        raise Refusal(error.sentence) from error
    settings = Settings(
        choose=options["choose"],
        bands=tuple(read_band(text) for text in options["bands"]),
        scale=scale,
        groups=trial.groups,
        cure_days=read_days(options["cure_days"]),
        leave_out=frozenset(options["leave_out"]),
        house=_house(options),
    )
    found = verdict(
        trial.scores,
        trial.burns,
        combinations=trial.combinations,
        settings=settings,
        day=day,
        problems=[str(problem) for problem in trial.problems],
        unused=[str(problem) for problem in trial.unused],
        unread=trial.unread,
    )
    return found, trial


def _house(options: dict[str, Any]) -> dict[str, float]:
    return dict(read_house(entry) for entry in options["house"])


def _keep_what_is_read(options: dict[str, Any]) -> None:
    """A slip of the pen must not write a paper over the maker's own notes."""
    named = (options[name] for name in ("scores", "burns", "candles", "one_of"))
    taken = {Path(file).resolve(): "one of the files that are read" for file in named if file}
    for name in PAPERS:
        path = Path(options[name]).resolve() if options[name] else None
        if path in taken:
            raise Refusal(
                f"--{name} {options[name]} is {taken[path]}. "
                "A paper goes to a file of its own. Choose another name."
            )
        if path is not None:
            taken[path] = f"the file of --{name} already"


def _write(found: Verdict, trial: Trial, options: dict[str, Any], day: date) -> None:
    """Only what was asked for is made: setting a report takes longer than the verdict."""
    if not any(options[name] for name in PAPERS):
        return
    from throwbench.documents.heading import Heading  # noqa: PLC0415
    from throwbench.documents.picture import picture  # noqa: PLC0415
    from throwbench.documents.report import report  # noqa: PLC0415
    from throwbench.documents.table import table  # noqa: PLC0415

    heading = Heading(
        workshop=options["workshop"],
        trial=options["trial"],
        day=day,
        invented=options["invented"],
    )
    noses = sorted({score.assessor for score in trial.scores})
    made: dict[str, Callable[[], bytes]] = {
        "report": lambda: report(
            found,
            heading=heading,
            readings=_readings(trial, day=day, house=_house(options)),
            assessor_names=noses,
        ),
        "picture": lambda: picture(found, heading=heading),
        "table": lambda: table(found).encode(),
    }
    for name, make in made.items():
        if options[name]:
            _save(Path(options[name]), make())


def _readings(trial: Trial, *, day: date, house: dict[str, float]) -> list[BurnReading]:
    """The figures of each burn log; the limits have been judged already."""
    made_of = {made.candle: made for made in trial.combinations}
    end_mm = figure_of("end-line", limits_on(day, house=house))
    return [
        read_candle(code, log, end_mm=end_mm, combination=made_of.get(code))
        for code, log in sorted(by_candle(trial.burns).items())
    ]


def _save(path: Path, content: bytes) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    except OSError as error:
        raise Refusal(
            f"{path} was not written: {error.strerror}. A file in a folder that can be written to "
            "is needed. Choose another place."
        ) from error
