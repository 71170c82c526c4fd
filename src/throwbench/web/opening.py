"""Open a folder, serve it, and say where it is reached and how to come in."""

import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Thread
from typing import IO, TYPE_CHECKING

from throwbench.web.contents import close_to_others
from throwbench.web.folder import Folder, FolderError
from throwbench.web.listening import Doors, doors, free_port
from throwbench.web.server import open_folder, serve, set_up

if TYPE_CHECKING:
    from throwbench.web.tls.keep import Vouched

PORT = 8650
EXPOSED = (
    "Every device on this network can now reach the page that asks for a link. Pages open only",
    "to a browser that a one-time link let in. What is sent is not encrypted: whoever runs the",
    "network could read it. Use it on your own network, not in a café or at a market.",
)
EXPOSED_BOTH = (
    "Every device on this network can now reach the page that asks for a link. Pages open only",
    "to a browser that a one-time link let in. What is sent over https is encrypted; over http it",
    "is not, and the same browser is let in at both. Use it on your own network.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A folder that is open here and nowhere else, and whether the network may see it."""

    lock: IO[str]
    lan: bool
    https: bool = False


@contextmanager
def opened(folder: Folder, *, lan: bool = False, https: bool = False) -> Iterator[Held]:
    """Hold a folder, make it where it is not there, and bring its database up to date.

    Https is for phones, so it opens the door to the network too.

    Raises
    ------
    FolderError
        Another server holds it, it cannot be used, or a newer Throwbench wrote it.
    """
    folder.make()
    with folder.lock() as lock:
        folder.photos.mkdir(exist_ok=True)
        close_to_others(folder)
        open_folder(folder, names=doors(port=PORT, lan=lan or https).names)
        from throwbench.web.own_files import own_files  # noqa: PLC0415

        own_files.opened(folder, lock)
        yield Held(lock=lock, lan=lan or https, https=https)


def serve_and_say(
    folder: Folder,
    held: Held,
    *,
    port: int | None,
    https_port: int | None = None,
    browser: bool,
) -> None:
    """Serve until stopped. A port that was asked for is taken or refused.

    Raises
    ------
    FolderError
        The port asked for is in use, or the files of https are broken.
    """
    at = doors(port=_port(port, lan=held.lan), lan=held.lan)
    vouched = None
    if held.https:
        from throwbench.web.tls.opening import with_https  # noqa: PLC0415

        at, vouched = with_https(folder, at, port=https_port)
    _tell_django(at, vouched)
    folder.note_address(held.lock, *at.over_https[:1], at.address)
    link = f"{at.address}{link_path('')}"

    def ready() -> None:
        print("\n".join(_said(folder, at, link, vouched, wanted=port or PORT)), flush=True)
        if browser:
            Thread(target=webbrowser.open, args=(link,), daemon=True).start()

    print(serve(at, ready=ready), flush=True)


def link_path(name: str) -> str:
    """A new one-time link of the person of that name; without one, of the first owner."""
    return _way_in(name)[0]


def _way_in(name: str) -> tuple[str, str]:
    """A new link of that person, and the code that is typed instead of it.

    Raises
    ------
    FolderError
        Nobody of that name is here.
    """
    from throwbench.web.clock import time_here  # noqa: PLC0415
    from throwbench.workshop.house import selectors, services, sign_in  # noqa: PLC0415
    from throwbench.workshop.house.typed_code import in_groups  # noqa: PLC0415

    people = {person.name: person for person in selectors.people()}
    if name and name not in people:
        raise FolderError(
            f"Nobody named “{name}” is in this workshop. There are: {', '.join(people)}. "
            "Name one of them, or add a person under House."
        )
    person = people[name] if name else services.first_owner()
    way = sign_in.make_way_in(person, now=time_here())
    return f"/sign-in/{way.token}/", in_groups(way.code)


def new_link(path: Path, name: str) -> tuple[tuple[str, ...], str, bool]:
    """A new one-time link into a folder, its code, and whether a server is there to answer it.

    The link is written once for each door of the server, https first.

    Raises
    ------
    FolderError
        There is no workshop, it has another form, or nobody of that name is in it.
    """
    folder = Folder(path)
    folder.read()
    set_up(folder)
    from throwbench.web.database import demand_this_form  # noqa: PLC0415

    demand_this_form(folder)
    at = folder.served_at()
    link, code = _way_in(name)
    reached = at or (f"http://127.0.0.1:{PORT}",)
    return tuple(f"{address}{link}" for address in reached), code, bool(at)


def _port(asked: int | None, *, lan: bool) -> int:
    wanted = asked or PORT
    found = free_port(wanted, host=doors(port=wanted, lan=lan).host)
    if asked and found != asked:
        raise FolderError(
            f"Port {asked} is in use on this machine. Any free port is allowed. "
            "Name another one, or leave --port out and one is found."
        )
    return found


def _tell_django(at: Doors, vouched: "Vouched | None") -> None:
    """Pages show where a phone gets in, and what it trusts."""
    from django.conf import settings  # noqa: PLC0415

    settings.NETWORK_ADDRESSES = list(at.from_the_network)
    settings.AUTHORITY = vouched.authority if vouched else None


def _said(
    folder: Folder, at: Doors, link: str, vouched: "Vouched | None", *, wanted: int
) -> Iterator[str]:
    yield f"Throwbench serves {folder.path} at {at.address}"
    if at.port != wanted:
        yield f"Port {wanted} is in use, so this server took {at.port}."
    yield "Come in with this link; it works once, for 30 minutes:"
    yield f"  {link}"
    if vouched:
        from throwbench.web.tls.opening import said  # noqa: PLC0415

        yield from EXPOSED_BOTH
        yield from said(at, vouched)
    elif at.from_the_network:
        yield from EXPOSED
        yield f"On the network: {'  '.join(at.from_the_network)}"
    else:
        yield "Only this machine can reach it. With --lan a phone on your network can, too."
    yield "Ctrl-C stops it."
