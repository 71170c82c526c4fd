"""The chance of one score, and its slopes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import expit, ndtr

from throwbench.science.sensory.likelihood import FAR, chance_below, log_chance, slopes

LINKS = ("logit", "probit")
WHOLE = {"logit": expit, "probit": ndtr}
points = st.floats(-6.0, 6.0)
gaps = st.floats(0.05, 6.0)


@pytest.mark.parametrize("link", LINKS)
@given(lower=points, gap=gaps)
def test_the_chance_is_the_difference_of_the_distribution(link, lower, gap):  # definition
    upper = lower + gap
    direct = WHOLE[link](upper) - WHOLE[link](lower)
    assert np.exp(log_chance(link, np.array(upper), np.array(lower))) == pytest.approx(
        direct, rel=1e-6, abs=1e-12
    )


@pytest.mark.parametrize("link", LINKS)
@given(lower=points, gap=gaps)
def test_both_tails_are_alike(link, lower, gap):  # definition: F(-x) = 1 - F(x)
    here = log_chance(link, np.array(lower + gap), np.array(lower))
    there = log_chance(link, np.array(-lower), np.array(-lower - gap))
    assert here == pytest.approx(there, rel=1e-9)


@pytest.mark.parametrize("link", LINKS)
@pytest.mark.parametrize("at", [-30.0, 0.0, 30.0])
def test_far_tails_stay_finite(link, at):
    assert np.isfinite(log_chance(link, np.array(at + 1.0), np.array(at)))


@pytest.mark.parametrize("link", LINKS)
@pytest.mark.parametrize("at", [-3.0, 0.0, 2.0])
def test_the_stand_in_for_infinity_is_one(link, at):  # definition
    below = np.exp(log_chance(link, np.array(at), np.array(-FAR)))
    above = np.exp(log_chance(link, np.array(FAR), np.array(at)))
    assert below == pytest.approx(WHOLE[link](at), rel=1e-12)
    assert below + above == pytest.approx(1.0, abs=1e-12)
    assert chance_below(link, np.array(at)) == pytest.approx(WHOLE[link](at))


@pytest.mark.parametrize("link", LINKS)
@pytest.mark.filterwarnings("error")
def test_crossed_thresholds_have_no_chance(link):
    assert np.isnan(log_chance(link, np.array(0.0), np.array(1.0)))
    assert np.isnan(log_chance(link, np.array(-900.0), np.array(900.0)))


@pytest.mark.parametrize("link", LINKS)
@given(lower=st.floats(-3.0, 3.0), gap=st.floats(0.2, 4.0))
def test_the_slopes_are_the_derivatives(link, lower, gap):  # definition: central differences
    def value(up: float, low: float) -> float:
        return float(log_chance(link, np.array(up), np.array(low)))

    upper, h = lower + gap, 1e-4
    found = slopes(link, np.array(upper), np.array(lower))
    here = value(upper, lower)
    a = (value(upper + h, lower) - value(upper - h, lower)) / (2 * h)
    b = (value(upper, lower + h) - value(upper, lower - h)) / (2 * h)
    aa = (value(upper + h, lower) - 2 * here + value(upper - h, lower)) / h**2
    bb = (value(upper, lower + h) - 2 * here + value(upper, lower - h)) / h**2
    ab = (
        value(upper + h, lower + h)
        - value(upper + h, lower - h)
        - value(upper - h, lower + h)
        + value(upper - h, lower - h)
    ) / (4 * h**2)
    assert [found.a, found.b] == pytest.approx([a, b], rel=1e-4, abs=1e-6)
    assert [found.aa, found.bb, found.ab] == pytest.approx([aa, bb, ab], rel=1e-3, abs=1e-5)
