"""`throwbench demo`: an invented workshop in a folder and on a day of its own."""

from datetime import datetime
from pathlib import Path

import click

from throwbench.cli.doors import doors
from throwbench.cli.say import refusing
from throwbench.science.errors import UnclearError
from throwbench.web.folder import Folder, FolderError

DEFAULT = Path.home() / "Throwbench demo"
FIRST_YEAR, LAST_YEAR = 1971, 2999


@click.command()
@click.argument("folder", type=click.Path(path_type=Path), default=DEFAULT)
@click.option("--on", "day", type=click.DateTime(["%Y-%m-%d"]), help="The demo's own day.")
@click.option("--anew", is_flag=True, help="Begin the demo again; what was noted in it goes.")
@click.option("--no-serve", is_flag=True, help="Build it, say its verdict, and stop.")
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@doors
def command(
    *,
    folder: Path,
    day: datetime | None,
    anew: bool,
    no_serve: bool,
    no_browser: bool,
    https: bool,
    port: int | None,
    https_port: int | None,
) -> None:
    """Open the demo in FOLDER: all its people, suppliers, oils and figures are invented."""
    from throwbench.web.opening import opened, serve_and_say  # noqa: PLC0415

    where = Folder(folder)
    with refusing():
        begins = _begins(day)
        if anew:
            _clear(where)
        _set_clock(where, begins, is_asked=day is not None)
        with opened(where, https=https) as held:
            click.echo(_found(where, begins))
            if not no_serve:
                serve_and_say(where, held, port=port, https_port=https_port, browser=not no_browser)


def _begins(day: datetime | None) -> datetime:
    """The demo's own time when it is opened: the morning of its decision, or of another day.

    Raises
    ------
    UnclearError
        Dates around that day would be outside of what a calendar can hold.
    """
    from throwbench.demo.workshop.times import MORNING, at  # noqa: PLC0415

    if day is not None and not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise UnclearError(
            f"--on {day.date()} is too far off.",
            f"The demo’s clock goes from {FIRST_YEAR} to {LAST_YEAR}.",
            "Name a day between.",
        )
    return MORNING if day is None else at(day.date(), MORNING.hour, MORNING.minute)


def _clear(where: Folder) -> None:
    """Only a demo is ever taken away, and nothing that somebody else put beside it."""
    from throwbench.web.contents import take_away_the_notes  # noqa: PLC0415

    if where.exists():
        _demand_demo(where)
        with where.lock():
            left = take_away_the_notes(where)
        if left:
            click.echo(f"Not made by Throwbench, so left in {where.path}: {', '.join(left)}.")


def _set_clock(where: Folder, begins: datetime, *, is_asked: bool) -> None:
    """A new demo begins on its day; an old one goes on, or jumps to a day that is asked for."""
    is_new = not where.exists()
    where.make()
    if is_asked and not is_new:
        _demand_demo(where)
    if is_asked or is_new:
        where.set_demo_time(begins, now=datetime.now().astimezone())
    _demand_demo(where)


def _demand_demo(where: Folder) -> None:
    if where.read().demo_offset_s is None:
        raise FolderError(
            f"{where.path} holds a workshop of your own. The demo has a folder of its own. "
            "Name another folder."
        )


def _found(where: Folder, begins: datetime) -> str:
    """Build the demo where it is not there yet, on its day; what its verdict says.

    Raises
    ------
    FolderError
        It was begun once and not built to its end.
    """
    from django.conf import settings  # noqa: PLC0415

    from throwbench.demo.workshop.whole import build, headline  # noqa: PLC0415
    from throwbench.workshop.house.selectors import workshop  # noqa: PLC0415

    if workshop() is None:
        build()
        where.set_demo_time(begins, now=datetime.now().astimezone())
        settings.DEMO_OFFSET_S = where.read().demo_offset_s
    said = headline()
    if said is None:
        raise FolderError(
            f"The demo in {where.path} was not built to its end. Only a whole one is opened. "
            "Call `throwbench demo` on it once more with --anew."
        )
    return said
