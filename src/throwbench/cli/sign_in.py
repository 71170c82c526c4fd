"""`throwbench sign-in`: a new one-time link into a workshop."""

from pathlib import Path

import click

from throwbench.cli.say import refusing


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.argument("name", default="")
def command(*, folder: Path, name: str) -> None:
    """Print a link that lets one browser into FOLDER once, as NAME (else the first owner)."""
    from throwbench.web.opening import new_link  # noqa: PLC0415

    with refusing():
        links, code, is_served = new_link(folder, name)
    click.echo("\n".join(links))
    if len(links) > 1:
        click.echo("The https one is for a device that trusts this workshop: /trust/ shows how.")
    click.echo(f"Or open the workshop in the other browser and type {code}")
    click.echo("Either works, once, for 30 minutes.")
    if not is_served:
        click.echo(f"No server is open on {folder}: call `throwbench serve {folder}` first.")
