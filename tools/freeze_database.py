"""Freeze the demo's database as this version writes it: tests/upgrade/VERSION.sqlite3.gz.

    .venv/bin/python tools/freeze_database.py

Once a version has landed, its file is never made anew: later versions have to open it.
"""

import gzip
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

from throwbench import __version__

UPGRADE = Path(__file__).parents[1] / "tests" / "upgrade"


def main() -> None:
    target = UPGRADE / f"{__version__}.sqlite3.gz"
    if target.exists():
        sys.exit(f"{target.name} is there already; what has landed is never frozen anew.")
    with TemporaryDirectory() as place:
        folder = Path(place) / "demo"
        command = [sys.executable, "-c", "from throwbench.cli import main; main()", "demo"]
        subprocess.run([*command, str(folder), "--no-serve"], check=True)
        database = folder / "workshop.sqlite3"
        with closing(sqlite3.connect(database)) as connection:
            connection.execute("PRAGMA journal_mode=DELETE")
            connection.execute("DELETE FROM house_signinlink")
            connection.commit()
            connection.execute("VACUUM")
        target.write_bytes(gzip.compress(database.read_bytes(), mtime=0))
    print(f"{target.name}: {target.stat().st_size:,} bytes")


if __name__ == "__main__":
    main()
