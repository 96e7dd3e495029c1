"""From the stress components of one row to the stress that a criterion looks at, step by step.

A long sum is told in several steps, so that each is one line that can be read and worked out by hand.
"""

import math
from collections.abc import Mapping

from assurance.methods import stress
from assurance.model import numbers
from assurance.model.steps import Step, Term, call, product, symbol, term

IN_PLANE = ("sxx", "syy", "sxy")
PLANE_STRESS = ", in plane stress: szz, syz and szx have no column and are taken as zero"
SAME_ROOT = 1e-13  # below it a cosine of 15 digits no longer tells the angle to half a per cent
SOURCE_ROOTS = stress.SOURCE_ROOTS
SX, SY, SZ = symbol("sxx"), symbol("syy"), symbol("szz")
TXY, TYZ, TZX = symbol("sxy"), symbol("syz"), symbol("szx")
DX, DY, DZ = symbol("dx"), symbol("dy"), symbol("dz")


def used(components: Mapping[str, float]) -> tuple[str, ...]:
    """The components that the sum uses: three in a plane, or all six."""
    return stress.COMPONENTS if set(components) - set(IN_PLANE) else IN_PLANE


def steps(name: str, components: Mapping[str, float], value: float, unit: str) -> list[Step]:
    """The steps to the von Mises, largest principal or largest shear stress; the last is `applied`."""
    values = [components.get(one, 0.0) for one in stress.COMPONENTS]
    plane = used(components) == IN_PLANE
    if name == "von_mises":
        return _von_mises(values, value, unit, plane=plane)
    if plane:
        return _in_plane(name, values, value, unit)
    return _in_space(name, values, value, unit)


def _last(mark: str, what: str, value: float, unit: str, tree: Term) -> Step:
    return Step("expression", "applied", mark, what, value, unit, tree=tree)


def _raised(unit: str, power: str) -> str:
    """The unit of a product of stresses."""
    shown = numbers.unit_shown(unit)
    return (f"({shown})" if "/" in shown else shown) + power


def _von_mises(values: list[float], value: float, unit: str, *, plane: bool) -> list[Step]:
    what = "equivalent stress (von Mises)"
    if plane:
        what += PLANE_STRESS
        tree = call("sqrt", SX**2 - SX * SY + SY**2 + term(3.0) * TXY**2)
        return [_last("sigma_vm", what, value, unit, tree)]
    sxx, syy, szz, sxy, syz, szx = values
    direct_value = ((sxx - syy) ** 2 + (syy - szz) ** 2 + (szz - sxx) ** 2) / 2.0
    shear_value = 3.0 * (sxy**2 + syz**2 + szx**2)
    direct = ((SX - SY) ** 2 + (SY - SZ) ** 2 + (SZ - SX) ** 2) / 2.0
    shear = term(3.0) * (TXY**2 + TYZ**2 + TZX**2)
    squared = _raised(unit, "²")
    return [
        Step("expression", "direct", "D", "part of the direct stresses", direct_value, squared, tree=direct),
        Step("expression", "shear", "T", "part of the shear stresses", shear_value, squared, tree=shear),
        _last("sigma_vm", what, value, unit, call("sqrt", symbol("direct") + symbol("shear"))),
    ]


def _in_plane(name: str, values: list[float], value: float, unit: str) -> list[Step]:
    """Centre and radius of the stress circle."""
    sxx, syy, _, sxy, _, _ = values
    radius_value = math.hypot((sxx - syy) / 2.0, sxy)
    centre, radius = symbol("centre"), symbol("radius")
    tree = call("sqrt", ((SX - SY) / 2.0) ** 2 + TXY**2)
    found = [
        Step(
            "expression", "centre", "sigma_m", "centre of the stress circle", (sxx + syy) / 2.0, unit,
            tree=(SX + SY) / 2.0,
        ),
        Step("expression", "radius", "R", "radius of the stress circle", radius_value, unit, tree=tree),
    ]  # fmt: skip
    if name == "max_principal":
        return [
            *found,
            _last("sigma_1", f"largest principal stress{PLANE_STRESS}", value, unit, centre + radius),
        ]
    shear = call("max", radius, (call("abs", centre) + radius) / 2.0)
    return [*found, _last("tau_max", f"largest shear stress{PLANE_STRESS}", value, unit, shear)]


