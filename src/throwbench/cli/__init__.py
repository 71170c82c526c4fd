"""The command line: thin commands, each imported only when it is called.

`throwbench --help` must answer in a blink, so neither numpy nor scipy is imported here, and the
help line of a command stands here beside its module.
"""

import os
from importlib import import_module

import click

from throwbench import __version__

# One thread in the linear algebra: its matrices are small, and sharing them out costs more than it
# saves. Read when numpy is first imported, so it is said before any command is.
os.environ.setdefault("OMP_NUM_THREADS", "1")

COMMANDS = {
    "start": "Your own workshop: made where there is none, and opened in a browser.",
    "demo": "An invented workshop to look round in, in a folder and on a day of its own.",
    "serve": "Serve a workshop; with --lan or --https for phones on your network, too.",
    "sign-in": "A new one-time link into a workshop.",
    "verdict": "Which oils join the line: from scores and burns to a pick with its risk.",
    "scent": "What the scores say, with their doubt.",
    "burn": "What the burn log says: rates, melt pools, limits.",
    "load": "How much oil for how much wax, and what the scale makes of it.",
}


class Lazy(click.Group):
    """A group whose commands are modules of this package, imported at the moment of use."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module = import_module(f"throwbench.cli.{cmd_name.replace('-', '_')}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=Lazy)
@click.version_option(__version__, prog_name="throwbench")
def main() -> None:
    """From test candles, burn notes and blind scores to an honest verdict."""
