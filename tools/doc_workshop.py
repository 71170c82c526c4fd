"""The parts of the page of the workshop that are made from its code."""

import os
from collections.abc import Iterable, Iterator
from inspect import getdoc

import django
from django.apps import apps
from django.urls import URLPattern, URLResolver, get_resolver

SLICES = ("house", "shelf", "trials", "panel", "line", "alarm", "trust", "web")
"""In the order of their imports, the lowest first."""


def addresses() -> str:
    """Every address of the pages, with its name and what the code says of it."""
    _set_up()
    rows = (f"| `/{one}` | `{name}` | {said} |\n" for one, name, said in _named())
    return "| Address | Name | What |\n| --- | --- | --- |\n" + "".join(rows)


def append_only() -> str:
    """The tables in which a row stays as it was written."""
    _set_up()
    from throwbench.web.append_only import TABLES  # noqa: PLC0415

    models = {model._meta.db_table: model for model in apps.get_models()}
    told = {table: _first_sentence(models[table]) for table in sorted(TABLES)}
    rows = (f"| `{name}` | {said.removesuffix(' Append-only.')} |\n" for name, said in told.items())
    return "| Table | What a row is |\n| --- | --- |\n" + "".join(rows)


def _set_up() -> None:
    """Once is enough: the tests have done it already."""
    if not apps.ready:
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "throwbench.web.settings")
        django.setup()


def _named() -> list[tuple[str, str, str]]:
    def place(row: tuple[str, str, str]) -> tuple[int, str]:
        return SLICES.index(row[1].partition(":")[0]), row[0]

    return sorted(_walk(get_resolver().url_patterns), key=place)


def _walk(
    patterns: Iterable[URLPattern | URLResolver], before: str = "", space: str = ""
) -> Iterator[tuple[str, str, str]]:
    for pattern in patterns:
        address = before + str(pattern.pattern)
        if isinstance(pattern, URLResolver):
            deeper = f"{pattern.namespace}:" if pattern.namespace else space
            yield from _walk(pattern.url_patterns, address, deeper)
        elif pattern.name:
            yield address, space + pattern.name, _first_sentence(pattern.callback)


def _first_sentence(thing: object) -> str:
    said = (getdoc(thing) or "").split("\n\n")[0]
    return " ".join(said.split()).replace("|", "\\|")
