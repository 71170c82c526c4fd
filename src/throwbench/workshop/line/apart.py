"""A verdict worked out apart: one spawned process, which takes its memory with it when it ends.

Spawned and not forked: the server has threads, and the drawing engine hangs in a forked child.
"""

import os
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context, parent_process
from threading import Thread

from throwbench.formats import UnreadableFile
from throwbench.formats.archive import Archive
from throwbench.science.errors import SaidError


def judged_apart(notes: Archive) -> str:
    """The verdict on an archive, as JSON.

    Raises
    ------
    SaidError
        There is nothing to judge, or what is asked does not fit the scores.
    """
    spawned = get_context("spawn")
    with ProcessPoolExecutor(1, mp_context=spawned, initializer=_end_with_the_server) as pool:
        verdict, refusal = pool.submit(_judged, notes).result()
    if refusal:
        raise SaidError(refusal)
    return verdict


def _end_with_the_server() -> None:
    """A server that was killed ends nobody: without this its child would wait for ever."""
    Thread(target=_end_after_the_server, daemon=True).start()


def _end_after_the_server() -> None:
    server = parent_process()
    if server is not None:
        server.join()
        os._exit(1)


def _judged(notes: Archive) -> tuple[str, str]:
    """Verdict and refusal, one of them empty: an error of ours does not travel as it is."""
    from throwbench.formats.judged import judge_archive  # noqa: PLC0415
    from throwbench.formats.kept import verdict_to_json  # noqa: PLC0415

    try:
        return verdict_to_json(judge_archive(notes)[0]), ""
    except (SaidError, UnreadableFile) as error:
        return "", str(error)
