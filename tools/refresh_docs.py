"""Run every page and write what comes out: `.venv/bin/python tools/refresh_docs.py [PAGE ...]`.

Without a page it does all of them, the page of the files and the picture of the README. The test
`tests/docs/test_pages.py` runs the same and demands that nothing changes.
"""

import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from doc_blocks import EXAMPLE, ROOT, example_folder, refreshed

from throwbench.formats import describe

DOCS = ROOT / "docs"
FILES_PAGE = DOCS / "reference" / "files.md"
PICTURE = DOCS / "images" / "verdict.png"
THROWBENCH = Path(sys.executable).parent / "throwbench"


def pages() -> list[Path]:
    """Every page that a person reads."""
    return [ROOT / "README.md", ROOT / "CHANGELOG.md", *sorted(DOCS.rglob("*.md"))]


def today(page: Path) -> str:
    """A page as it is when everything on it is run today."""
    if page == FILES_PAGE:
        return describe()
    with example_folder():
        return refreshed(page.read_text(encoding="utf-8"))


def picture() -> bytes:
    """The picture of the README: the one that `./run demo` makes."""
    with TemporaryDirectory() as folder:
        call = (
            f"source tools/example.bash && verdict_on_example '{THROWBENCH}' '{EXAMPLE}' '{folder}'"
        )
        subprocess.run(["bash", "-c", call], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
        return Path(folder, "verdict.png").read_bytes()


def write(path: Path, content: bytes) -> None:
    if not path.exists() or path.read_bytes() != content:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
        print(f"{path.relative_to(ROOT)} was brought up to date")


def main(names: list[str]) -> None:
    for page in [Path(name).resolve() for name in names] or pages():
        write(page, today(page).encode())
    if not names:
        write(PICTURE, picture())


if __name__ == "__main__":
    main(sys.argv[1:])
