"""The pages hang together: links, words, sources, defaults."""

import ast
import re
from collections.abc import Iterator
from dataclasses import fields
from datetime import date
from pathlib import Path

import pytest

from throwbench import __version__
from throwbench.documents.result_columns import columns_on, scored
from throwbench.formats.archive import NAMES
from throwbench.formats.archive_reading import LARGEST_FILE
from throwbench.rules.limit import limits_on
from throwbench.rules.rule import rules
from throwbench.science.clean import clean_needed, true_rate_compatible
from throwbench.science.sensory.priors import Priors
from throwbench.verdict.judge import verdict
from throwbench.verdict.question import Question
from throwbench.verdict.result import Verdict
from throwbench.verdict.settings import Settings

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "throwbench"
PAGES = [ROOT / "README.md", ROOT / "CHANGELOG.md", *sorted((ROOT / "docs").rglob("*.md"))]
LINK = re.compile(r"\]\(([^)\s]+)\)")
NAMED_SOURCE = re.compile(r"References\n|[A-Z]\w+\)?,? \(?(?:1[89]|20)\d\d\b|common practice")


def text_of(page: Path) -> str:
    return page.read_text(encoding="utf-8")


def prose_of(page: Path) -> str:
    """A page without its fenced blocks."""
    return re.sub(r"^```.*?^```$", "", text_of(page), flags=re.DOTALL | re.MULTILINE)


def anchors(page: Path) -> set[str]:
    """The names by which the heads of a page can be reached."""
    heads = re.findall(r"^#+ (.+)$", prose_of(page), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.lower()).replace(" ", "-") for head in heads}


def links() -> Iterator[tuple[Path, str]]:
    for page in PAGES:
        for target in LINK.findall(prose_of(page)):
            if not target.startswith("https://"):
                yield page, target


def test_every_link_between_pages_leads_somewhere():
    lost = []
    for page, target in links():
        name, _, anchor = target.partition("#")
        there = (page.parent / name).resolve() if name else page
        if not there.exists() or (anchor and anchor not in anchors(there)):
            lost.append(f"{page.relative_to(ROOT)}: {target}")
    assert lost == []


def test_every_page_can_be_reached_from_another():
    reached = {(page.parent / target.partition("#")[0]).resolve() for page, target in links()}
    alone = [page for page in PAGES if not reached & {page, page.parent}]
    assert alone == [ROOT / "README.md"]


@pytest.mark.parametrize(
    "word", ["safe", "safely", "jar", "sample", "tester", "project", "session"]
)
def test_the_pages_keep_to_one_word_per_thing(word):
    pattern = re.compile(rf"(?<![\w.-]){word}s?(?![\w-])", re.IGNORECASE)
    assert [page.name for page in PAGES if pattern.search(text_of(page))] == []


def test_the_readme_maps_every_room():
    rooms = {path.parent.name for path in PACKAGE.glob("*/__init__.py")}
    assert set(re.findall(r"^\| `(\w+)/` \|", text_of(ROOT / "README.md"), re.MULTILINE)) == rooms


def test_the_newest_version_of_the_changelog_is_this_one():
    newest = re.search(r"^## (\S+) ", text_of(ROOT / "CHANGELOG.md"), re.MULTILINE)
    assert newest[1] == __version__


def test_verbs_that_the_pages_name_are_verbs_of_run():
    verbs = set(re.findall(r"^  (\w+)(?: .*)?  ", text_of(ROOT / "run"), re.MULTILINE))
    named = {verb for page in PAGES for verb in re.findall(r"\./run (\w+)", text_of(page))}
    assert {"demo", "test"} <= named <= verbs


def test_decision_records_are_numbered_without_a_gap_and_short():
    records = sorted((ROOT / "docs" / "decisions").glob("*.md"))
    assert [int(record.name[:4]) for record in records] == list(range(1, len(records) + 1))
    for record in records:
        said = text_of(record)
        assert said.startswith(f"# {record.name[:4]} · ")
        assert "**Question.**" in said
        assert "**Decision.**" in said
        assert len(said.splitlines()) < 40


def defaults(record: type) -> dict[str, object]:
    return {item.name: getattr(record(), item.name) for item in fields(record)}


@pytest.mark.parametrize("record", [Settings, Priors])
def test_the_page_of_numbers_tells_every_default(record):
    page = text_of(ROOT / "docs" / "reference" / "numbers.md")
    for name, value in defaults(record).items():
        told = re.search(rf"^\| `{name}` \| (\S+) \|", page, re.MULTILINE)
        assert told, name
        if told[1] == "none":
            assert not value, name
        else:
            assert float(told[1]) == value, name


@pytest.mark.parametrize("field", [item.name for item in fields(Verdict)])
def test_every_field_of_the_json_is_told(field):
    page = text_of(ROOT / "docs" / "reference" / "documents.md")
    assert f"`{field}`" in page.partition("## JSON")[2]


def test_every_entry_of_a_question_is_told_with_what_stands_without_it():
    page = text_of(ROOT / "docs" / "reference" / "archive.md")
    told = dict(re.findall(r"^\| `(\w+)` \| .* \| (.+) \|$", page, re.MULTILINE))
    question = Question(day=date(2027, 5, 24))
    assert set(told) == {"format", *(item.name for item in fields(Question))}
    for name in ("trial", "workshop", "choose", "invented"):
        assert told[name] == str(getattr(question, name)).replace("False", "false"), name
    assert {name for name, default in told.items() if default == "refused"} == {"format", "day"}


