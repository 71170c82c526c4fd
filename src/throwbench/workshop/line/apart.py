"""A verdict worked out apart: one spawned process, which takes its memory with it when it ends.

Spawned and not forked: the server has threads, and the drawing engine hangs in a forked child.
"""

from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

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
    with ProcessPoolExecutor(max_workers=1, mp_context=get_context("spawn")) as pool:
        verdict, refusal = pool.submit(_judged, notes).result()
    if refusal:
        raise SaidError(refusal)
    return verdict


def _judged(notes: Archive) -> tuple[str, str]:
    """Verdict and refusal, one of them empty: an error of ours does not travel as it is."""
    from throwbench.formats.judged import judge_archive  # noqa: PLC0415
    from throwbench.formats.kept import verdict_to_json  # noqa: PLC0415

    try:
        return verdict_to_json(judge_archive(notes)[0]), ""
    except (SaidError, UnreadableFile) as error:
        return "", str(error)
