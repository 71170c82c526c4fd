"""`throwbench verdict ARCHIVE`: the same answer as from the files and options it was made of."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from click.testing import CliRunner

import throwbench.demo
from throwbench.cli.verdict import command
from throwbench.formats.archive import Archive, to_zip
from throwbench.verdict.question import Question
from throwbench.verdict.result import Band

EXAMPLE = Path(throwbench.demo.__file__).parent / "example"
NAMES = ("scores.csv", "burns.csv", "candles.csv", "one-of.csv")
QUESTION = Question(
    day=date(2027, 5, 24),
    trial="Long Light",
    workshop="Saltmyr",
    choose=4,
    bands=(Band(3.2, 4.4), Band(2.6, 3.8, "back room")),
    scale=(1, 5),
    cure_days=10.0,
    leave_out=frozenset({"tired"}),
    house={"vessel-temperature": 60.0},
    invented=True,
)
OPTIONS = {
    "--choose": ("4",),
    "--band": ("3.2-4.4", "back room=2.6-3.8"),
    "--scale": ("1-5",),
    "--cure-days": ("10",),
    "--leave-out": ("tired",),
    "--house": ("vessel-temperature=60",),
    "--day": ("2027-05-24",),
}
SCORES = """\
candle,candidate,assessor,room,sitting,attribute,score
K7F,Slate,Odd,loft,May 9,liking,5
R9D,Kelp,Odd,loft,May 9,liking,3
R9D,Kelp,Tor,loft,May 9,liking,many
"""


def words_of(options):
    """Options as they are written, each value behind its own name."""
    return [word for name, values in options.items() for one in values for word in (name, one)]


def of_files(options):
    """What the files of the example say when they are asked with options."""
    scores, burns, candles, one_of = (EXAMPLE / name for name in NAMES)
    files = (scores, burns, "--candles", candles, "--one-of", one_of)
    return said(*files, *words_of(options), "--json")


def asked(*words):
    return CliRunner().invoke(command, [str(word) for word in words])


def said(*words):
    answer = asked(*words)
    assert answer.exit_code == 0, answer.output
    return answer.output


@pytest.fixture(scope="module")
def demo():
    files = {name: (EXAMPLE / name).read_text(encoding="utf-8") for name in NAMES}
    return Archive(files=files, question=QUESTION)


@pytest.fixture
def keep(tmp_path):
    """Write an archive as one .zip or as a folder, and give its path."""

    def written(archive, *, folder=False):
        path = tmp_path / ("long-light" if folder else "long-light.zip")
        if folder:
            path.mkdir()
            for name, text in archive.entries().items():
                (path / name).write_text(text, encoding="utf-8", newline="")
        else:
            path.write_bytes(to_zip(archive))
        return path

    return written


@pytest.fixture
def small(keep):
    """A little archive, asked in the plainest way, as a folder."""
    files = {"scores.csv": SCORES, "burns.csv": (EXAMPLE / "burns.csv").read_text("utf-8")}
    return keep(Archive(files=files, question=Question(day=date(2027, 5, 24))), folder=True)


def test_an_archive_gives_the_very_answer_of_its_files_and_options(demo, keep):
    whole = of_files(OPTIONS)
    assert said(keep(demo), "--json") == whole
    assert said(keep(demo, folder=True), "--json") == whole


def test_in_words_too(small):
    files = (small / "scores.csv", small / "burns.csv")
    assert said(small) == said(*files, "--day", "2027-05-24")


def test_the_day_is_that_of_the_archive(small):
    assert json.loads(said(small, "--json"))["day"] == "2027-05-24"
    assert json.loads(said(small, "--day", "2027-11-02", "--json"))["day"] == "2027-11-02"


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("--choose", "1"),
        ("--band", "3-4"),
        ("--scale", "1-10"),
        ("--leave-out", "perfume"),
        ("--day", "2027-06-24"),
    ],
)
def test_an_option_stands_above_what_the_archive_says(demo, keep, option, value):
    answer = said(keep(demo), option, value, "--json")
    assert answer == of_files(OPTIONS | {option: (value,)})
    assert answer != of_files(OPTIONS)


def test_the_cure_that_an_option_asks_for_stands_above_that_of_the_archive(keep):
    head, *rows = SCORES.splitlines()
    text = "\n".join([f"{head},cure_days", *(f"{row},9" for row in rows)])
    packed = keep(
        Archive(
            files={"scores.csv": text}, question=Question(day=date(2027, 5, 24), cure_days=10.0)
        )
    )
    assert json.loads(said(packed, "--json"))["counted"] == 0
    assert json.loads(said(packed, "--cure-days", "9", "--json"))["counted"] == 2


@pytest.mark.parametrize(
    ("given", "all_of_them"),
    [
        ("flame-height=60", ("vessel-temperature=60", "flame-height=60")),
        ("vessel-temperature=75", ("vessel-temperature=75",)),
    ],
)
def test_a_house_limit_stands_above_that_of_its_own_rule_only(demo, keep, given, all_of_them):
    answer = said(keep(demo), "--house", given, "--json")
    assert answer == of_files(OPTIONS | {"--house": all_of_them})
    assert answer != of_files(OPTIONS)


def test_the_heading_of_the_papers_is_that_of_the_archive(demo, keep, tmp_path):
    packed = keep(demo)
    told = paper(packed, tmp_path / "a.pdf")
    assert "Saltmyr" in told
    assert "Long Light" in told
    assert "All people, suppliers, oils and figures are invented." in told
    other = paper(packed, tmp_path / "b.pdf", "--workshop", "Tarnholt", "--trial", "Short Light")
    assert "Tarnholt" in other
    assert "Saltmyr" not in other
    assert "Short Light" in other


def paper(packed, path, *words):
    said(packed, "--report", path, *words)
    with pypdfium2.PdfDocument(path) as report:
        pages = [report[number].get_textpage().get_text_range() for number in range(len(report))]
    return " ".join(" ".join(pages).split())


def test_invented_can_be_said_of_an_archive_that_does_not_say_it(small, tmp_path):
    assert "invented" not in paper(small, tmp_path / "a.pdf")
    assert "invented" in paper(small, tmp_path / "b.pdf", "--invented")


def refused(*words):
    answer = asked(*words)
    assert answer.exit_code == 2, answer.output
    assert answer.stdout == ""
    return answer.stderr


@pytest.mark.parametrize("option", ["--candles", "--one-of"])
def test_a_file_beside_an_archive_is_refused(small, option):
    assert refused(small, option, EXAMPLE / "candles.csv") == (
        f"{option} would change nothing here. It belongs to SCORES and BURNS given as two files. "
        "Leave it out.\n"
    )


def test_scores_alone_are_no_archive(small):
    assert refused(small / "scores.csv") == (
        "scores.csv is not the archive of a trial; that is a folder or a .zip that holds "
        "scores.csv, burns.csv, candles.csv, one-of.csv and trial.json: check the name, or name "
        "scores and burns as two files.\n"
    )


def test_a_question_that_cannot_be_read_is_a_sentence(small):
    (small / "trial.json").write_text('{"format": 1, "day": "May"}', encoding="utf-8")
    assert refused(small) == (
        'trial.json, day: "May" is no day; a day such as 2027-05-24 is needed: correct it.\n'
    )


def test_a_band_for_a_room_without_a_score_is_refused_as_ever(keep):
    question = Question(day=date(2027, 5, 24), bands=(Band(3, 4, "attic"),))
    files = {"scores.csv": SCORES.replace("liking", "hot_throw")}
    packed = keep(Archive(files=files, question=question))
    assert refused(packed).startswith("A band is given for attic, and no score that counts is from")
    assert said(packed, "--band", "3-4").startswith("No clear winner yet: ")


def test_a_file_of_the_archive_that_gives_no_row_is_a_sentence(keep):
    packed = keep(Archive(files={"scores.csv": "candle\n"}, question=replace(QUESTION, bands=())))
    assert refused(packed).startswith("scores.csv has no rows; ")


@pytest.mark.parametrize("name", [*NAMES, "trial.json"])
def test_a_paper_is_never_written_over_a_file_of_the_archive(small, name):
    written = small / name
    before = written.read_bytes() if written.exists() else None
    assert refused(small, "--table", written).startswith(
        f"--table {written} is one of the files that are read. "
    )
    assert (written.read_bytes() if written.exists() else None) == before


def test_a_paper_is_never_written_over_the_archive_itself(demo, keep):
    packed = keep(demo)
    assert "is one of the files that are read." in refused(packed, "--table", packed)
    assert packed.read_bytes() == to_zip(demo)


def test_a_paper_may_lie_beside_the_files_of_the_archive(small):
    before = said(small)
    assert said(small, "--table", small / "verdict.csv") == before
    assert said(small) == before
