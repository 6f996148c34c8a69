"""Rates from bills by a regression that a few wild bills do not move, each with an interval.

An M-estimator (Huber, *Robust Statistics*, 1981): first Huber's weights, with the scale by the median of the absolute residuals,
over what lies near the book's rates, all moved alike (a short trip that is ten times too dear would draw the base fee to itself);
then Tukey's over all, under which a bill that is out by more than 4.685 scales does not count at all.
Both constants are those at which 95 % of least squares' efficiency is left where errors are normal (Holland and Welsch, 1977).

Residuals are shares of what was reckoned: bills scatter in percent, and a long trip would outweigh ten short ones in dollars.
Intervals are by the sandwich, with each residual enlarged by its leverage (HC3; MacKinnon and White, 1985) and Student's t: a
bootstrap comes to the same within the noise of its draws and takes a thousand fits, and another answer at each run.
"""

from collections.abc import Callable
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from shipcalc.records import dataclass

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Weigh = Callable[[Floats], Floats]

CONFIDENCE = 0.90
HUBER, TUKEY = 1.345, 4.685
# The median of the absolute values of a standard normal variable, inverted: it makes the scale a standard deviation.
NORMAL_SCALE = 1.4826
MOST_WILD = 0.2
FEWEST_LEFT = 10
_STEPS = 60
_ENOUGH = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """Rates (p,) with their intervals, the scale of the residuals (shares of what was reckoned), which bills (n,) are wild."""

    rates: Floats
    low: Floats
    high: Floats
    scale: float
    wild: Bools


def robust_fit(quantities: Floats, paid: Floats, reckoned: Floats, start: Floats) -> Fit | None:
    """Return the rates at which quantities (n, p) come nearest to what was paid (n,); `reckoned` (n,) is above 0.

    None where too many bills are wild to say which are not.

    `start` (p,) are the rates to begin with. The columns must not be combinations of each other.
    """
    x, y = quantities / reckoned[:, np.newaxis], paid / reckoned
    moved = y / (x @ start)
    near = np.abs(moved - np.median(moved)) < TUKEY * scale_of(moved - np.median(moved))
    rates = _settled(x[near], y[near], start * float(np.median(moved)), _huber)
    scale = scale_of(y - x @ rates)
    rates = _settled(x, y, rates, _tukey, scale)
    residuals = (y - x @ rates) / scale
    wild = np.abs(residuals) >= TUKEY
    if wild.mean() > MOST_WILD or np.any((x[~wild] != 0).sum(axis=0) < FEWEST_LEFT):
        return None
    half = _half_widths(x, residuals, scale)
    return Fit(rates, rates - half, rates + half, scale, wild)


def scale_of(residuals: Floats) -> float:
    """Return how far residuals scatter, as the standard deviation if they were normal; a few wild ones do not move it."""
    return max(float(np.median(np.abs(residuals))) * NORMAL_SCALE, 1e-12)


def t_quantile(probability: float, degrees: int) -> float:
    """Return a quantile of Student's distribution, by its expansion in the normal one (Abramowitz and Stegun, 26.7.5)."""
    z = NormalDist().inv_cdf(probability)
    first = (z**3 + z) / 4
    second = (5 * z**5 + 16 * z**3 + 3 * z) / 96
    third = (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384
    return z + first / degrees + second / degrees**2 + third / degrees**3


def _settled(x: Floats, y: Floats, rates: Floats, weigh: Weigh, scale: float | None = None) -> Floats:
    """Return the rates at which weights and rates agree; without a scale it is taken anew at each step."""
    for _ in range(_STEPS):
        residuals = y - x @ rates
        root = np.sqrt(weigh(residuals / (scale or scale_of(residuals))))
        after = np.asarray(np.linalg.lstsq(x * root[:, np.newaxis], y * root, rcond=None)[0], dtype=np.float64)
        if np.all(np.abs(after - rates) <= _ENOUGH * (1 + np.abs(rates))):
            return after
        rates = after
    return rates


def _huber(residuals: Floats) -> Floats:
    weights: Floats = np.minimum(1.0, HUBER / np.maximum(np.abs(residuals), 1e-12))
    return weights


def _tukey(residuals: Floats) -> Floats:
    weights: Floats = np.square(np.maximum(1 - np.square(residuals / TUKEY), 0))
    return weights


def _half_widths(x: Floats, residuals: Floats, scale: float) -> Floats:
    """Return half the width of each rate's interval; `residuals` are in scales."""
    share = np.square(residuals / TUKEY)
    counts = share < 1
    kept = x[counts]
    inverse = np.linalg.inv(kept.T @ kept)
    leverage = np.einsum("ij,jk,ik->i", kept, inverse, kept)
    influence = (residuals * np.square(1 - share))[counts] / np.maximum(1 - leverage, 0.1)
    slope = ((1 - share) * (1 - 5 * share))[counts].mean()
    pulled = kept * influence[:, np.newaxis]
    spread = np.linalg.norm(inverse @ pulled.T, axis=1) * scale / slope
    degrees = max(len(kept) - x.shape[1], 1)
    return np.asarray(spread * t_quantile((1 + CONFIDENCE) / 2, degrees))
