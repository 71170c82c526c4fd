"""Fits that nobody printed, held against the R package ordinal, run for this (`other program`).

R 4.2.2, ordinal 2022.11-16; the call stands beside the figures. Its own default stops the random
effects early (`gradTol = 1e-4`): on `two_oils.csv` it then prints -23.00848 and warns, where its
likelihood at `tight`, and ours, is -23.00796. So every call has

    tight <- clmm.control(gradTol = 1e-8, maxIter = 200, method = "nlminb")
    d <- read.csv("two_oils.csv", comment.char = "#")
    d$candidate <- factor(d$candidate, levels = c("Oak", "Fir"))
    p <- read.csv("candle_small.csv", comment.char = "#")

and score, rating, scent, assessor and room are factors.
"""

from dataclasses import dataclass

import pytest

from panels import panel, two_oils
from throwbench.science.sensory.factor import factor
from throwbench.science.sensory.published import PublishedFit, fit


@dataclass(frozen=True, kw_only=True)
class Printed:
    """What R prints; `effects` and `ses` are those of the first fixed column."""

    r_call: str
    log_likelihood: float
    cuts: tuple[float, ...]
    sds: tuple[float, ...]
    cut_ses: tuple[float, ...] = ()
    effects: tuple[float, ...] = ()
    ses: tuple[float, ...] = ()


SMALL: list[tuple[dict[str, object], Printed]] = [
    (
        {},
        Printed(
            r_call="clmm(score ~ candidate + (1|assessor), d, control = tight)",
            log_likelihood=-23.007958,
            cuts=(-5.192898, -1.015492, 1.082267),
            cut_ses=(1.639815, 0.907146, 0.919442),
            effects=(-4.270020,),
            ses=(1.429546,),
            sds=(1.349588,),
        ),
    ),
    (
        {"estimator": "quadrature"},
        Printed(
            r_call="clmm(score ~ candidate + (1|assessor), d, nAGQ = 10, control = tight)",
            log_likelihood=-22.956570,
            cuts=(-5.214793, -1.019510, 1.076122),
            cut_ses=(1.648878, 0.910989, 0.917779),
            effects=(-4.294670,),
            ses=(1.437608,),
            sds=(1.367643,),
        ),
    ),
    (
        {"equidistant": True},
        Printed(
            r_call='clmm(..., threshold = "equidistant")',
            log_likelihood=-24.097050,
            cuts=(-4.650015, -1.569033, 1.511949),
            cut_ses=(1.457252,),  # R gives the first and the spacing
            effects=(-4.054019,),
            ses=(1.318945,),
            sds=(1.386863,),
        ),
    ),
    (
        {"link": "probit"},
        Printed(
            r_call='clmm(..., link = "probit")',
            log_likelihood=-22.997236,
            cuts=(-2.897932, -0.608129, 0.600956),
            # R's Newton warns here and prints .834588 .527424 .525377 and .709774; these are from
            # second differences of the same likelihood in 30 digits (mpmath).
            cut_ses=(0.828484, 0.522014, 0.523998),
            effects=(-2.357648,),
            ses=(0.708565,),
            sds=(0.750239,),
        ),
    ),
]
CROSSED: list[tuple[dict[str, object], Printed]] = [
    (
        {"link": "probit"},
        Printed(
            r_call=(
                "clmm(rating ~ 1 + (1|scent) + (1|assessor) + (1|room), p, "
                'link = "probit", control = tight)'
            ),
            log_likelihood=-2314.950442,
            cuts=(
                -1.749650, -1.169355, -0.592172, -0.071098, 0.384652,
                0.952498, 1.504167, 2.106354, 2.553737,
            ),
            cut_ses=(0.222951, 0.219151, 0.217613, 0.217168, 0.217331),
            sds=(0.399629, 0.357760, 0.209881),
        ),
    ),
    (
        {"equidistant": True},
        Printed(
            r_call='clmm(..., threshold = "equidistant", control = tight)',
            log_likelihood=-2318.845679,
            cuts=(-2.984550, -2.047533, -1.110516),
            cut_ses=(0.402953,),
            sds=(0.727790, 0.655036, 0.389217),
        ),
    ),
]  # fmt: skip


def holds(found: PublishedFit, printed: Printed, *, sds: tuple[float, ...]) -> None:
    """Five digits, the standard errors four: they come from differences in both programs."""
    assert found.log_likelihood == pytest.approx(printed.log_likelihood, abs=5e-6)
    assert found.thresholds[: len(printed.cuts)] == pytest.approx(printed.cuts, abs=1e-4)
    assert found.threshold_ses[: len(printed.cut_ses)] == pytest.approx(printed.cut_ses, rel=1e-3)
    assert sds == pytest.approx(printed.sds, abs=1e-4)
    effects = [one for levels in found.effects.values() for one in levels.values()]
    assert [one.estimate for one in effects] == pytest.approx(printed.effects, abs=1e-4)
    assert [one.se for one in effects] == pytest.approx(printed.ses, rel=1e-3)


@pytest.mark.parametrize(("how", "printed"), SMALL, ids=[one.r_call for _, one in SMALL])
def test_a_few_scores_are_fitted_as_by_the_other_program(how, printed):
    table = two_oils()
    found = fit(
        [int(cell) for cell in table["score"]],
        fixed=[factor("candidate", table["candidate"])],
        random=[factor("assessor", table["assessor"])],
        **how,
    )
    holds(found, printed, sds=(found.random["assessor"],))


@pytest.mark.parametrize(("how", "printed"), CROSSED, ids=[one.r_call for _, one in CROSSED])
def test_crossed_terms_are_fitted_as_by_the_other_program(how, printed):
    table = panel()
    names = ("scent", "assessor", "room")
    found = fit(
        [int(cell) for cell in table["rating"]],
        random=[factor(name, table[name]) for name in names],
        **how,
    )
    holds(found, printed, sds=tuple(found.random[name] for name in names))


def test_a_fixed_column_beside_crossed_terms_is_fitted_as_by_the_other_program():
    """All at once: probit, equidistant, crossed terms and a fixed column of four levels."""
    table = panel()
    found = fit(
        [int(cell) for cell in table["rating"]],
        fixed=[factor("room", table["room"])],
        random=[factor(name, table[name]) for name in ("scent", "assessor")],
        link="probit",
        equidistant=True,
    )
    printed = Printed(
        r_call=(
            "clmm(rating ~ room + (1|scent) + (1|assessor), p, "
            'link = "probit", threshold = "equidistant", control = tight)'
        ),
        log_likelihood=-2314.306838,
        cuts=(-2.013613, -1.477328),
        cut_ses=(0.199945,),
        effects=(-0.266235, -0.432727, -0.514588),
        ses=(0.084830, 0.085264, 0.085526),
        sds=(0.399387, 0.354942),
    )
    holds(found, printed, sds=(found.random["scent"], found.random["assessor"]))
