"""Chance of one score between two thresholds, and its derivatives.

A score y falls between the thresholds A = theta_y - eta and B = theta_(y-1) - eta; its chance is
F(A) - F(B), with F logistic ("logit") or normal ("probit"). The lowest step has no lower
threshold and the highest no upper one: the stand-ins -FAR and FAR are then used, where F is 0 or 1
to machine precision.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt
from scipy.special import expit, log_expit, log_ndtr, ndtr

Link = Literal["logit", "probit"]
Array = npt.NDArray[np.float64]

FAR = 1e6
"""Beyond every border, however fine the noise that borders are measured in."""
LOGISTIC_SD = float(np.pi / np.sqrt(3.0))
"""Standard deviation of the standard logistic distribution (definition)."""


@dataclass(frozen=True, slots=True)
class Slopes:
    """First and second derivatives of log(F(A) - F(B)), elementwise."""

    a: Array
    b: Array
    aa: Array
    bb: Array
    ab: Array


def log_chance(link: Link, upper: Array, lower: Array) -> Array:
    """log(F(A) - F(B)), accurate in both tails.

    Parameters
    ----------
    upper, lower : arrays of one shape, A > B elementwise; NaN where A <= B.

    Notes
    -----
    logit: F(A) - F(B) = F(A) F(-B) (1 - exp(B - A)). probit: both are mirrored where A + B > 0,
    so that the difference is always taken in the lower tail.

    Checked against: direct differences where these are exact, and symmetry (tests).
    """
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        if link == "logit":
            apart = np.log(-np.expm1(lower - upper))
            return np.asarray(log_expit(upper) + log_expit(-lower) + apart)
        mirrored = upper + lower > 0
        high = log_ndtr(np.where(mirrored, -lower, upper))
        low = log_ndtr(np.where(mirrored, -upper, lower))
        return np.asarray(high + np.log(-np.expm1(low - high)))


def slopes(link: Link, upper: Array, lower: Array) -> Slopes:
    """Derivatives of `log_chance` by A and B.

    Notes
    -----
    With r = f / (F(A) - F(B)): d/dA = r_A, d/dB = -r_B, d2/dA2 = s(A) r_A - r_A^2,
    d2/dB2 = -s(B) r_B - r_B^2, d2/dAdB = r_A r_B, where s = f'/f is 1 - 2F (logit) or -x (probit).

    Checked against: central differences of `log_chance` (tests).
    """
    if link == "logit":
        with np.errstate(over="ignore"):
            w = 1.0 / np.expm1(upper - lower)
        fa, fb = expit(upper), expit(lower)
        ab = w * (1.0 + w)
        return Slopes(
            a=1.0 - fa + w, b=-fb - w, aa=-fa * (1 - fa) - ab, bb=-fb * (1 - fb) - ab, ab=ab
        )
    log_p = log_chance(link, upper, lower)
    half_log_2pi = 0.5 * np.log(2.0 * np.pi)
    ra = np.exp(-0.5 * upper**2 - half_log_2pi - log_p)
    rb = np.exp(-0.5 * lower**2 - half_log_2pi - log_p)
    return Slopes(a=ra, b=-rb, aa=-upper * ra - ra**2, bb=lower * rb - rb**2, ab=ra * rb)


def chance_below(link: Link, x: Array) -> Array:
    """F(x)."""
    return np.asarray(expit(x) if link == "logit" else ndtr(x))
