"""`throwbench serve`: a workshop that is there already, without a browser."""

from pathlib import Path

import click

from throwbench.cli.doors import doors
from throwbench.cli.say import refusing


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--lan", is_flag=True, help="Let devices on this network reach it.")
@doors
def command(
    *, folder: Path, lan: bool, https: bool, port: int | None, https_port: int | None
) -> None:
    """Serve the workshop in FOLDER until Ctrl-C.

    With --lan every device on this network can reach the page that asks for a link. Pages open
    only to a browser that a one-time link let in. What is sent is not encrypted.

    With --https there is a second door, which encrypts: it opens the network as --lan does, and
    the page /trust/ shows how a phone comes to trust it. Pages then open there without the network
    too.
    """
    from throwbench.web.folder import Folder  # noqa: PLC0415
    from throwbench.web.opening import opened, serve_and_say  # noqa: PLC0415

    where = Folder(folder)
    with refusing():
        where.read()
        with opened(where, lan=lan, https=https) as held:
            serve_and_say(where, held, port=port, https_port=https_port, browser=False)
