"""Every database that a landed version wrote opens, and says what it said."""

import gzip
import json
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from throwbench.web.folder import Folder

FROZEN = sorted(Path(__file__).parent.glob("*.sqlite3.gz"))
ASK_AGAIN = """
import json, sys
from pathlib import Path
from throwbench.web.folder import Folder
from throwbench.web.server import open_folder
open_folder(Folder(Path(sys.argv[1])))
from throwbench.formats.judged import judge_archive
from throwbench.formats.kept import verdict_from_json, verdict_to_json
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.selectors import archive_of
for kept in Judgement.objects.order_by("made_at"):
    found, _ = judge_archive(archive_of(kept.trial, day=kept.day))
    read = verdict_from_json(kept.verdict)
    print(json.dumps([kept.verdict, verdict_to_json(read), verdict_to_json(found)]))
"""


OPEN_IT = """
import sys
from pathlib import Path
from throwbench.web.folder import Folder
from throwbench.web.server import open_folder
open_folder(Folder(Path(sys.argv[1])))
"""

SAID_OTHERWISE = (
    ("1 to 4.25 h", "1 h to 4 h 15"),
    ("4.83 h", "4 h 50"),
    ("0.25 h", "15 min"),
    ("Dosed at 8.70 %", "Dosed at 8.7 %"),
    ("most others at 8.00:", "most others at 8:"),
    (
        "Too few sniffs to place Ferry Rope: sniff again, same assessors, another evening.",
        "Opinions split on Ferry Rope: more sniffs of these noses do not help, other noses do, or "
        "a decision whom it is for.",
    ),
)
"""What an old verdict said in other words; it is kept as it was, and says the same."""


@pytest.fixture(params=FROZEN, ids=lambda path: path.name.removesuffix(".sqlite3.gz"))
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Folder:
    folder = Folder(tmp_path / "workshop")
    folder.make()
    folder.database.write_bytes(gzip.decompress(request.param.read_bytes()))
    return folder


def test_there_is_a_database_of_a_landed_version():
    assert FROZEN


def test_an_old_database_opens_with_the_same_verdicts(old):
    done = subprocess.run(
        [sys.executable, "-c", ASK_AGAIN, str(old.path)],
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    verdicts = [json.loads(line) for line in done.stdout.splitlines()]
    assert verdicts
    for kept, read, again in verdicts:
        assert_alike(*map(json.loads, (again, kept, read)))


BEFORE_ONE_HOUSE_LIMIT = [path for path in FROZEN if path.name.startswith(("0.2.", "0.3."))]


@pytest.mark.parametrize("old", BEFORE_ONE_HOUSE_LIMIT, indirect=True, ids=lambda path: path.name)
def test_a_longest_burn_that_was_set_is_the_house_limit_now(old):
    with closing(sqlite3.connect(old.database)) as database:
        database.execute("DELETE FROM house_houselimit")
        database.execute("UPDATE house_workshop SET burn_limit_h = 3, trim_mm = 9")
        database.commit()
    subprocess.run([sys.executable, "-c", OPEN_IT, str(old.path)], check=True)
    with closing(sqlite3.connect(old.database)) as database:
        kept = database.execute("SELECT rule, value FROM house_houselimit ORDER BY rule").fetchall()
    assert kept == [("burn-length", 3.0), ("trim-long", 9.0)]


@pytest.mark.parametrize("made_up", [0, False, "", []])
def test_a_figure_learned_since_is_not_made_up_for_an_old_verdict(made_up):
    kept, again = {"counted": 4}, {"counted": 4, "learned": 1}
    assert_alike(again, kept, kept | {"learned": None})
    with pytest.raises(AssertionError):
        assert_alike(again, kept, kept | {"learned": made_up})
    with pytest.raises(AssertionError):
        assert_alike(kept, again, again)


def assert_alike(again: object, kept: object, read: object) -> None:
    """Every word is the same, but for `SAID_OTHERWISE`; figures to nine digits.

    Processors differ in the last ones.

    A figure that the verdict has learned since is None in one that was kept before: nobody had
    worked it out, and a default would be taken for one.
    """
    if isinstance(again, dict) and isinstance(kept, dict) and isinstance(read, dict):
        learned = again.keys() - kept.keys()
        assert kept.keys() <= again.keys()
        assert {name: read[name] for name in learned} == dict.fromkeys(learned)
        for name in kept:
            assert_alike(again[name], kept[name], read[name])
    elif isinstance(again, list) and isinstance(kept, list) and isinstance(read, list):
        assert len(again) == len(kept)
        for three in zip(again, kept, read, strict=True):
            assert_alike(*three)
    elif isinstance(again, float) and isinstance(kept, float):
        assert again == pytest.approx(kept, rel=1e-9, abs=1e-12)
    elif isinstance(kept, str):
        assert again == in_the_words_of_now(kept)
    else:
        assert again == kept


def in_the_words_of_now(kept: str) -> str:
    for before, now in SAID_OTHERWISE:
        kept = kept.replace(before, now)
    return kept
