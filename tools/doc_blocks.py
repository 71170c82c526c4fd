"""Run what a page shows, and put what really comes out in its place.

Three things on a page are made, and nothing else is touched:

- a ```console block: each line that begins with `$ ` is a command, the lines below it are its
  output, byte for byte. `throwbench` runs in this process; after a bar, and for cat, head and ls,
  a shell runs. There is no sign for lines left out: a page that wants fewer says `| head -n 3`.
- a ```python block: it runs, in one namespace per page, and what it prints stands in the ```text
  block right below it.
- `<!-- made: NAME -->` to `<!-- end -->`: made by the function of that name in doc_sections.py.

Commands run in a copy of the example files, so no path has to be made alike.
"""

import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import chdir, contextmanager, redirect_stdout
from io import StringIO
from pathlib import Path
from shlex import split
from tempfile import TemporaryDirectory

from click.testing import CliRunner
from doc_sections import SECTIONS

from throwbench.cli import main

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "src" / "throwbench" / "demo" / "example"
MADE = re.compile(r"(<!-- made: (\w+) -->\n).*?(<!-- end -->)", re.DOTALL)
CONSOLE = re.compile(r"(^```console\n)(.*?)(^```$)", re.DOTALL | re.MULTILINE)
PYTHON = re.compile(
    r"^```python\n(?P<code>.*?)^```\n(?:\n```text\n(?P<said>.*?)^```\n)?", re.DOTALL | re.MULTILINE
)
BESIDE_US = ("cat ", "head ", "ls")


@contextmanager
def example_folder() -> Iterator[Path]:
    """A copy of the example files as the folder that commands run in."""
    with TemporaryDirectory() as folder:
        for file in EXAMPLE.glob("*.csv"):
            shutil.copy(file, folder)
        with chdir(folder):
            yield Path(folder)


def refreshed(page: str) -> str:
    """The page with every output as it is today; run inside `example_folder`."""
    page = MADE.sub(lambda at: at[1] + SECTIONS[at[2]]() + at[3], page)
    page = CONSOLE.sub(lambda at: at[1] + console(at[2]) + at[3], page)
    names: dict[str, object] = {}
    return PYTHON.sub(lambda at: python(at["code"], names), page)


def console(block: str) -> str:
    """The commands of a block, each with its output."""
    commands = [line for line in block.splitlines() if line.startswith("$ ")]
    return "".join(f"{line}\n{run(line.removeprefix('$ '))}" for line in commands)


def run(command: str) -> str:
    """What a command says, on both streams; a refusal (exit code 2) is an answer too."""
    if command.startswith(BESIDE_US):
        return shell(command, "")
    first, bar, rest = command.partition(" | ")
    program, *words = split(first)
    if program != "throwbench":
        raise ValueError(f"{command}: a page runs throwbench, cat, head or ls.")
    done = CliRunner(env={"COLUMNS": None}).invoke(main, words, prog_name="throwbench")
    if done.exit_code not in (0, 2):
        raise RuntimeError(f"{command} ended with {done.exit_code}") from done.exception
    return shell(rest, done.stdout) if bar else done.output


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
    return f"```python\n{code}```\n" + (f"\n```text\n{said}```\n" if said else "")
