"""What an unusual number perhaps should be: a figure that can be put in its place."""

import pytest

from throwbench.formats.slips import likely_meant
from throwbench.records import Burn, Check, Combination, columns

COLUMNS = {item.name: item for record in (Burn, Check, Combination) for item in columns(record)}


@pytest.mark.parametrize(
    ("name", "value", "meant"),
    [
        ("flame_mm", 80, 8),
        ("trim_mm", 0.25, 6.35),
        ("vessel_c", 185, 85),
        ("room_c", 70, 21.1),
        ("room_c", 32, None),
        ("room_c", -2, None),
        ("trim_mm", 12, None),
        ("flame_mm", 4, None),
        ("mass_before_g", 90_000, None),
    ],
)
def test_a_slip_is_told_where_it_would_make_the_number_usual(name, value, meant):
    assert likely_meant(value, COLUMNS[name]) == (None if meant is None else pytest.approx(meant))
