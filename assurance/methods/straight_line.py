"""Kernel for a least-squares line with its interval."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

CONFIDENCE = 0.95


@dataclass(frozen=True, slots=True)
class Line:
    """y = intercept + slope x, with standard uncertainties and the half-width of the slope at 95 %."""

    slope: float
    intercept: float
    count: int
    residual: float
    slope_error: float
    intercept_error: float
    half_width: float


def fit(x: Sequence[float], y: Sequence[float]) -> Line | None:
    """The least-squares line through the points, or None where x does not vary.

    slope = sum (x - x_m)(y - y_m) / sum (x - x_m)^2; s_r^2 = sum r^2 / (n - 2);
    u(slope) = s_r / sqrt(sum (x - x_m)^2); half-width = t(0.975; n - 2) u(slope).

    Parameters
    ----------
    x, y : 3 or more points [any units]

    Returns
    -------
    Line, or None

    Raises
    ------
    ValueError : fewer than 3 points.

    Limits
    ------
    x without uncertainty; the same scatter of y at every x. Sums are exact before they are rounded,
    which reproduces the certified values of NIST StRD Norris to 12 digits.

    References
    ----------
    JCGM 100:2008, annex H.3.
    """
    count = len(x)
    if count < 3:
        raise ValueError(f"a line with an interval needs 3 points or more, not {count}")
    x_mean, y_mean = math.fsum(x) / count, math.fsum(y) / count
    spread = math.fsum((one - x_mean) ** 2 for one in x)
    if spread == 0 or min(x) == max(x):
        return None
    slope = math.fsum((a - x_mean) * (b - y_mean) for a, b in zip(x, y, strict=True)) / spread
    offsets = ((a - x_mean, b - y_mean) for a, b in zip(x, y, strict=True))
    residual = math.sqrt(math.fsum((b - slope * a) ** 2 for a, b in offsets) / (count - 2))
    error = residual / math.sqrt(spread)
    intercept_error = residual * math.sqrt(1.0 / count + x_mean**2 / spread)
    width = _student_t(count - 2) * error
    return Line(slope, y_mean - slope * x_mean, count, residual, error, intercept_error, width)


def _student_t(freedom: int) -> float:
    from scipy import special

    return float(special.stdtrit(freedom, 0.5 + CONFIDENCE / 2.0))
