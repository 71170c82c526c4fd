"""Files to records and back. What cannot be read is a row of problems, not an exception."""

from throwbench.formats.across import questions_across
from throwbench.formats.burns import read_burns
from throwbench.formats.combinations import read_combinations, read_theme
from throwbench.formats.problem import Problem, Reading, UnreadableFile
from throwbench.formats.reference_page import describe
from throwbench.formats.scores import read_scores
from throwbench.formats.table import Table, read_table
from throwbench.formats.writing import write_csv

__all__ = [
    "Problem",
    "Reading",
    "Table",
    "UnreadableFile",
    "describe",
    "questions_across",
    "read_burns",
    "read_combinations",
    "read_scores",
    "read_table",
    "read_theme",
    "write_csv",
]
