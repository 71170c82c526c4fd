"""`throwbench demo`: an invented workshop in a folder and on a day of its own."""

import shutil
from datetime import datetime
from pathlib import Path

import click

from throwbench.cli.doors import doors
from throwbench.cli.say import refusing
from throwbench.web.folder import Folder, FolderError

DEFAULT = Path.home() / "Throwbench demo"


@click.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path), default=DEFAULT)
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
        if anew:
            _clear(where)
        _set_clock(where, day)
        with opened(where, https=https) as held:
            click.echo(_found())
            if not no_serve:
                serve_and_say(where, held, port=port, https_port=https_port, browser=not no_browser)


def _clear(where: Folder) -> None:
    """Only a demo is ever taken away."""
    if where.exists():
        _demand_demo(where)
        with where.lock():
            shutil.rmtree(where.path)


def _set_clock(where: Folder, day: datetime | None) -> None:
    """A new demo begins on the morning of its decision; an old one goes on, or jumps to a day."""
    from throwbench.demo.workshop.times import MORNING, at  # noqa: PLC0415

    is_new = not where.exists()
    where.make()
    if is_new or day is not None:
        if not is_new:
            _demand_demo(where)
        begins = MORNING if day is None else at(day.date(), MORNING.hour, MORNING.minute)
        where.set_demo_time(begins, now=datetime.now().astimezone())
    _demand_demo(where)


def _demand_demo(where: Folder) -> None:
    if where.read().demo_offset_s is None:
        raise FolderError(
            f"{where.path} holds a workshop of your own. The demo has a folder of its own. "
            "Name another folder."
        )


def _found() -> str:
    """Build the demo where it is not there yet; what its verdict says."""
    from throwbench.demo.workshop.whole import build, headline  # noqa: PLC0415
    from throwbench.workshop.house.selectors import workshop  # noqa: PLC0415

    if workshop() is None:
        build()
    return headline()
