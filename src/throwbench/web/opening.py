"""Open a folder, serve it, and say where it is reached and how to come in."""

import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Thread
from typing import IO

from throwbench.web.folder import Folder, FolderError
from throwbench.web.server import Doors, doors, free_port, open_folder, serve, set_up

PORT = 8650
EXPOSED = (
    "Every device on this network can now reach the page that asks for a link. Pages open only",
    "to a browser that a one-time link let in. What is sent is not encrypted: whoever runs the",
    "network could read it. Use it on your own network, not in a café or at a market.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A folder that is open here and nowhere else, and whether the network may see it."""

    lock: IO[str]
    lan: bool


@contextmanager
def opened(folder: Folder, *, lan: bool = False) -> Iterator[Held]:
    """Hold a folder, make it where it is not there, and bring its database up to date.

    Raises
    ------
    FolderError
        Another server holds it, it cannot be used, or a newer Throwbench wrote it.
    """
    folder.make()
    with folder.lock() as lock:
        open_folder(folder, names=doors(port=PORT, lan=lan).names)
        yield Held(lock=lock, lan=lan)


def serve_and_say(folder: Folder, held: Held, *, port: int | None, browser: bool) -> None:
    """Serve until stopped. A port that was asked for is taken or refused.

    Raises
    ------
    FolderError
        The port asked for is in use.
    """
    at = doors(port=_port(port, lan=held.lan), lan=held.lan)
    _tell_django(at)
    folder.note_address(held.lock, at.address)
    link = f"{at.address}{link_path('')}"

    def ready() -> None:
        print("\n".join(_said(folder, at, link, wanted=port or PORT)), flush=True)
        if browser:
            Thread(target=webbrowser.open, args=(link,), daemon=True).start()

    serve(at, ready=ready)
    print("Stopped. Everything noted is in the folder.", flush=True)


def link_path(name: str) -> str:
    """A new one-time link of the person of that name; without one, of the first owner.

    Raises
    ------
    FolderError
        Nobody of that name is here.
    """
    from throwbench.web.clock import time_here  # noqa: PLC0415
    from throwbench.workshop.house import selectors, services, sign_in  # noqa: PLC0415

    people = {person.name: person for person in selectors.people()}
    if name and name not in people:
        raise FolderError(
            f"Nobody named “{name}” is in this workshop. There are: {', '.join(people)}. "
            "Name one of them, or add a person under House."
        )
    person = people[name] if name else services.first_owner()
    return f"/sign-in/{sign_in.make_link(person, now=time_here())}/"


def new_link(path: Path, name: str) -> tuple[str, bool]:
    """A new one-time link into a folder, and whether a server is there to answer it.

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
    return (at or f"http://127.0.0.1:{PORT}") + link_path(name), bool(at)


def _port(asked: int | None, *, lan: bool) -> int:
    wanted = asked or PORT
    found = free_port(wanted, host=doors(port=wanted, lan=lan).host)
    if asked and found != asked:
        raise FolderError(
            f"Port {asked} is in use on this machine. Any free port is allowed. "
            "Name another one, or leave --port out and one is found."
        )
    return found


def _tell_django(at: Doors) -> None:
    """Pages show where a phone gets in."""
    from django.conf import settings  # noqa: PLC0415

    settings.NETWORK_ADDRESSES = list(at.from_the_network)


def _said(folder: Folder, at: Doors, link: str, *, wanted: int) -> Iterator[str]:
    yield f"Throwbench serves {folder.path} at {at.address}"
    if at.port != wanted:
        yield f"Port {wanted} is in use, so this server took {at.port}."
    yield "Come in with this link; it works once, for 30 minutes:"
    yield f"  {link}"
    if at.from_the_network:
        yield from EXPOSED
        yield f"On the network: {'  '.join(at.from_the_network)}"
    else:
        yield "Only this machine can reach it. With --lan a phone on your network can, too."
    yield "Ctrl-C stops it."
