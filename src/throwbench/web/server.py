"""One process that serves one folder: cheroot's threads, no worker left behind when it ends."""

import gc
import os
import signal
from collections.abc import Callable
from datetime import datetime
from queue import SimpleQueue
from threading import Thread
from typing import Any

from throwbench.web.folder import ENVIRONMENT, Folder, FolderError
from throwbench.web.listening import OWN, Doors

OBJECTS_BETWEEN = 10_000
"""New objects between two collections of rubbish: about as many as a long page makes."""
THREADS = 6
"""Requests at once. SQLite writes one at a time; readers do not wait for it."""
WAITING = 128
"""Callers who may wait for a thread; more are turned away at the door."""
LARGEST_BODY = 24 * 1024 * 1024
"""Bytes of one request: a photo of 20 MB and what stands around it. More is not even received."""


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

    from throwbench.web.reached import own_address  # noqa: PLC0415
    from throwbench.workshop.house.address import answer_to_it  # noqa: PLC0415

    address = own_address()
    if address:
        answer_to_it(address)
        settings.CSRF_TRUSTED_ORIGINS.append(address)


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
        from throwbench.web.tls.server import TlsServer, adapter, keep_renewing  # noqa: PLC0415

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
