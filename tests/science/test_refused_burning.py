"""What the science of burning refuses: whole sentences, with value, unit, limits and source.

Each names what it was, its value with the unit, what is allowed, who says so, and what to do.
"""

from collections.abc import Callable
from typing import Any

import pytest

from throwbench.science.burn import (
    burn_rate,
    difference_sd,
    level_drop_mm_h,
    remaining_h,
    wax_left_mm,
)
from throwbench.science.clean import clean_needed, true_rate_compatible
from throwbench.science.errors import SaidError
from throwbench.science.heat import heat_release_w
from throwbench.science.pool import free_pool_full_h, free_pool_mm, pool_share, time_rule_h

CHECK = "Check the value and its unit."
DEFINED = f"(by definition). {CHECK}"
RATES = f"(Clopper and Pearson 1934). {CHECK}"
HEAT = f"(Hamins, Bundy, Dillon 2005). {CHECK}"

REFUSED: list[tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any], str]] = [
    (
        pool_share,
        (),
        {"width_mm": 0, "inside_mm": 0.0009},
        f"The inside diameter is 0.0009 mm; at least 0.001 mm is allowed {DEFINED}",
    ),
    (
        pool_share,
        (),
        {"width_mm": 80.5, "inside_mm": 80},
        (
            "The melt pool is 80.5 mm; 0 to 80 mm is allowed (the inside diameter of the "
            "vessel). Measure it again, or check the vessel."
        ),
    ),
    (
        time_rule_h,
        (),
        {"inside_mm": 0},
        (
            "The inside diameter is 0 mm; at least 0.001 mm is allowed (common practice: an "
            "hour per inch, at most 4 h). Check the value and its unit."
        ),
    ),
    (
        free_pool_mm,
        (),
        {"hours": -1, "widest_mm": 80, "tau_h": 1},
        f"The time lit is -1 h; at least 0 h is allowed {DEFINED}",
    ),
    (
        free_pool_mm,
        (),
        {"hours": 1, "widest_mm": -2, "tau_h": 1},
        f"The widest pool is -2 mm; at least 0 mm is allowed {DEFINED}",
    ),
    (
        free_pool_mm,
        (),
        {"hours": 1, "widest_mm": 80, "tau_h": 0},
        f"The time constant is 0 h; at least 1e-06 h is allowed {DEFINED}",
    ),
    (
        free_pool_full_h,
        (),
        {"inside_mm": 0, "widest_mm": 80, "tau_h": 1},
        f"The inside diameter is 0 mm; at least 0.001 mm is allowed {DEFINED}",
    ),
    (
        free_pool_full_h,
        (),
        {"inside_mm": 70, "widest_mm": -1, "tau_h": 1},
        f"The widest pool is -1 mm; at least 0 mm is allowed {DEFINED}",
    ),
    (
        free_pool_full_h,
        (),
        {"inside_mm": 70, "widest_mm": 80, "tau_h": 0},
        f"The time constant is 0 h; at least 1e-06 h is allowed {DEFINED}",
    ),
    (
        difference_sd,
        (),
        {"step": 0},
        f"The step of the scale is 0; at least 1e-09 is allowed {DEFINED}",
    ),
    (
        difference_sd,
        (),
        {"step": 1, "repeatability": -0.1},
        f"The repeatability is -0.1; at least 0 is allowed {DEFINED}",
    ),
    (
        burn_rate,
        (),
        {"mass_before_g": 300, "mass_after_g": 290, "hours": 0, "scale_step_g": 1},
        f"The time lit is 0 h; at least 0.000277778 h is allowed {DEFINED}",
    ),
    (
        burn_rate,
        (),
        {"mass_before_g": 300, "mass_after_g": 301, "hours": 2, "scale_step_g": 1},
        (
            "The mass after the burn is 301 g; 0 to 300 g is allowed (a candle does not gain "
            "wax by burning). Check the value and its unit."
        ),
    ),
    (
        level_drop_mm_h,
        (),
        {"rate_g_h": -1, "inside_mm": 80, "density_g_ml": 0.9},
        f"The burn rate is -1 g/h; at least 0 g/h is allowed {DEFINED}",
    ),
    (
        level_drop_mm_h,
        (),
        {"rate_g_h": 5, "inside_mm": 0, "density_g_ml": 0.9},
        f"The diameter is 0 mm; at least 0.001 mm is allowed {DEFINED}",
    ),
    (
        level_drop_mm_h,
        (),
        {"rate_g_h": 5, "inside_mm": 80, "density_g_ml": 0},
        f"The density is 0 g/ml; at least 0.001 g/ml is allowed {DEFINED}",
    ),
    (
        wax_left_mm,
        (),
        {"burnt_g": 0, "wax_g": 0, "wax_mm": 70},
        f"The wax poured is 0 g; at least 0.001 g is allowed {DEFINED}",
    ),
    (
        wax_left_mm,
        (),
        {"burnt_g": 10, "wax_g": 200, "wax_mm": 0},
        f"The wax when new is 0 mm; at least 0.001 mm is allowed {DEFINED}",
    ),
    (
        wax_left_mm,
        (),
        {"burnt_g": 201, "wax_g": 200, "wax_mm": 70},
        (
            "The wax burnt is 201 g; 0 to 200 g is allowed (no more can burn than was "
            "poured). Check the value and its unit."
        ),
    ),
    (
        remaining_h,
        (),
        {"left_mm": 30, "end_mm": 12, "drop_mm_h": -1},
        f"The fall of the wax is -1 mm/h; at least 0 mm/h is allowed {DEFINED}",
    ),
    (
        true_rate_compatible,
        (),
        {"clean": -1},
        f"The number of candles is -1; 0 to 1e+09 is allowed {RATES}",
    ),
    (
        true_rate_compatible,
        (),
        {"clean": 1000000001},
        f"The number of candles is 1e+09; 0 to 1e+09 is allowed {RATES}",
    ),
    (
        true_rate_compatible,
        (),
        {"clean": 3, "confidence": 1},
        f"The confidence is 1; 1e-09 to 1 is allowed {RATES}",
    ),
    (clean_needed, (), {"rate": 0}, f"The failure rate is 0; 1e-09 to 1 is allowed {RATES}"),
    (
        clean_needed,
        (),
        {"rate": 0.1, "confidence": 0},
        f"The confidence is 0; 1e-09 to 1 is allowed {RATES}",
    ),
    (
        heat_release_w,
        (),
        {"rate_g_h": -1},
        f"The burn rate is -1 g/h; at least 0 g/h is allowed {HEAT}",
    ),
    (
        heat_release_w,
        (),
        {"rate_g_h": 5, "combustion_kj_g": 0},
        f"The heat of combustion is 0 kJ/g; at least 0.001 kJ/g is allowed {HEAT}",
    ),
]


