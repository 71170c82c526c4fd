"""Django on a folder of its own, for tests that look at the frame of the web app."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from throwbench.web.folder import Folder


@pytest.fixture
def now() -> datetime:
    return datetime(2027, 5, 24, 9, 5, tzinfo=UTC)


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    made = Folder(tmp_path / "workshop")
    made.make()
    return made
