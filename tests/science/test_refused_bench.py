"""What the science of the bench refuses: whole sentences, with value, unit, limits and source.

Each names its value with the unit, what is allowed, who says so, and what to do."""

from collections.abc import Callable
from typing import Any

import pytest

from throwbench.science.batch import batch, weighed
from throwbench.science.dose import blend, dose, half_step_percent, on_scale
from throwbench.science.errors import SaidError
from throwbench.science.fill import (
    fill_g,
    line_error_percent,
    shrinkage_percent,
    volume_ml,
    water_density_g_ml,
)
from throwbench.science.load import (
    below_card,
    card_maximum,
    load_of_wax_percent,
    load_on_both_bases,
    mix_for_total,
    mix_for_wax,
    weight_of,
)
from throwbench.science.units import convert, in_other_units

CHECK = "Check the value and its unit."
BENCH = f"(plausibility limit of this bench). {CHECK}"
CARDS = f"(plausibility limit; wax cards rarely go above 12 % of wax, common practice). {CHECK}"

REFUSED: list[tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any], str]] = [
    (weight_of, (0,), {"what": "Wax"}, f"Wax is 0 g; 0.001 to 500000 g is allowed {BENCH}"),
    (
        load_of_wax_percent,
        (),
        {"share_percent": 30},
        f"Share of total is 30 %; 0.01 to 28.5714 % is allowed {CARDS}",
    ),
    (
        load_on_both_bases,
        (),
        {"percent": 8, "basis": "air"},
        (
            "The load is of 'air'. A load is of wax or of total. Use one of these words, or "
            "leave it out."
        ),
    ),
    (card_maximum, (41,), {}, f"The wax card's maximum is 41 %; 0.01 to 40 % is allowed {CARDS}"),
    (
        below_card,
        (),
        {"load_percent": 11, "card_maximum_percent": 10},
        (
            "Load of wax is 11 %; 0.01 to 10 % is allowed (the wax card's maximum). Take less"
            " oil, or a wax whose card allows more."
        ),
    ),
    (
        mix_for_wax,
        (),
        {"wax_g": 0, "load_percent": 8},
        f"Wax is 0 g; 0.001 to 500000 g is allowed {BENCH}",
    ),
    (
        mix_for_wax,
        (),
        {"wax_g": 100, "load_percent": 50},
        f"Load of wax is 50 %; 0.01 to 40 % is allowed {CARDS}",
    ),
    (
        mix_for_total,
        (),
        {"total_g": 600000, "load_percent": 8},
        f"Wax and oil together is 600000 g; 0.001 to 500000 g is allowed {BENCH}",
    ),
    (
        water_density_g_ml,
        (),
        {"temperature_c": 41},
        (
            "Water temperature is 41 °C; 0 to 40 °C is allowed (range of the density of "
            "water, Tanaka et al. 2001). Weigh with water at room temperature, or check the "
            "unit."
        ),
    ),
    (
        volume_ml,
        (),
        {"water_g": 0, "temperature_c": 20},
        f"Water in the vessel is 0 g; 0.001 to 500000 g is allowed {BENCH}",
    ),
    (
        fill_g,
        (),
        {"volume_ml": 0.05, "density_g_ml": 0.9},
        f"Volume of the vessel is 0.05 ml; 0.1 to 100000 ml is allowed {BENCH}",
    ),
    (
        fill_g,
        (),
        {"volume_ml": 100000.5, "density_g_ml": 0.9},
        f"Volume of the vessel is 100000 ml; 0.1 to 100000 ml is allowed {BENCH}",
    ),
    (
        fill_g,
        (),
        {"volume_ml": 200, "density_g_ml": 0.5},
        (
            "Density of the wax is 0.5 g/ml; 0.7 to 1.1 g/ml is allowed (plausibility limit: "
            "melted paraffin 0.8, palm wax 0.97, common practice). Check the value and its "
            "unit."
        ),
    ),
    (
        line_error_percent,
        (),
        {"inside_mm": 9, "volume_ml": 200},
        f"Inside diameter is 9 mm; 10 to 500 mm is allowed {BENCH}",
    ),
    (
        line_error_percent,
        (),
        {"inside_mm": 80, "volume_ml": 200, "off_mm": 101},
        f"The line read wrong is 101 mm; 0 to 100 mm is allowed {BENCH}",
    ),
    (
        shrinkage_percent,
        (),
        {"liquid_g_ml": 1.2, "solid_g_ml": 0.9},
        (
            "Density of the wax is 1.2 g/ml; 0.7 to 1.1 g/ml is allowed (plausibility limit: "
            "melted paraffin 0.8, palm wax 0.97, common practice). Check the value and its "
            "unit."
        ),
    ),
    (
        shrinkage_percent,
        (),
        {"liquid_g_ml": 0.95, "solid_g_ml": 0.9},
        (
            "Density of the solid wax is 0.9 g/ml; 0.95 to 1.1 g/ml is allowed (wax shrinks "
            "as it sets). Check the two densities."
        ),
    ),
    (
        half_step_percent,
        (),
        {"weight_g": 0, "step_g": 1},
        f"Weight is 0 g; 0.001 to 500000 g is allowed {BENCH}",
    ),
    (
        on_scale,
        (10,),
        {"step_g": 0},
        f"Step of the scale is 0 g; 0.0001 to 50 g is allowed {BENCH}",
    ),
    (
        dose,
        (),
        {"wax_g": 100, "oil_g": 8, "step_g": 17},
        (
            "Step of the scale is 17 g; 0.0001 to 16 g is allowed (8 g of oil would not "
            "show). Take a finer scale, or pour more vessels from one pitcher."
        ),
    ),
    (
        dose,
        (),
        {"wax_g": 100, "oil_g": 8, "step_g": 0},
        f"Step of the scale is 0 g; 0.0001 to 50 g is allowed {BENCH}",
    ),
    (
        blend,
        (),
        {"parts": [("A", 1), ("A", 2)], "oil_g": 8},
        (
            "The blend names A, A. A blend has two or more different oils, each once. Name "
            "each oil with its parts by weight."
        ),
    ),
    (
        blend,
        (),
        {"parts": [("A", 1)], "oil_g": 8},
        (
            "The blend names A. A blend has two or more different oils, each once. Name each "
            "oil with its parts by weight."
        ),
    ),
    (
        blend,
        (),
        {"parts": [], "oil_g": 8},
        (
            "The blend names no oil. A blend has two or more different oils, each once. Name "
            "each oil with its parts by weight."
        ),
    ),
    (
        blend,
        (),
        {"parts": [("A", 1), ("B", 0)], "oil_g": 8},
        f"Parts of B is 0; 0.001 to 500000 is allowed {BENCH}",
    ),
    (
        batch,
        (),
        {"vessels": 0, "fill_g": 180, "load_percent": 8},
        f"Number of vessels is 0; 1 to 1000 is allowed {BENCH}",
    ),
    (
        batch,
        (),
        {"vessels": 1001, "fill_g": 180, "load_percent": 8},
        f"Number of vessels is 1001; 1 to 1000 is allowed {BENCH}",
    ),
    (
        batch,
        (),
        {"vessels": 6, "fill_g": 0, "load_percent": 8},
        f"Fill of a vessel is 0 g; 0.001 to 500000 g is allowed {BENCH}",
    ),
    (
        batch,
        (),
        {"vessels": 6, "fill_g": 180, "load_percent": 8, "oils": 0},
        f"Number of oils is 0; 1 to 1000 is allowed {BENCH}",
    ),
    (
        batch,
        (),
        {"vessels": 6, "fill_g": 180, "load_percent": 8, "residue_g": -1},
        f"What is left in the pitcher is -1 g; 0 to 10000 g is allowed {BENCH}",
    ),
    (
        batch,
        (),
        {"vessels": 6, "fill_g": 180, "load_percent": 8, "pot_residue_g": -1},
        f"What is left in the pot is -1 g; 0 to 10000 g is allowed {BENCH}",
    ),
    (
        weighed,
        (),
        {"weighings_g": [], "load_percent": 8},
        ("There is no weighing of the wax. At least one is needed. Weigh the wax in the pitcher."),
    ),
    (
        convert,
        (1,),
        {"unit": "stone", "to": "g"},
        (
            "The unit 'stone' is not known. Known are: g, mg, kg, oz, lb, ml, l, US fl oz, "
            "°C, °F, mm, cm, in, min, h, %, oz per lb, g/ml. Write one of these."
        ),
    ),
    (
        convert,
        (1,),
        {"unit": "g", "to": "ml"},
        (
            "g is a weight, ml is a volume. g becomes one of: g, mg, kg, oz, lb. Name a unit "
            "of the same kind."
        ),
    ),
    (
        in_other_units,
        (1,),
        {"unit": "g/ml"},
        (
            "g/ml has no other unit here. Units that can be converted: g, mg, kg, oz, lb, ml,"
            " l, US fl oz, °C, °F, mm, cm, in, min, h, %, oz per lb, g/ml. Give a quantity in"
            " one of them."
        ),
    ),
]


@pytest.mark.parametrize(("relation", "values", "named", "sentence"), REFUSED)
def test_what_is_refused_is_a_whole_sentence(relation, values, named, sentence):
    with pytest.raises(SaidError) as refused:
        relation(*values, **named)
    assert str(refused.value) == sentence


ALLOWED: list[tuple[Callable[..., Any], dict[str, Any], float | None]] = [
    (fill_g, {"volume_ml": 0.1, "density_g_ml": 0.7}, 0.07),
    (fill_g, {"volume_ml": 100_000, "density_g_ml": 1.1}, 110_000.0),
    (line_error_percent, {"inside_mm": 10, "volume_ml": 0.1, "off_mm": 0}, 0.0),
    (below_card, {"load_percent": 10, "card_maximum_percent": 10}, 10.0),
]


@pytest.mark.parametrize(("relation", "named", "value"), ALLOWED)
def test_a_value_on_its_limit_is_worked_with(relation, named, value):
    found = relation(**named)
    assert found == (None if value is None else pytest.approx(value, rel=1e-4))