@pytest.mark.parametrize(("relation", "values", "named", "sentence"), REFUSED)
def test_what_is_refused_is_a_whole_sentence(relation, values, named, sentence):
    with pytest.raises(SaidError) as refused:
        relation(*values, **named)
    assert str(refused.value) == sentence


ALLOWED: list[tuple[Callable[..., Any], dict[str, Any], float | None]] = [
    (pool_share, {"width_mm": 0, "inside_mm": 0.001}, 0.0),
    (pool_share, {"width_mm": 80, "inside_mm": 80}, 1.0),
    (time_rule_h, {"inside_mm": 0.001}, 1.0),
    (free_pool_mm, {"hours": 0, "widest_mm": 80, "tau_h": 1}, 0.0),
    (free_pool_mm, {"hours": 1, "widest_mm": 0, "tau_h": 1e-6}, 0.0),
    (free_pool_full_h, {"inside_mm": 0.001, "widest_mm": 0, "tau_h": 1e-6}, None),
    (difference_sd, {"step": 1e-9, "repeatability": 0}, 1e-9 / 6**0.5),
    (level_drop_mm_h, {"rate_g_h": 0, "inside_mm": 0.001, "density_g_ml": 0.001}, 0.0),
    (wax_left_mm, {"burnt_g": 0, "wax_g": 0.001, "wax_mm": 0.001}, 0.001),
    (wax_left_mm, {"burnt_g": 200, "wax_g": 200, "wax_mm": 70}, 0.0),
    (remaining_h, {"left_mm": 12, "end_mm": 12, "drop_mm_h": 0}, 0.0),
    (remaining_h, {"left_mm": 13, "end_mm": 12, "drop_mm_h": 0}, None),
    (true_rate_compatible, {"clean": 1_000_000_000}, 2.9957e-9),
    (heat_release_w, {"rate_g_h": 0, "combustion_kj_g": 0.001}, 0.0),
]


@pytest.mark.parametrize(("relation", "named", "value"), ALLOWED)
def test_a_value_on_its_limit_is_worked_with(relation, named, value):
    found = relation(**named)
    assert found == (None if value is None else pytest.approx(value, rel=1e-4))
