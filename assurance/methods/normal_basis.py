"""Kernels for a normal sample: mean, spread, one-sided tolerance factor, fit and outlier screen."""

import math
from collections.abc import Sequence

CONFIDENCE = 0.95  # of a basis value, 14 CFR 25.613
OUTLIER_RISK = 0.05  # significance of the outlier screen, CMH-17-1G 8.3.3
_FAR_TAIL = 30.0  # standard deviations beyond which erfc loses its digits


def mean(values: Sequence[float]) -> float:
    """The arithmetic mean of at least one value."""
    return math.fsum(values) / len(values)


def standard_deviation(values: Sequence[float]) -> float:
    """The standard deviation of the sample, s = sqrt(sum (x - mean)^2 / (n - 1)), of two values or more."""
    middle = mean(values)
    return math.sqrt(math.fsum((value - middle) ** 2 for value in values) / (len(values) - 1))


def tolerance_factor(count: int, *, content: float, confidence: float = CONFIDENCE) -> float:
    """How many standard deviations below the mean a basis value lies.

    k = t'(confidence; n - 1, z sqrt(n)) / sqrt(n), with z the standard normal quantile of the
    content and t' the quantile of the noncentral t distribution.

    Parameters
    ----------
    count : number of values n, 2 or more [-]
    content : share of the population above the bound, 0 to 1 [-]
    confidence : 0 to 1 [-]

    Returns
    -------
    k [-]

    Raises
    ------
    ValueError : fewer than 2 values.

    Limits
    ------
    A normal population. Checked against the published tables for n = 2 to 50, within 0.002 (the
    published k_B for n = 3 is 0.0017 above the exact value).

    References
    ----------
    CMH-17-1G (2012), tables 8.5.10 and 8.5.11 (table numbers from memory).

    Examples
    --------
    >>> round(tolerance_factor(18, content=0.90), 4)
    1.9738
    """
    if count < 2:
        raise ValueError(f"a tolerance factor needs 2 values or more, not {count}")
    from scipy import special

    shift = float(special.ndtri(content)) * math.sqrt(count)
    return float(special.nctdtrit(count - 1, shift, confidence)) / math.sqrt(count)


def anderson_darling(values: Sequence[float]) -> float:
    """How far a sample is from a normal one; the larger, the worse the fit.

    A^2 = -n - sum (2i - 1)/n [ln F(x_i) + ln(1 - F(x_(n+1-i)))], F with the mean and standard
    deviation of the sample.

    Parameters
    ----------
    values : 2 or more, not all equal [any unit]

    Returns
    -------
    A^2 [-]

    References
    ----------
    CMH-17-1G (2012), section 8.3.6 (section from memory).

    Examples
    --------
    >>> round(anderson_darling([1.0, 2.0, 3.0, 4.0, 5.0]), 4)
    0.1436
    """
    count, middle, spread = len(values), mean(values), standard_deviation(values)
    scaled = [(value - middle) / spread for value in sorted(values)]
    pairs = zip(scaled, reversed(scaled), strict=True)
    total = math.fsum(
        (2 * rank - 1) * (_log_normal(low) + _log_normal(-high)) for rank, (low, high) in enumerate(pairs, 1)
    )
    return -count - total / count


def _log_normal(z: float) -> float:
    """The logarithm of the standard normal distribution, also far down its tail."""
    if z > -_FAR_TAIL:
        return math.log(0.5 * math.erfc(-z / math.sqrt(2.0)))
    return -0.5 * z * z - math.log(-z * math.sqrt(2.0 * math.pi)) + math.log1p(-1.0 / (z * z))


def corrected_statistic(statistic: float, count: int) -> float:
    """The Anderson-Darling statistic corrected for a small sample: (1 + 4/n - 25/n^2) A^2."""
    return (1.0 + 4.0 / count - 25.0 / count**2) * statistic


def observed_significance(statistic: float, count: int) -> float | None:
    """How often a normal population of this size would fit worse; at or below 0.05 it is not normal.

    OSL = 1 / (1 + exp(-0.48 + 0.78 ln A* + 4.58 A*)), A* the corrected statistic.

    Parameters
    ----------
    statistic : A^2 of the fit, above 0 [-]
    count : number of values n [-]

    Returns
    -------
    OSL, 0 to 1 [-], or None for 3 values or fewer, where the correction is negative

    References
    ----------
    CMH-17-1G (2012), section 8.3.6 (section from memory).
    """
    corrected = corrected_statistic(statistic, count)
    if corrected <= 0:
        return None
    power = -0.48 + 0.78 * math.log(corrected) + 4.58 * corrected
    return 1.0 / (1.0 + math.exp(min(power, 700.0)))  # 700: exp stays finite


def maximum_normed_residual(values: Sequence[float]) -> float:
    """How far the farthest value lies from the mean, in standard deviations.

    MNR = max |x - mean| / s

    Parameters
    ----------
    values : 2 or more, not all equal [any unit]

    Returns
    -------
    MNR [-]

    References
    ----------
    CMH-17-1G (2012), section 8.3.3 (section from memory).

    Examples
    --------
    >>> round(maximum_normed_residual([1.0, 2.0, 3.0]), 6)
    1.0
    """
    middle = mean(values)
    return max(abs(value - middle) for value in values) / standard_deviation(values)


def critical_normed_residual(count: int) -> float:
    """The normed residual above which a value stands out, at 5 % over the whole sample.

    C = (n - 1)/sqrt(n) sqrt(t^2 / (n - 2 + t^2)), t = t(1 - alpha/(2n); n - 2).

    Parameters
    ----------
    count : number of values n, 3 or more [-]

    Returns
    -------
    C [-]

    Raises
    ------
    ValueError : fewer than 3 values.

    References
    ----------
    CMH-17-1G (2012), table 8.5.7.
    """
    if count < 3:
        raise ValueError(f"the outlier screen needs 3 values or more, not {count}")
    from scipy import special

    t = float(special.stdtrit(count - 2, 1.0 - OUTLIER_RISK / (2.0 * count)))
    return (count - 1) / math.sqrt(count) * math.sqrt(t * t / (count - 2 + t * t))
