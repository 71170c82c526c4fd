"""How a command answers: sentences, sums, JSON; and how it refuses."""

import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict
from typing import IO, Any

import click

from throwbench.cli.trouble import said_of
from throwbench.science.errors import SaidError


class Refusal(click.ClickException):
    """The sentence of an error as it stands, on the error stream; exit code 2."""

    exit_code = 2

    def show(self, file: IO[Any] | None = None) -> None:
        click.echo(self.message, file=file, err=file is None)


@contextmanager
def refusing() -> Iterator[None]:
    """Turn an error that is a sentence for the maker, or one of the disk, into a refusal."""
    try:
        yield
    except SaidError as error:
        raise Refusal(str(error)) from error
    except Exception as error:
        said = said_of(error)
        if said is None:
            raise
        raise Refusal(said) from error


def say_json(result: Any, **instead: Any) -> None:
    """A result that can speak, as one JSON object with its sentence.

    `instead` are entries that stand beside its own, or in place of them.
    """
    whole = {"sentence": result.sentence(), **asdict(result), **instead}
    click.echo(json.dumps(whole, ensure_ascii=False, allow_nan=False, indent=2))


def say_columns(rows: Sequence[Sequence[str]]) -> None:
    """Words in columns, each as wide as its widest cell."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    click.echo()
    for row in rows:
        cells = (f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True))
        click.echo(f"  {'  '.join(cells)}".rstrip())


def say_table(rows: Sequence[tuple[str, str]]) -> None:
    """Names and values in two columns, the values flush right."""
    if not rows:
        return
    left = max(len(name) for name, _ in rows)
    right = max(len(value) for _, value in rows)
    click.echo()
    for name, value in rows:
        click.echo(f"  {name:<{left}}  {value:>{right}}")
