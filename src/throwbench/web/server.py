"""One process that serves one folder: cheroot's threads, no worker left behind when it ends."""

import gc
import os
import signal
import socket
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from queue import SimpleQueue
from threading import Thread
from typing import Any

from throwbench.web.folder import ENVIRONMENT, Folder, FolderError

OBJECTS_BETWEEN = 10_000
"""New objects between two collections of rubbish: about as many as a long page makes."""
THREADS = 6
"""Requests at once. SQLite writes one at a time; readers do not wait for it."""


WAITING = 128
"""Callers who may wait for a thread; more are turned away at the door."""
LARGEST_BODY = 24 * 1024 * 1024
"""Bytes of one request: a photo of 20 MB and what stands around it. More is not even received."""
OWN = ("localhost", "127.0.0.1", "[::1]")
"""Names of this machine to itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """Where the server listens, and under which names it answers."""

    host: str
    port: int
    names: tuple[str, ...]
    tls: "Tls | None" = None

    @property
    def address(self) -> str:
        shown = "127.0.0.1" if self.host in ("127.0.0.1", "0.0.0.0") else self.host
        return f"http://{shown}:{self.port}"

    @property
    def from_the_network(self) -> tuple[str, ...]:
        """Addresses that a phone on the same network can reach; none when it is closed.

        Those over https stand first.
        """
        if self.host != "0.0.0.0":
            return ()
        plain = tuple(f"http://{name}:{self.port}" for name in self.names if name not in OWN)
        return (*self.over_https, *plain)

    @property
    def over_https(self) -> tuple[str, ...]:
        return self.tls.addresses if self.tls else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tls:
    """The second door, over https: its port, its files, and where it is reached."""

    port: int
    chain: Path
    key: Path
    addresses: tuple[str, ...]
    renew: Callable[[], object]
    """Makes the certificate anew where it is time; the files stay where they are."""


def doors(*, port: int, lan: bool) -> Doors:
    """This machine alone, or with `lan` everybody on its network."""
    if not lan:
        return Doors(host="127.0.0.1", port=port, names=OWN)
    return Doors(host="0.0.0.0", port=port, names=(*OWN, *_names_on_the_network()))


def _names_on_the_network() -> tuple[str, ...]:
    """This machine's addresses first, then its names."""
    name = socket.gethostname()
    found = {name: None, f"{name}.local": None}
    try:
        own = socket.gethostbyname_ex(name)[2]
    except OSError:
        own = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # nothing is sent: it only asks which way out is used
            own = [probe.getsockname()[0], *own]
        except OSError:
            pass
    reachable = dict.fromkeys(a for a in own if not a.startswith("127."))
    return (*reachable, *found)


def open_folder(folder: Folder, *, names: tuple[str, ...] = OWN) -> None:
    """Set Django up on a folder and bring its database to this version's form."""
    set_up(folder, names=names)
    from throwbench.web.database import bring_up_to_date  # noqa: PLC0415

    bring_up_to_date(folder)
    _answer_at_own_address()


def set_up(folder: Folder, *, names: tuple[str, ...] = OWN) -> None:
    """Set Django up on a folder; its database stays as it is.

    Raises
    ------
    FolderError
        The folder has lost its database.
    """
    if not folder.database.exists():
        raise FolderError(
            f"The notes of {folder.path} are missing: {folder.database.name} is not there. A "
            "workshop keeps all it knows in that file. Put it back from a copy of the folder, or "
            "begin a new workshop in another one."
        )
    os.umask(0o077)  # who is let in stands in what this process writes
    os.environ[ENVIRONMENT] = str(folder.path)
    os.environ["THROWBENCH_HOSTS"] = ",".join(names)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "throwbench.web.settings")
    import django  # noqa: PLC0415

    django.setup()


def _answer_at_own_address() -> None:
    """The address that the maker gave the workshop is one of its names."""
    from django.conf import settings  # noqa: PLC0415

    from throwbench.workshop.house.address import answer_to_it  # noqa: PLC0415

    address = own_address()
    if address:
        answer_to_it(address)
        settings.CSRF_TRUSTED_ORIGINS.append(address)


def own_address() -> str:
    """The address that the maker gave the workshop; empty where there is none."""
    from throwbench.workshop.house.selectors import workshop  # noqa: PLC0415

    here = workshop()
    return here.address if here else ""


def free_port(wanted: int, *, host: str = "127.0.0.1") -> int:
    """The wanted port, or a free one where somebody else listens there."""
    for port in (wanted, 0):
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((host, port))
            except OSError:
                continue
            found: int = probe.getsockname()[1]
            return found
    raise OSError("no port is free")


def serve(at: Doors, *, ready: Callable[[], None] = lambda: None) -> str:
    """Answer until Ctrl-C or SIGTERM; `ready` is called once it listens. What became of the notes.

    The folder has to be open and locked.
    """
    from throwbench.web.alarm.watching import watching  # noqa: PLC0415
    from throwbench.web.database import fold_in  # noqa: PLC0415
    from throwbench.web.own_files import own_files  # noqa: PLC0415

    servers = _servers(at)
    asked: SimpleQueue[int | None] = SimpleQueue()
    _heed(lambda number, _: asked.put(number))
    _collect_seldom()
    try:
        for server in servers:
            server.prepare()
        with watching():
            ready()
            for server in servers:
                Thread(target=_answer, args=(server, asked), daemon=True).start()
            asked.get()
    finally:
        for server in servers:
            server.stop()
        said = own_files.end(now=datetime.now())
        fold_in()
        _heed(signal.SIG_DFL)
    return said


def _servers(at: Doors) -> list[Any]:
    """One behind each door; both run the same application in this process."""
    from throwbench.web.callers import Callers, most_callers, room_for_files  # noqa: PLC0415
    from throwbench.web.patience import PatientServer  # noqa: PLC0415
    from throwbench.web.wsgi import application  # noqa: PLC0415

    most = most_callers(room_for_files(), doors=2 if at.tls else 1)
    alike: dict[str, Any] = {"numthreads": THREADS, "request_queue_size": WAITING}
    servers: list[Any] = [
        PatientServer((at.host, at.port), application, callers=Callers(most=most), **alike)
    ]
    if at.tls:
        from throwbench.web.tls.door import TlsServer, adapter, keep_renewing  # noqa: PLC0415

        second = TlsServer((at.host, at.tls.port), application, callers=Callers(most=most), **alike)
        second.ssl_adapter = adapter(at.tls.chain, at.tls.key)
        Thread(target=keep_renewing, args=(second.ssl_adapter, at.tls), daemon=True).start()
        servers.append(second)
    for server in servers:
        server.max_request_body_size = LARGEST_BODY
    return servers


def _collect_seldom() -> None:
    """What is loaded stays loaded: the collector need not walk through it while a page waits."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(OBJECTS_BETWEEN)


def _answer(server: Any, asked: SimpleQueue[int | None]) -> None:
    """Answer at one door until the server is stopped; a door that breaks ends the whole."""
    try:
        server.serve()
    finally:
        asked.put(None)


def _heed(what: Any) -> None:
    """What is done when it is asked to end. Nothing is raised: an exception that comes between any
    two steps can be lost, and whoever presses Ctrl-C again would break off the stopping."""
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, what)
