"""The bench of honesty on a few trials; `./run bench honesty` has 2,000 of each world.

A clear winner is named in at most 6 % of trials without a difference and in at least 75 % of
trials with a step between (definition of the targets). The bounds below are those that a tool
which just keeps them breaks in fewer than 1 of 100 runs of this size (binomial).
"""

import importlib.util
import sys
from pathlib import Path

import pytest
from scipy.stats import binom

BENCHMARKS = Path(__file__).parents[2] / "benchmarks"
TRIALS = 30
NAMED_AT_MOST = 5
RIGHT_AT_LEAST = 17


@pytest.fixture(scope="module")
def bench():
    """The benchmark as a module, with its neighbours in reach."""
    sys.path.insert(0, str(BENCHMARKS))
    spec = importlib.util.spec_from_file_location("bench_honesty", BENCHMARKS / "honesty.py")
    module = importlib.util.module_from_spec(spec)
    sys.modules["bench_honesty"] = module
    spec.loader.exec_module(module)
    yield module
    sys.path.remove(str(BENCHMARKS))


@pytest.fixture(scope="module")
def named(bench):
    """Who was named in worlds without a difference and with a step between: 3 oils, 6 x 2."""
    alike, apart = bench.WORLDS[:2]
    assert (alike.candidates, alike.noses, alike.sniffs, alike.gap) == (3, 6, 2, 0.0)
    assert (apart.candidates, apart.noses, apart.sniffs, apart.gap) == (3, 6, 2, 1.0)
    return [[bench.winner((world, number)) for number in range(TRIALS)] for world in (alike, apart)]


def honest(named):
    alike, apart = named
    few = sum(winner is not None for winner in alike) <= NAMED_AT_MOST
    many = apart.count("0") >= RIGHT_AT_LEAST
    return few and many


def test_the_bounds_belong_to_30_trials():
    assert binom.sf(NAMED_AT_MOST, TRIALS, 0.06) < 0.01 < binom.sf(NAMED_AT_MOST - 1, TRIALS, 0.06)
    assert binom.cdf(RIGHT_AT_LEAST - 1, TRIALS, 0.75) < 0.01
    assert binom.cdf(RIGHT_AT_LEAST, TRIALS, 0.75) > 0.01


def test_of_30_trials_without_a_difference_at_most_5_name_a_winner(named):
    alike, _ = named
    assert sum(winner is not None for winner in alike) <= NAMED_AT_MOST


def test_of_30_trials_with_a_step_between_at_least_17_name_the_right_one(named):
    _, apart = named
    assert apart.count("0") >= RIGHT_AT_LEAST


def test_a_tool_that_never_or_always_names_a_winner_fails(named):
    alike, apart = named
    assert honest(named)
    assert not honest([[None] * TRIALS, [None] * TRIALS])
    always = [["0"] * TRIALS, ["0"] * TRIALS]
    assert not honest(always)
    assert not honest([alike, [None if winner == "0" else "0" for winner in apart]])


def test_the_wrong_one_is_hardly_ever_named(named):
    """`definition`: where one is a step above, naming another is no success."""
    _, apart = named
    assert sum(winner not in (None, "0") for winner in apart) <= 1


def test_rates_are_counted_with_exact_bounds(bench):
    """`other program`: Clopper-Pearson by scipy's binomial test, one-sided 95 %."""
    from scipy.stats import binomtest  # noqa: PLC0415

    found = bench.rate(bench.WORLDS[1], ["0"] * 30 + ["1"] * 2 + [None] * 8)
    assert (found.trials, found.named, found.right) == (40, 32, 30)
    upper = binomtest(32, 40, alternative="less").proportion_ci(0.95, "exact").high
    lower = binomtest(30, 40, alternative="greater").proportion_ci(0.95, "exact").low
    assert found.named_at_most == pytest.approx(upper)
    assert found.right_at_least == pytest.approx(lower)
    nobody = bench.rate(bench.WORLDS[0], [None] * 40)
    assert (nobody.named, nobody.right_at_least) == (0, 0.0)
    assert bench.rate(bench.WORLDS[0], ["0"] * 40).named_at_most == 1.0
