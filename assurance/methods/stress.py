"""Kernels for strength: equivalent stresses, reserve factor and margin, and the factor that is needed.

Each works on plain numbers and on arrays alike.
"""

from collections.abc import Sequence
from typing import Any, NamedTuple

ZERO_WITHIN = 1e-7  # of the size of the tensor; the cosines lose that much where two roots coincide
SAME_ROOT = 1e-14  # the cosine is 1 within rounding, so two roots coincide
SMALLEST = 1e-150  # of the second invariant; below it the deviator is nothing
SOURCE_ROOTS = (
    "Nayak and Zienkiewicz (1972), J. Struct. Div. ASCE 98, page 949 (from memory): roots by the Lode angle"
)
COMPONENTS = ("sxx", "syy", "szz", "sxy", "syz", "szx")


class Principals(NamedTuple):
    """Principal stresses, the largest first."""

    first: Any
    second: Any
    third: Any


def von_mises(sxx: Any, syy: Any, szz: Any, sxy: Any, syz: Any, szx: Any) -> Any:
    """The equivalent stress of the distortion-energy criterion.

    sqrt(((sxx - syy)^2 + (syy - szz)^2 + (szz - sxx)^2)/2 + 3 (sxy^2 + syz^2 + szx^2))

    Parameters
    ----------
    sxx, syy, szz : direct stresses [any one unit]
    sxy, syz, szx : shear stresses [the same unit]

    Returns
    -------
    equivalent stress, 0 or more [the same unit]

    Limits
    ------
    Isotropic ductile material.

    References
    ----------
    R. von Mises (1913); the form is common practice.

    Examples
    --------
    >>> von_mises(100.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    100.0
    """
    direct = (sxx - syy) ** 2 + (syy - szz) ** 2 + (szz - sxx) ** 2
    return (direct / 2.0 + 3.0 * (sxy**2 + syz**2 + szx**2)) ** 0.5


def principal_stresses(sxx: Any, syy: Any, szz: Any, sxy: Any, syz: Any, szx: Any) -> Principals:
    """The three principal stresses in closed form, for plain numbers and arrays.

    p + 2 sqrt(J2/3) cos(theta - 2 pi m/3), p the mean direct stress, J2 and J3 the invariants of
    the deviator, theta = arccos(J3/2 (3/J2)^1.5)/3.

    Parameters
    ----------
    sxx, syy, szz, sxy, syz, szx : stresses [any one unit]

    Returns
    -------
    Principals [the same unit]

    Limits
    ------
    Any tensor. Measured against a symmetric eigenvalue solver on random tensors and on tensors with two
    equal principal stresses: within 1e-7 of the size of the tensor. A root below that is zero.

    References
    ----------
    G. C. Nayak and O. C. Zienkiewicz (1972), J. Struct. Div. ASCE 98, page 949 (from memory).
    """
    import numpy as np

    p, j2, j3 = invariants(sxx, syy, szz, sxy, syz, szx)
    safe = np.where(j2 > SMALLEST, j2, 1.0)
    ratio = np.clip(0.5 * j3 * (3.0 / safe) ** 1.5, -1.0, 1.0)
    ratio = np.where(np.abs(ratio) > 1.0 - SAME_ROOT, np.sign(ratio), ratio)
    theta = np.arccos(ratio) / 3.0
    radius = 2.0 * np.sqrt(j2 / 3.0)
    first = p + radius * np.cos(theta)
    third = p + radius * np.cos(theta + 2.0 * np.pi / 3.0)
    floor = ZERO_WITHIN * (abs(p) + radius)
    found = (first, 3.0 * p - first - third, third)
    return Principals(*(np.where(abs(root) <= floor, 0.0, root) for root in found))


def invariants(sxx: Any, syy: Any, szz: Any, sxy: Any, syz: Any, szx: Any) -> tuple[Any, Any, Any]:
    """Mean direct stress, and second and third invariant of the deviator."""
    p = (sxx + syy + szz) / 3.0
    a, b, c = sxx - p, syy - p, szz - p
    j2 = ((sxx - syy) ** 2 + (syy - szz) ** 2 + (szz - sxx) ** 2) / 6.0 + sxy**2 + syz**2 + szx**2
    j3 = a * b * c + 2.0 * sxy * syz * szx - a * syz**2 - b * szx**2 - c * sxy**2
    return p, j2, j3


def max_principal(sxx: Any, syy: Any, szz: Any, sxy: Any, syz: Any, szx: Any) -> Any:
    """The largest principal stress; zero or below where every direction is in compression.

    p + 2 sqrt(J2/3) cos(theta), as in `principal_stresses`.

    Parameters
    ----------
    sxx, syy, szz, sxy, syz, szx : stresses [any one unit]

    Returns
    -------
    largest principal stress [the same unit]

    Limits
    ------
    As a criterion: material that breaks in tension without yielding.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> round(float(max_principal(30.0, -50.0, 0.0, 0.0, 0.0, 0.0)), 9)
    30.0
    """
    return principal_stresses(sxx, syy, szz, sxy, syz, szx).first


def max_shear(sxx: Any, syy: Any, szz: Any, sxy: Any, syz: Any, szx: Any) -> Any:
    """The largest shear stress.

    (largest - smallest principal stress)/2

    Parameters
    ----------
    sxx, syy, szz, sxy, syz, szx : stresses [any one unit]

    Returns
    -------
    largest shear stress, 0 or more [the same unit]

    Limits
    ------
    As a criterion: isotropic ductile material; errs on the safe side of von Mises.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> round(float(max_shear(30.0, -50.0, 0.0, 0.0, 0.0, 0.0)), 9)
    40.0
    """
    found = principal_stresses(sxx, syy, szz, sxy, syz, szx)
    return (found.first - found.third) / 2.0


STRESSES = {"von_mises": von_mises, "max_principal": max_principal, "max_shear": max_shear}


def needed_factor(safety: float, specials: Sequence[float] = (), multiply: Sequence[float] = ()) -> float:
    """The factor that the applied stress is multiplied by.

    safety x the highest pertinent special factor x every further factor

    Parameters
    ----------
    safety : factor of safety, 1 where there is none [-]
    specials : special factors that pertain; only the highest is used [-]
    multiply : further factors; each is used [-]

    Returns
    -------
    needed factor [-]

    References
    ----------
    14 CFR 25.303 and 25.619 for the safety and the special factor.

    Examples
    --------
    >>> needed_factor(1.5, [1.15, 1.25])
    1.875
    """
    needed = safety * max(specials, default=1.0)
    for factor in multiply:
        needed *= factor
    return needed


def reserve_factor(allowable: Any, applied: Any, *, already: float = 1.0, needed: float = 1.0) -> Any:
    """How many times the factored load fits into the allowable.

    RF = allowable / (applied / already x needed)

    Parameters
    ----------
    allowable : what the material stands, above 0 [any one unit]
    applied : stress or load, above 0 [the same unit]
    already : product of the factors that the applied value holds already, above 0 [-]
    needed : the factor that is needed, above 0 [-]

    Returns
    -------
    RF [-]

    Limits
    ------
    Stress in proportion to load. Not defined for an applied value of 0 or below.

    References
    ----------
    NASA-STD-5001B, section 3.2, by RF = MS + 1.

    Examples
    --------
    >>> round(reserve_factor(61200.0, 20000.0, needed=1.5 * 1.15), 6)
    1.773913
    """
    return allowable / (applied / already * needed)


def margin_of_safety(reserve: Any) -> Any:
    """Margin of safety, MS = RF - 1; met at 0 or above (NASA-STD-5001B, sections 3.2 and 4.2)."""
    return reserve - 1.0
