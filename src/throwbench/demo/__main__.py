"""`python -m throwbench.demo DIR [--seed N]`: write the example files of the demo."""

from pathlib import Path

import click

from throwbench.demo.files import write
from throwbench.demo.trial import DEFAULT_SEED, generate


@click.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@click.option("--seed", type=click.IntRange(min=0), default=DEFAULT_SEED, show_default=True)
def command(folder: Path, seed: int) -> None:
    """Write scores, burns, candles and the one-of file of the demo into FOLDER. All invented."""
    for path in write(generate(seed=seed), folder):
        click.echo(path)


if __name__ == "__main__":
    command()
