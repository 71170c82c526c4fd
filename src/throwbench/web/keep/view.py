"""The worker's script, at the root: only there may it look after every page."""

import hashlib
import json
from functools import cache
from pathlib import Path

from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles import finders
from django.http import HttpRequest, HttpResponse
from django.templatetags.static import static
from django.views.decorators.http import require_GET

KINDS = {".css", ".js", ".svg", ".woff2", ".html"}
"""What pages are made of."""


@login_not_required
@require_GET
def worker(request: HttpRequest) -> HttpResponse:
    """The script, which names every file it keeps: it is another one when any of them is."""
    text = f"const BUILD = {json.dumps(build())};\n{_script()}"
    answer = HttpResponse(text, content_type="text/javascript; charset=utf-8")
    answer.headers["Cache-Control"] = "no-cache"
    return answer


@cache
def build() -> dict[str, object]:
    """Addresses of all files of the pages, and one digest of all they hold."""
    digest = hashlib.sha256()
    files = []
    for name, path in sorted(_files().items()):
        files.append(static(name))
        digest.update(f"{name}\0".encode() + path.read_bytes())
    return {"digest": digest.hexdigest()[:16], "files": files}


def _files() -> dict[str, Path]:
    return {
        name: Path(storage.path(name))
        for finder in finders.get_finders()
        for name, storage in finder.list([])
        if Path(name).suffix in KINDS
    }


def _script() -> str:
    found = finders.find("field/worker.js")
    assert isinstance(found, str)
    return Path(found).read_text(encoding="utf-8")
