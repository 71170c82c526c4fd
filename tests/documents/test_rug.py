"""A rug shows single scores: one dot each, never smeared."""

import re

from throwbench.documents.rug import rug


def spots(text: str) -> list[tuple[float, float]]:
    found = re.findall(r'<path transform="translate\(([\d.]+),([\d.]+)\)"', text)
    return [(float(x), float(y)) for x, y in found]


def test_each_score_is_one_dot():
    assert len(spots(rug((1, 1, 2, 3, 5, 5), scale=(1, 5)))) == 6


def test_no_dot_lies_on_another():
    found = spots(rug((4,) * 9 + (5,) * 3, scale=(1, 5)))
    assert len(found) == 12
    apart = [
        max(abs(a[0] - b[0]), abs(a[1] - b[1])) for i, a in enumerate(found) for b in found[i + 1 :]
    ]
    assert min(apart) >= 7.5


def test_a_high_pile_makes_it_higher():
    def height(text: str) -> float:
        return float(re.search(r'viewBox="0 0 120 ([\d.]+)"', text)[1])

    assert height(rug((4,) * 9, scale=(1, 5))) > height(rug((4,), scale=(1, 5)))


def test_no_score_is_an_empty_rug():
    assert spots(rug((), scale=(1, 5))) == []
