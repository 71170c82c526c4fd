"""Opens the https door beside the plain one, and says how a device comes to trust it."""

import socket
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from ipaddress import ip_address
from urllib.parse import urlsplit

from throwbench.web.folder import Folder, FolderError
from throwbench.web.listening import OWN, Doors, Tls, free_port
from throwbench.web.reached import own_address
from throwbench.web.tls.keep import Vouched, vouch

NEIGHBOURS = 9
"""Ports tried beside the plain one. A browser keeps its pages and entries by port."""


def with_https(folder: Folder, at: Doors, *, port: int | None) -> tuple[Doors, Vouched]:
    """The doors with https among them, and what it is vouched by.

    Raises
    ------
    FolderError
        The port asked for is in use, or the files of https are broken.
    """
    own = urlsplit(own_address()).hostname or ""
    names = tuple(filter(None, (own, *at.names)))

    def vouch_now() -> Vouched:
        host = socket.gethostname()
        return vouch(folder.certificates, names, host=host, now=datetime.now(UTC))

    vouched = vouch_now()
    number = _port(port, at)
    reached = [name for name in vouched.names if name not in OWN and name != "::1"]
    tls = Tls(
        port=number,
        chain=vouched.chain,
        key=vouched.key,
        addresses=tuple(f"https://{_in_address(name)}:{number}" for name in reached),
        renew=vouch_now,
    )
    return replace(at, tls=tls), vouched


def said(at: Doors, vouched: Vouched) -> Iterator[str]:
    """What the server's window says of the https door."""
    yield f"Over https: {'  '.join(at.over_https)}"
    yield f"How a phone comes to trust it: {_plain_address(at)}/trust/"
    yield "Its fingerprint (SHA-256), which that page shows too, and so does the phone:"
    for line in vouched.authority.lines:
        yield f"  {line}"
    if vouched.is_new:
        yield "The authority was made just now: no device trusts it yet."
    if vouched.left_out:
        yield (
            f"Not over https: {', '.join(vouched.left_out)}. The authority is older than that "
            "name, or the address is none of a home network."
        )


def _port(asked: int | None, at: Doors) -> int:
    if asked:
        if asked == at.port or free_port(asked, host=at.host) != asked:
            raise FolderError(
                f"Port {asked} is in use on this machine. Any other free port is allowed. "
                "Name another one, or leave --https-port out and one is found."
            )
        return asked
    beside = range(at.port + 1, min(at.port + NEIGHBOURS, 65535) + 1)
    free = (port for port in beside if free_port(port, host=at.host) == port)
    return next(free, None) or free_port(0, host=at.host)


def _plain_address(at: Doors) -> str:
    plain = (one for one in at.from_the_network if one not in at.over_https)
    return next(plain, at.address)


def _in_address(name: str) -> str:
    try:
        return f"[{name}]" if ip_address(name).version == 6 else name
    except ValueError:
        return name
