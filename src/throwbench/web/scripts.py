"""How long a browser may use a script without asking: never."""

from collections.abc import MutableMapping


def ask_each_time(headers: MutableMapping[str, str], path: str, url: str) -> None:
    """Scripts import each other by name alone: after an update all of them have to be new.

    Sheets carry the version in their address and libraries in their folder; they may be kept.
    """
    if url.endswith(".js") and "/vendor/" not in url:
        headers["Cache-Control"] = "no-cache"
