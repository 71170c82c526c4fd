"""Drawings and papers of a judgement, kept in the folder: made once, read after that."""

import json
from collections.abc import Callable, Sequence
from dataclasses import asdict
from hashlib import sha256
from pathlib import Path
from typing import Any
from uuid import uuid4

from django.conf import settings

from throwbench import __version__
from throwbench.documents.rug import rug
from throwbench.documents.slope import ends, slope
from throwbench.documents.strips import Strips, strips
from throwbench.verdict.result import Verdict
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.selectors import verdict_of


def strips_of(judgement: Judgement) -> Strips:
    """Axis, ground and one strip for each oil."""

    def make() -> bytes:
        return json.dumps(asdict(strips(verdict_of(judgement)))).encode()

    found = json.loads(kept(judgement, "strips.json", make))
    return Strips(axis=found["axis"], ground=found["ground"], oils=tuple(found["oils"]))


def rugs_of(judgement: Judgement, runs: Sequence[tuple[int, ...]]) -> list[str]:
    """One rug for each run of single scores."""

    def make() -> bytes:
        scale = verdict_of(judgement).scale
        return json.dumps([rug(scores, scale=scale) for scores in runs]).encode()

    found: list[str] = json.loads(kept(judgement, "rugs.json", make))
    return found


def slope_of(judgement: Judgement, oil: str, *, among: frozenset[str] = frozenset()) -> list[str]:
    """Cold against hot throw, wide and narrow; none where it is not known of the oil itself.

    Parameters
    ----------
    oil : the one that is spoken of
    among : the others that are drawn; all of the trial where none is named
    """

    def make() -> bytes:
        return json.dumps(_slopes(verdict_of(judgement), oil, among)).encode()

    names = sha256(json.dumps([oil, sorted(among)]).encode()).hexdigest()[:16]
    found: list[str] = json.loads(kept(judgement, f"slope-{names}.json", make))
    return found


def _slopes(verdict: Verdict, oil: str, among: frozenset[str]) -> list[str]:
    shown = [one for one in ends(verdict) if not among or one.oil in among]
    if not any(one.oil == oil for one in shown):
        return []
    band = next(iter(verdict.bands), None)
    look: dict[str, Any] = {"spoken_of": oil, "scale": verdict.scale, "band": band}
    return [slope(shown, **look), slope(shown, narrow=True, **look)]


def kept(judgement: Judgement, name: str, make: Callable[[], bytes]) -> bytes:
    """What was made before of the same notes by the same version, else what is made now."""
    folder: Path = settings.FOLDER.charts
    path = folder / f"{judgement.digest}-{_version(judgement)}-{name}"
    try:
        return path.read_bytes()
    except FileNotFoundError:
        made = make()
    folder.mkdir(parents=True, exist_ok=True)
    new = path.with_name(f"{path.name}.{uuid4().hex}")
    new.write_bytes(made)
    new.replace(path)
    return made


def _version(judgement: Judgement) -> str:
    """Whose words are drawn, and who draws them."""
    return sha256(f"{judgement.engine} {__version__}".encode()).hexdigest()[:8]
