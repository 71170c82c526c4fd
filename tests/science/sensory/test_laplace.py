"""The mode finder, the cloud of spreads and the differences behind both."""

import numpy as np
import pytest

from throwbench.science.sensory.arrow import Arrow
from throwbench.science.sensory.design import Design
from throwbench.science.sensory.differences import hessian, value_and_gradient
from throwbench.science.sensory.laplace import NotSettledError, find_mode
from throwbench.science.sensory.spreads import explore, recurrence


def one_score(width: float = 1.0) -> dict[str, object]:
    """A middle score, moved by one effect."""
    moves = np.array([[-1.0]])
    return {
        "design": Design.of(upper=moves, lower=moves, link="logit"),
        "a0": np.array([[2.0]]),
        "b0": np.array([[1.0]]),
        "scale": np.array([[width]]),
    }


def test_laplace_is_near_the_integral_of_one_effect():  # definition: quadrature over z
    z, weight = np.polynomial.hermite_e.hermegauss(60)
    chance = 1 / (1 + np.exp(-(2.0 - z))) - 1 / (1 + np.exp(-(1.0 - z)))
    direct = np.log((weight * chance).sum() / np.sqrt(2 * np.pi))
    assert find_mode(**one_score()).log_marginal[0] == pytest.approx(direct, abs=0.01)


def test_at_the_mode_the_slope_is_zero():  # definition
    found = find_mode(**one_score(2.0))
    z = found.z[0, 0]
    upper, lower = 2.0 - 2.0 * z, 1.0 - 2.0 * z
    slope = -2.0 * (1 - 1 / (1 + np.exp(-upper)) - 1 / (1 + np.exp(-lower))) - z
    assert slope == pytest.approx(0.0, abs=1e-7)


def test_a_start_that_crosses_two_thresholds_is_put_right():
    far = find_mode(
        design=Design.of(upper=np.array([[1.0]]), lower=np.array([[-1.0]]), link="logit"),
        a0=np.array([[1.0]]),
        b0=np.array([[-1.0]]),
        scale=np.array([[1.0]]),
        start=np.array([[-9.0]]),
    )
    assert np.isfinite(far.log_marginal).all()


def test_a_mode_that_is_not_found_says_after_how_many_steps():
    with pytest.raises(NotSettledError, match="in 1 steps"):
        find_mode(**one_score(5.0), most_steps=1)


def test_no_effect_at_all_is_the_bare_likelihood():  # definition
    nothing = np.empty((1, 0))
    found = find_mode(
        Design.of(upper=nothing, lower=nothing, link="probit"),
        a0=np.array([[1.0]]),
        b0=np.array([[-1.0]]),
        scale=np.empty((1, 0)),
    )
    assert np.exp(found.log_marginal[0]) == pytest.approx(0.6826894921, abs=1e-10)


def test_differences_of_a_quadratic_are_exact():  # definition
    matrix = np.array([[2.0, 0.5], [0.5, 1.0]])

    def objective(points: np.ndarray) -> np.ndarray:
        return 0.5 * np.einsum("bi,ij,bj->b", points, matrix, points)

    at = np.array([1.0, -2.0])
    value, gradient = value_and_gradient(objective, at, width=1e-3)
    assert value == pytest.approx(0.5 * at @ matrix @ at)
    assert gradient == pytest.approx(matrix @ at)
    assert hessian(objective, at, width=1e-2) == pytest.approx(matrix)


def test_the_recurrence_fills_the_cube_evenly():
    points = recurrence(1000, 3)
    assert points.min() > 0.0
    assert points.max() < 1.0
    assert points.mean(axis=0) == pytest.approx([0.5] * 3, abs=0.005)
    products = (points.T @ points) / 1000
    assert products == pytest.approx(np.full((3, 3), 1 / 4) + np.eye(3) / 12, abs=0.01)


def test_a_cloud_about_a_known_density_has_its_mean_and_spread():  # definition
    """Prior N(0, 1) and a likelihood N(v; 1.5, 1) make N(0.75, 1/2)."""

    class Bell:
        def __init__(self, points: np.ndarray) -> None:
            self.z = self.log_joint = np.zeros((len(points), 1))
            self.precision = Arrow.of(np.ones((len(points), 1, 1)), tail=0)
            self.log_marginal = -0.5 * (points[:, 0] - 1.5) ** 2

    cloud = explore(lambda points, start: Bell(points), size=1)
    mean = cloud.weight @ cloud.points[:, 0]
    assert mean == pytest.approx(0.75, abs=0.02)
    assert cloud.weight @ (cloud.points[:, 0] - mean) ** 2 == pytest.approx(0.5, abs=0.05)
    assert cloud.effective > 60


def bordered(tail: int) -> tuple[np.ndarray, Arrow]:
    """Two precisions of five unknowns whose last `tail` do not touch each other."""
    rng = np.random.default_rng(3)
    root = rng.normal(size=(2, 5, 5))
    full = root @ root.transpose(0, 2, 1) + 5.0 * np.eye(5)
    last = np.arange(5 - tail, 5)
    for i in last:
        for j in last[last != i]:
            full[:, i, j] = 0.0
    return full, Arrow.of(full, tail=tail)


@pytest.mark.parametrize("tail", [0, 1, 3, 5])
def test_the_reduced_algebra_is_the_dense_one(tail):  # definition
    full, arrow = bordered(tail)
    right = np.arange(10.0).reshape(2, 5)
    dense = np.linalg.solve(full, right[..., None])[..., 0]
    assert arrow.solve(right) == pytest.approx(dense)
    assert arrow.log_det() == pytest.approx(np.linalg.slogdet(full)[1])


@pytest.mark.parametrize("tail", [0, 3, 5])
def test_draws_have_the_covariance_of_the_precision(tail):  # definition
    full, arrow = bordered(tail)
    there = arrow.draw(1, np.eye(5))
    assert there.T @ there == pytest.approx(np.linalg.inv(full[1]))
