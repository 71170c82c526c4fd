"""The thread of the watch: it begins and ends with the server, which holds the folder's lock."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Event, Thread

from django.conf import settings
from django.db import connection, connections

from throwbench.web.alarm.here import WatchHere, elapsed_s, watch_here
from throwbench.web.alarm.sound import sound_file
from throwbench.web.alarm.watch import Watcher
from throwbench.web.clock import time_here
from throwbench.web.own_files import own_files

EVERY_S = 5.0
log = logging.getLogger("throwbench.alarm")


@contextmanager
def watching(here: WatchHere = watch_here, *, every_s: float = EVERY_S) -> Iterator[None]:
    """While the block runs, the deadlines of this folder are watched.

    A second watch in one process would ring twice: it is refused.
    """
    if here.looked_s is not None:
        raise RuntimeError("this process watches already")
    _make_the_sound()
    stop, watcher = Event(), Watcher(here.player)
    here.looked_s = elapsed_s()
    thread = Thread(target=_watch, args=(watcher, here, stop, every_s), name="watch", daemon=True)
    thread.start()
    try:
        yield
    finally:
        stop.set()
        watcher.end()
        thread.join()
        here.awake.release()
        here.looked_s = None


def _make_the_sound() -> None:
    """A disk that is full must not keep the pages shut; the player will say that it has no file."""
    try:
        sound_file(settings.FOLDER.path)
    except OSError:
        log.exception("The sound of the alarm could not be written.")


def _watch(watcher: Watcher, here: WatchHere, stop: Event, every_s: float) -> None:
    """Look until told to stop; the connection to the database ends with the thread."""
    try:
        while not stop.is_set():
            _look(watcher, here)
            stop.wait(every_s)
        watcher.note_what_rang()
    finally:
        connections.close_all()


def _look(watcher: Watcher, here: WatchHere) -> None:
    """One look. What goes wrong in one, as a database that is busy, must not end the watch:
    it is said in the server's window, and the ladder says that nobody looks. It looked, where
    only writing down went wrong."""
    now, passed_s = time_here(), elapsed_s()
    try:
        connection.close_if_unusable_or_obsolete()
        watcher.look(now)
        here.looked_s = elapsed_s()
        if watcher.is_open:
            here.awake.hold()
        else:
            here.awake.release()
        if not own_files.trouble():
            watcher.write_down(now, elapsed_s=passed_s)
    except Exception:
        log.exception("The alarm could not look at what is due. It looks again.")
