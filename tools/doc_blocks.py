"""Run what a page shows, and put what really comes out in its place.

Blocks are taken in the order of the page, and nothing else on it is touched:

- a ```console block: each line that begins with `$ ` is a command, the lines below it are its
  output, byte for byte. `throwbench` runs in this process; after a bar, and for cat, head and ls,
  a shell runs. There is no sign for lines left out: a page that wants fewer says `| head -n 3`.
- a ```python block: it runs, in one namespace per page, and what it prints stands in the ```text
  block right below it.
- a ```csv NAME or ```json NAME block: what it holds is written to the file NAME, for the commands
  below it.
- `<!-- made: NAME -->` to `<!-- end -->`: made by the function of that name in doc_sections.py.

Commands run in a copy of the example files, with the wine data of the published fits beside them as
wine.csv, so no path has to be made alike.
"""

import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import chdir, contextmanager, redirect_stdout
from functools import cache
from io import StringIO
from pathlib import Path
from shlex import split
from tempfile import TemporaryDirectory

from click.testing import CliRunner
from doc_sections import SECTIONS

from throwbench.cli import main

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "src" / "throwbench" / "demo" / "example"
WINE = ROOT / "tests" / "reference" / "wine_randall1989.csv"
BLOCK = re.compile(
    r"""
    ^<!--[ ]made:[ ](?P<section>\w+)[ ]-->\n .*? ^<!--[ ]end[ ]-->$
    | ^```console\n (?P<console>.*?) ^```$
    | ^```(?:csv|json)[ ](?P<file>\S+)\n (?P<rows>.*?) ^```$
    | ^```python\n (?P<python>.*?) ^```$ (?:\n\n```text\n .*? ^```$)?
    """,
    re.DOTALL | re.MULTILINE | re.VERBOSE,
)
BESIDE_US = ("cat ", "head ", "ls")
WRITES = {"--report", "--picture", "--table"}


@contextmanager
def example_folder() -> Iterator[Path]:
    """A copy of the example files as the folder that commands run in."""
    with TemporaryDirectory() as folder:
        for file in EXAMPLE.glob("*.csv"):
            shutil.copy(file, folder)
        rows = WINE.read_text(encoding="utf-8").splitlines(keepends=True)
        Path(folder, "wine.csv").write_text("".join(r for r in rows if not r.startswith("#")))
        with chdir(folder):
            yield Path(folder)


def refreshed(page: str) -> str:
    """The page with every output as it is today; run inside `example_folder`."""
    names: dict[str, object] = {}
    return BLOCK.sub(lambda block: made(block, names), page)


def made(block: re.Match[str], names: dict[str, object]) -> str:
    """One block with what it gives; `names` are those of the page's Python."""
    if section := block["section"]:
        return f"<!-- made: {section} -->\n{SECTIONS[section]()}<!-- end -->"
    if block["console"] is not None:
        return f"```console\n{console(block['console'])}```"
    if block["file"]:
        Path(block["file"]).write_text(block["rows"], encoding="utf-8")
        return block[0]
    return python(block["python"], names)


def console(block: str) -> str:
    """The commands of a block, each with its output."""
    commands = [line for line in block.splitlines() if line.startswith("$ ")]
    return "".join(f"{line}\n{run(line.removeprefix('$ '))}" for line in commands)


def run(command: str) -> str:
    """What a command says, on both streams; a refusal (exit code 2) is an answer too."""
    if command.startswith(BESIDE_US):
        return shell(command, "")
    first, bar, rest = command.partition(" | ")
    given = sorted([*Path().glob("*.csv"), *Path().glob("*.json")])
    files = tuple((file.name, file.read_bytes()) for file in given)
    answer = answered if WRITES.isdisjoint(split(first)) else answered.__wrapped__
    whole, stdout = answer(first, files)
    return shell(rest, stdout) if bar else whole


@cache
def answered(command: str, files: tuple[tuple[str, bytes], ...]) -> tuple[str, str]:
    """What `throwbench` says on both streams, and on the first; asked once for the same files."""
    program, *words = split(command)
    if program != "throwbench":
        raise ValueError(f"{command}: a page runs throwbench, cat, head or ls.")
    done = CliRunner(env={"COLUMNS": None}).invoke(main, words, prog_name="throwbench")
    if done.exit_code not in (0, 2):
        raise RuntimeError(f"{command} ended with {done.exit_code}") from done.exception
    return done.output, done.stdout


def shell(command: str, given: str) -> str:
    done = subprocess.run(
        command,
        input=given,
        capture_output=True,
        text=True,
        encoding="utf-8",
        shell=True,
        check=True,
        env={"PATH": os.defpath, "LC_ALL": "C.UTF-8"},
    )
    return done.stdout


def python(code: str, names: dict[str, object]) -> str:
    """The block, and what it prints below it."""
    heard = StringIO()
    with redirect_stdout(heard):
        exec(compile(code, "block of a page", "exec"), names)
    said = heard.getvalue()
    return f"```python\n{code}```" + (f"\n\n```text\n{said}```" if said else "")
