"""The page of the files says what the records say."""

from pathlib import Path

from throwbench.formats import describe
from throwbench.records import Burn, Check, Combination, Score, ThemeMember, columns

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "files.md"


def test_the_committed_page_is_made_from_the_records_of_today():
    assert PAGE.read_text(encoding="utf-8") == describe()


def test_every_column_stands_on_the_page():
    page = describe()
    for record in (Score, Burn, Check, Combination, ThemeMember):
        assert all(f"| `{column.name}` |" in page for column in columns(record))