def _in_space(name: str, values: list[float], value: float, unit: str) -> list[Step]:
    """The root of the characteristic cubic by the invariants of the deviator."""
    p, j2, j3 = stress.invariants(*values)
    if j2 == 0:  # the same stress in every direction: no deviator, no angle
        return [_last("sigma_1", "largest principal stress", value, unit, (SX + SY + SZ) / 3.0)]
    found = [*_deviator(values, p, unit), *_invariants(values, p, j2, unit), *_angle(j2, j3)]
    theta = symbol("theta")
    if name == "max_principal":
        tree = symbol("p") + term(2.0) * call("sqrt", symbol("J2") / 3.0) * call("cos", theta)
        return [*found, _last("sigma_1", "largest principal stress", value, unit, tree)]
    tree = call("sqrt", symbol("J2")) * call("cos", term(math.pi) / 6.0 - theta)
    return [*found, _last("tau_max", "largest shear stress", value, unit, tree)]


def _step(name: str, mark: str, what: str, value: float, unit: str, tree: Term, *, source: str = "") -> Step:
    """A step on the way; one that comes out as zero is exactly zero, and printed so."""
    return Step(
        "expression", name, mark, what, value, unit, tree=tree, source=source, whole=value == 0
    )  # fmt: skip


def _deviator(values: list[float], p: float, unit: str) -> list[Step]:
    """The mean direct stress, and what each direct stress is above it."""
    mean = _step("p", "p", "mean direct stress", p, unit, (SX + SY + SZ) / 3.0)
    rows = zip("xyz", values[:3], (SX, SY, SZ), strict=True)
    return [mean] + [
        _step(f"d{axis}", f"s_{axis}", f"deviatoric stress in {axis}", value - p, unit, direct - symbol("p"))
        for axis, value, direct in rows
    ]


def _invariants(values: list[float], p: float, j2: float, unit: str) -> list[Step]:
    """The second invariant of the deviator, and the third in two parts that each fit on a line."""
    x, y, z = (one - p for one in values[:3])
    sxy, syz, szx = values[3:]
    first = x * y * z + 2.0 * sxy * syz * szx
    second = x * syz**2 + y * szx**2 + z * sxy**2
    square = (DX**2 + DY**2 + DZ**2) / 2.0 + TXY**2 + TYZ**2 + TZX**2
    plus = product(DX, DY, DZ) + product(2.0, TXY, TYZ, TZX)
    minus = DX * TYZ**2 + DY * TZX**2 + DZ * TXY**2
    squared, cubed, third = _raised(unit, "²"), _raised(unit, "³"), "third invariant of the deviator"
    whole = symbol("J3_first") - symbol("J3_second")
    return [
        _step("J2", "J_2", "second invariant of the deviator", j2, squared, square, source=SOURCE_ROOTS),
        _step("J3_first", "J_a", f"{third}, first part", first, cubed, plus),
        _step("J3_second", "J_b", f"{third}, second part", second, cubed, minus),
        _step("J3", "J_3", third, first - second, cubed, whole, source=SOURCE_ROOTS),
    ]


def _angle(j2: float, j3: float) -> list[Step]:
    """The angle of the largest root; where two roots coincide its cosine is 1 or -1, printed whole."""
    ratio = min(1.0, max(-1.0, 0.5 * j3 * (3.0 / j2) ** 1.5))
    same = ratio > 1.0 - SAME_ROOT or ratio < stress.SAME_ROOT - 1.0
    cosine = math.copysign(1.0, ratio) if same else ratio
    tree = symbol("J3") / 2.0 * (term(3.0) / symbol("J2")) ** 1.5
    what = "cosine of three times the angle" + (", two roots being the same" if same else "")
    angle, of = call("arccos", symbol("ratio")) / 3.0, "angle of the largest root"
    return [
        Step("expression", "ratio", "c", what, cosine, tree=tree, whole=same or cosine == 0),
        _step("theta", "theta", of, math.acos(cosine) / 3.0, "rad", angle, source=SOURCE_ROOTS),
    ]
