"""In which order candidates stand in a report (`definition` throughout)."""

from scoring import oil
from throwbench.verdict.standing import in_order


def order(*candidates):
    """Their names as a report has them, whichever way they came."""
    names = [item.candidate for item in sorted(candidates, key=in_order)]
    assert [item.candidate for item in sorted(candidates[::-1], key=in_order)] == names
    return "".join(names)


def test_the_place_comes_first():
    assert order(
        oil("G", "reference", belongs=None),
        oil("F", "not ranked", belongs=None),
        oil("E", "barred", belongs=None),
        oil("D", "out of reach", belongs=0.05),
        oil("C", "held back by its theme", belongs=0.5),
        oil("B", "too few sniffs", belongs=0.3),
        oil("A", "equally good", belongs=0.2),
        oil("P", belongs=0.1),
    ) == "PABCDEFG"  # fmt: skip


def test_in_the_pick_those_that_are_tied_stand_last():
    tied = oil("C", belongs=0.8, equally_good=True)
    assert order(tied, oil("B", belongs=0.6), oil("A", belongs=0.95)) == "ABC"


def test_outside_the_pick_a_tie_changes_nothing():
    tied = oil("A", "equally good", belongs=0.4, equally_good=True)
    assert order(tied, oil("B", "equally good", belongs=0.3)) == "AB"


def test_of_one_place_the_likelier_to_belong_stands_first():
    likelier, less, never = (
        oil(name, "out of reach", belongs=chance)
        for name, chance in (("A", 0.09), ("B", 0.01), ("C", 0.0))
    )
    assert order(never, less, likelier) == "ABC"


def test_of_one_chance_the_one_worth_more_stands_first():
    more, little, nothing, less = (
        oil(name, "out of reach", belongs=0.05, worth=worth)
        for name, worth in (("A", 2.0), ("B", 0.5), ("C", 0.0), ("D", -0.5))
    )
    assert order(nothing, less, more, little) == "ABCD"


def test_among_those_with_too_few_sniffs_the_split_ones_stand_together():
    split = {"place": "too few sniffs", "split": "loved by 2, disliked by 3"}
    few = oil("B", "too few sniffs", belongs=0.2)
    assert order(oil("C", belongs=0.4, **split), few, oil("D", belongs=0.3, **split)) == "BCD"
