"""What clean candles are worth."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from statsmodels.stats.proportion import proportion_confint

from reading import cases
from throwbench.science.clean import clean_needed, true_rate_compatible
from throwbench.science.errors import OutOfRangeError

WORKED = {
    "BL011": lambda: true_rate_compatible(clean=2),
    "BL012": lambda: clean_needed(rate=0.10),
}
CASES = cases("burning.csv", "clean candles")


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_two_clean_candles_leave_78_percent_and_29_leave_under_10(case):
    case.agrees(WORKED[case.id]())


@pytest.mark.parametrize("clean", [1, 2, 5, 17, 29, 100])
@pytest.mark.parametrize("confidence", [0.9, 0.95])
def test_it_is_the_upper_end_of_the_exact_interval(clean, confidence):
    # other program: statsmodels proportion_confint(0, n, alpha=2*(1-c), method="beta")
    _, upper = proportion_confint(0, clean, alpha=2 * (1 - confidence), method="beta")
    rate = true_rate_compatible(clean=clean, confidence=confidence)
    assert rate == pytest.approx(upper, rel=1e-9)


def test_no_clean_candle_rules_out_nothing():
    assert true_rate_compatible(clean=0) == 1


def test_the_rule_of_three_holds_for_many():
    assert true_rate_compatible(clean=3000) == pytest.approx(3 / 3000, rel=0.01)  # definition


@given(st.floats(0.001, 0.999), st.floats(0.5, 0.99))
def test_the_number_needed_is_the_first_that_is_enough(rate, confidence):
    n = clean_needed(rate=rate, confidence=confidence)
    assert true_rate_compatible(clean=n, confidence=confidence) <= rate * (1 + 1e-9)
    assert true_rate_compatible(clean=n - 1, confidence=confidence) >= rate * (1 - 1e-9)


@given(st.floats(0.01, 0.9), st.integers(1, 60))
def test_the_number_needed_is_found_again_from_what_it_is_worth(rate, clean):
    confidence = 1 - (1 - rate) ** clean
    assume(confidence < 1 - 1e-6)
    assert clean_needed(rate=rate, confidence=confidence) == clean


def test_an_exact_number_is_not_one_too_high():
    assert clean_needed(rate=0.25, confidence=1 - 0.75**3) == 3  # definition
    assert clean_needed(rate=0.5, confidence=0.5) == 1  # definition


@pytest.mark.parametrize("confidence", [0, 1])
def test_a_confidence_that_is_none_is_answered(confidence):
    with pytest.raises(OutOfRangeError, match="The confidence"):
        true_rate_compatible(clean=2, confidence=confidence)
    with pytest.raises(OutOfRangeError, match="The confidence"):
        clean_needed(rate=0.1, confidence=confidence)


def test_a_count_below_none_and_a_rate_beyond_all_are_answered():
    with pytest.raises(OutOfRangeError, match="The number of candles"):
        true_rate_compatible(clean=-1)
    with pytest.raises(OutOfRangeError, match="The failure rate"):
        clean_needed(rate=1.0)
