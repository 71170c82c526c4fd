"""Options that say through which doors a workshop is reached: for start, serve and demo."""

from collections.abc import Callable
from typing import Any

import click

PORT = click.IntRange(1, 65535)


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
