"""Names of a boat-shed's laptop, a day, and a folder for its certificates."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from throwbench.web.tls.keep import Vouched, vouch

NAMES = ("192.168.1.20", "boat-shed", "boat-shed.local", "127.0.0.1", "localhost", "[::1]")
NOW = datetime(2027, 5, 24, 9, 5, tzinfo=UTC)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "tls"


@pytest.fixture
def vouched(place: Path) -> Callable[..., Vouched]:
    """Vouch for the laptop, or for other names or at another time."""

    def again(*names: str, now: datetime = NOW) -> Vouched:
        return vouch(place, names or NAMES, host="boat-shed", now=now)

    return again
