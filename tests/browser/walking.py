"""Finding every named page by following links, as a maker would."""

from collections.abc import Iterable, Iterator
from urllib.parse import urlsplit

from django.urls import Resolver404, URLPattern, URLResolver, get_resolver, resolve
from playwright.sync_api import Page


def all_names() -> set[str]:
    """All names of addresses, with their slice: "house:sign_in"."""
    return set(_named(get_resolver().url_patterns))


def _named(patterns: Iterable[URLPattern | URLResolver], prefix: str = "") -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, URLResolver):
            space = f"{pattern.namespace}:" if pattern.namespace else ""
            yield from _named(pattern.url_patterns, prefix + space)
        elif pattern.name:
            yield prefix + pattern.name


def name_of(path: str) -> str | None:
    """The name of an address, or None where it has none."""
    try:
        return resolve(path).view_name
    except Resolver404:
        return None


def follow(page: Page, *starts: str, passed_by: set[str], each: int = 3) -> dict[str, str]:
    """One address per named page that links lead to from `starts`: of the first `each` addresses
    of a name the one with the longest page, since that shows most of it. What a seal closes is
    passed by."""
    sizes: dict[str, dict[str, int]] = {}
    waiting = list(starts)
    while waiting:
        path = waiting.pop(0)
        name = name_of(path)
        if name is None or name in passed_by:
            continue
        known = sizes.setdefault(name, {})
        if path in known or len(known) >= each:
            continue
        answer = page.goto(path, wait_until="domcontentloaded")
        assert answer is not None
        if answer.status == 403 and "sealed" in page.content():
            continue
        assert answer.status == 200, (path, answer.status)
        known[path] = len(page.content())
        here = urlsplit(page.url)
        hrefs = page.eval_on_selector_all("a[href]", "all => all.map(a => a.href)")
        links = [urlsplit(href) for href in hrefs]
        waiting += [link.path for link in links if link.netloc == here.netloc]
    return {name: max(known, key=lambda path: known[path]) for name, known in sizes.items()}
