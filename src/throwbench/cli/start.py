"""`throwbench start`: a workshop of one's own, made where there is none, and served."""

from pathlib import Path

import click

from throwbench.cli.doors import doors
from throwbench.cli.say import refusing

DEFAULT = Path.home() / "Throwbench"


@click.command()
@click.argument("folder", type=click.Path(path_type=Path), default=DEFAULT)
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option("--lan", is_flag=True, help="Let devices on this network reach it.")
@doors
def command(
    *,
    folder: Path,
    no_browser: bool,
    lan: bool,
    https: bool,
    port: int | None,
    https_port: int | None,
) -> None:
    """Begin or open your own workshop in FOLDER (else ~/Throwbench)."""
    from throwbench.web.folder import Folder  # noqa: PLC0415
    from throwbench.web.opening import opened, serve_and_say  # noqa: PLC0415

    where = Folder(folder)
    with refusing(), opened(where, lan=lan, https=https) as held:
        serve_and_say(where, held, port=port, https_port=https_port, browser=not no_browser)
