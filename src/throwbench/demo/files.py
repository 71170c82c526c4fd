"""The example as files, through the same door as a maker's own."""

from collections.abc import Mapping
from pathlib import Path

from throwbench.demo.trial import Example
from throwbench.formats import write_csv
from throwbench.records import Burn, Combination, Score, ThemeMember


def texts(example: Example) -> Mapping[str, str]:
    """Name and text of each file."""
    return {
        "scores.csv": write_csv(example.scores, Score, leave_out_empty=True),
        "burns.csv": write_csv(example.burns, Burn, leave_out_empty=True),
        "candles.csv": write_csv(example.combinations, Combination, leave_out_empty=True),
        "one-of.csv": write_csv(example.theme, ThemeMember),
    }


def write(example: Example, folder: Path) -> tuple[Path, ...]:
    """Write the files into a folder, which is made if it is not there; files of the same names
    are replaced."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for name, text in texts(example).items():
        path = folder / name
        path.write_text(text, encoding="utf-8", newline="")
        paths.append(path)
    return tuple(paths)
