"""Says which files of the package a built wheel lacks: `wheel_contents.py SRC WHEEL`.

Package data is named by patterns in pyproject.toml; a new kind of file slips through unseen, and
the checkout, where every file is at hand, never notices.
"""

import sys
import zipfile
from pathlib import Path


def missing_files(src: Path, wheel: Path) -> list[str]:
    """Return the files below SRC's packages, as paths from SRC, that WHEEL does not hold."""
    held = set(zipfile.ZipFile(wheel).namelist())
    wanted = {
        path.relative_to(src).as_posix()
        for path in src.glob("throwbench/**/*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    return sorted(wanted - held)


if __name__ == "__main__":
    missing = missing_files(Path(sys.argv[1]), Path(sys.argv[2]))
    if missing:
        sys.exit("The wheel lacks " + ", ".join(missing) + ": name them in package-data.")
