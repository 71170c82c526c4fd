"""Options that say through which doors a workshop is reached: for start, serve and demo."""

from collections.abc import Callable
from typing import Any

import click

from throwbench.cli.say import Refusal


class Port(click.IntRange):
    """A port, or one sentence that says what one is."""

    def convert(self, value: Any, param: Any, ctx: click.Context | None) -> int:
        try:
            port: int = super().convert(value, param, ctx)
        except click.BadParameter as error:
            raise Refusal(
                f"{param.opts[0]} {value} is no port. A port is a whole number from {self.min} "
                f"to {self.max}. Name such a one, or leave it out and one is found."
            ) from error
        return port


PORT = Port(1, 65535)


def doors(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add `--https`, `--port` and `--https-port`."""
    for option in reversed(
        (
            click.option(
                "--https",
                is_flag=True,
                help="Let devices on this network reach it, over https too.",
            ),
            click.option("--port", type=PORT, help="Where it listens; else 8650."),
            click.option(
                "--https-port", type=PORT, help="Where it listens for https; else the next one."
            ),
        )
    ):
        command = option(command)
    return command
