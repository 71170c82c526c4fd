"""`throwbench demo`: an invented workshop in a folder and on a day of its own."""

import shutil
from datetime import datetime
from pathlib import Path

import click

from throwbench.cli.say import Refusal, refusing
from throwbench.web.folder import Folder, FolderError

DEFAULT = Path.home() / "Throwbench demo"


@click.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path), default=DEFAULT)
@click.option("--on", "day", type=click.DateTime(["%Y-%m-%d"]), help="The demo's own day.")
@click.option("--anew", is_flag=True, help="Begin the demo again; what was noted in it goes.")
@click.option("--no-serve", is_flag=True, help="Build it, say its verdict, and stop.")
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option("--port", type=click.IntRange(1, 65535), help="Where it listens; else 8650.")
def command(
    *,
    folder: Path,
    day: datetime | None,
    anew: bool,
    no_serve: bool,
    no_browser: bool,
    port: int | None,
) -> None:
    """Open the demo in FOLDER: all its people, suppliers, oils and figures are invented."""
    from throwbench.web.opening import opened, serve_and_say  # noqa: PLC0415

    where = Folder(folder)
    with refusing():
        if anew:
            _clear(where)
        with opened(where) as names:
            _fill(where, day)
            if not no_serve:
                serve_and_say(where, names, port=port, browser=not no_browser)


def _clear(where: Folder) -> None:
    """Only a demo is ever taken away."""
    if not where.exists():
        return
    if where.read().demo_offset_s is None:
        raise FolderError(
            f"{where.path} holds a workshop of your own. Only a demo begins anew. "
            "Name another folder."
        )
    with where.lock():
        shutil.rmtree(where.path)


def _fill(where: Folder, day: datetime | None) -> None:
    """Build it where it is not there yet, set its clock, and say what it found."""
    raise Refusal("not yet")