def test_every_file_of_an_archive_is_told():
    page = text_of(ROOT / "docs" / "reference" / "archive.md")
    assert set(re.findall(r"^\| `([\w-]+\.\w+)` \|", page, re.MULTILINE)) == set(NAMES)
    assert f"at most {LARGEST_FILE // 1_000_000} MB" in page


def test_every_column_of_the_table_is_told():
    """Those of an attribute once, with a sign in place of its name."""
    page = text_of(ROOT / "docs" / "reference" / "documents.md")
    told = re.findall(r"^\| `([^`]+)`", page.partition("CSV)\n")[2].partition("## JSON")[0], re.M)
    columns = (*columns_on("table", verdict((), day=date(2027, 5, 24))), *scored("…"))
    assert told == [column.name for column in columns]


def test_a_limit_is_told_in_the_words_of_the_program():
    rows = re.findall(
        r"^\| `([\w-]+)` \| [^|]+ \| ([^|]+) \|(?: [^|]+ \|){4} (?:yes|no) \|$",
        text_of(ROOT / "docs" / "reference" / "numbers.md"),
        re.M,
    )
    told = dict(rows)
    assert list(told) == [rule.id for rule in rules()]
    for limit in limits_on(date(2027, 5, 24)):
        assert limit.sentence().removesuffix(" (house limit)") in told[limit.rule.id]
    assert told["soot"] == "in at most half of the judged burns"


def test_what_clean_candles_are_worth_is_quoted_as_computed():
    rate = f"true failure rate of {100 * true_rate_compatible(clean=2):.0f} %"
    for name in ("README.md", "docs/why/none-broken.md", "docs/how-to/burn.md"):
        assert rate in " ".join(text_of(ROOT / name).split()), name
    assert f"10 % it takes\n{clean_needed(rate=0.10)} of them" in text_of(
        ROOT / "docs" / "why" / "none-broken.md"
    )


def naming_modules() -> list[str]:
    """Modules of science and rules whose speech names a source."""
    files = [*(PACKAGE / "science").rglob("*.py"), *(PACKAGE / "rules").rglob("*.py")]
    return sorted(
        path.relative_to(PACKAGE).as_posix()
        for path in files
        if any(NAMED_SOURCE.search(said) for said in strings(path))
    )


def strings(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(text_of(path))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


@pytest.mark.parametrize("module", naming_modules())
def test_a_module_that_names_a_source_stands_on_the_page_of_sources(module):
    assert f"`{module}`" in text_of(ROOT / "docs" / "sources.md")


def test_modules_that_are_known_to_name_a_source_are_found():
    found = naming_modules()
    assert {"science/clean.py", "science/heat.py", "science/sensory/published.py"} <= set(found)


def test_files_on_the_page_of_sources_exist():
    named = re.findall(
        r"`((?:[\w-]+/)+[\w.-]+\.(?:py|yaml|csv))`", text_of(ROOT / "docs/sources.md")
    )
    assert len(named) > 15
    assert [name for name in named if not any((at / name).exists() for at in (ROOT, PACKAGE))] == []


def test_every_standard_of_a_limit_stands_on_the_page_of_sources():
    page = text_of(ROOT / "docs" / "sources.md")
    standards = {
        name for rule in rules() for name in re.findall(r"(?:EN|ASTM)[A-Z ]+[\w()-]+", rule.source)
    }
    assert len(standards) >= 5
    assert [name for name in sorted(standards) if name not in page] == []


def test_every_table_of_check_values_stands_on_the_page_of_sources():
    page = text_of(ROOT / "docs" / "sources.md")
    tables = [path.name for path in (ROOT / "tests" / "reference").glob("*.csv")]
    assert [name for name in tables if f"`tests/reference/{name}`" not in page] == []


def quotes(page: str, head: str) -> list[str]:
    """The first cells of the table below a head: what the program says."""
    table = text_of(ROOT / "docs" / page).partition(head)[2].partition("\n\n")[2]
    part = table[table.index("| It says |") :].partition("\n\n")[0]
    return [line.split(" | ")[0].removeprefix("| ") for line in part.splitlines()[2:]]


def answers() -> str:
    """What the commands of the pages answer, and the table that one of them writes."""
    blocks = [re.findall(r"```console\n(.*?)```", text_of(page), re.DOTALL) for page in PAGES]
    return " ".join(" ".join(block for page in blocks for block in page).split())


@pytest.fixture(scope="module")
def written(blocks):
    """The table of the example, whose cells are not broken into lines."""
    ask = "throwbench verdict scores.csv burns.csv --candles candles.csv --one-of one-of.csv"
    with blocks.example_folder() as folder:
        blocks.run(f"{ask} --choose 4 --band 3.2-4.4 --day 2027-05-24 --table verdict.csv")
        return (folder / "verdict.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("page", "head", "defined"),
    [
        ("how-to/verdict.md", "## Read the sentence", set()),
        ("tutorial.md", "**The figures**", {"step", "worth"}),
    ],
)
def test_what_a_page_quotes_is_what_the_program_says(page, head, defined, written):
    said = f"{answers()} {written}"
    quoted = quotes(page, head)
    assert len(quoted) > 5
    assert defined <= set(quoted)
    for quote in quoted:
        pattern = ".{1,60}?".join(re.escape(part) for part in quote.split("…"))
        assert re.search(pattern, said), quote
