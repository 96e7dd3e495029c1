"""From the stress components of one row to the stress that a criterion looks at, step by step."""

import math
from collections.abc import Mapping

from assurance.methods import stress
from assurance.model.steps import Step, Term, call, product, symbol, term

IN_PLANE = ("sxx", "syy", "sxy")
SX, SY, SZ = symbol("sxx"), symbol("syy"), symbol("szz")
TXY, TYZ, TZX = symbol("sxy"), symbol("syz"), symbol("szx")


def used(components: Mapping[str, float]) -> tuple[str, ...]:
    """The components that the sum uses: three in a plane, or all six."""
    return stress.COMPONENTS if set(components) - set(IN_PLANE) else IN_PLANE


def steps(name: str, components: Mapping[str, float], value: float, unit: str) -> list[Step]:
    """The steps to the von Mises, largest principal or largest shear stress; the last is `applied`."""
    values = [components.get(one, 0.0) for one in stress.COMPONENTS]
    plane = used(components) == IN_PLANE
    if name == "von_mises":
        return [_last("sigma_vm", "equivalent stress (von Mises)", value, unit, _von_mises(plane=plane))]
    if plane:
        return _in_plane(name, values, value, unit)
    return _in_space(name, values, value, unit)


def _last(mark: str, what: str, value: float, unit: str, tree: Term) -> Step:
    return Step("expression", "applied", mark, what, value, unit, tree=tree)


def _von_mises(*, plane: bool) -> Term:
    if plane:
        return call("sqrt", SX**2 - SX * SY + SY**2 + term(3.0) * TXY**2)
    direct = ((SX - SY) ** 2 + (SY - SZ) ** 2 + (SZ - SX) ** 2) / 2.0
    return call("sqrt", direct + term(3.0) * (TXY**2 + TYZ**2 + TZX**2))


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
        return [*found, _last("sigma_1", "largest principal stress", value, unit, centre + radius)]
    shear = call("max", radius, (call("abs", centre) + radius) / 2.0)
    return [*found, _last("tau_max", "largest shear stress", value, unit, shear)]


def _in_space(name: str, values: list[float], value: float, unit: str) -> list[Step]:
    """The root of the characteristic cubic by its invariants."""
    p, j2, j3 = stress.invariants(*values)
    if j2 == 0:  # the same stress in every direction: no deviator, no angle
        return [_last("sigma_1", "largest principal stress", value, unit, (SX + SY + SZ) / 3.0)]
    ratio = min(1.0, max(-1.0, 0.5 * j3 * (3.0 / j2) ** 1.5))
    found = [*_invariants(p, j2, j3, unit), *_angle(ratio)]
    theta = symbol("theta")
    if name == "max_principal":
        tree = symbol("p") + term(2.0) * call("sqrt", symbol("J2") / 3.0) * call("cos", theta)
        return [*found, _last("sigma_1", "largest principal stress", value, unit, tree)]
    tree = call("sqrt", symbol("J2")) * call("cos", term(math.pi) / 6.0 - theta)
    return [*found, _last("tau_max", "largest shear stress", value, unit, tree)]


def _invariants(p: float, j2: float, j3: float, unit: str) -> list[Step]:
    mean = symbol("p")
    x, y, z = SX - mean, SY - mean, SZ - mean
    square = ((SX - SY) ** 2 + (SY - SZ) ** 2 + (SZ - SX) ** 2) / 6.0 + TXY**2 + TYZ**2 + TZX**2
    cube = product(x, y, z) + product(2.0, TXY, TYZ, TZX) - x * TYZ**2 - y * TZX**2 - z * TXY**2
    second, third = "second invariant of the deviator", "third invariant of the deviator"
    return [
        Step("expression", "p", "p", "mean direct stress", p, unit, tree=(SX + SY + SZ) / 3.0),
        Step("expression", "J2", "J_2", second, j2, tree=square),
        Step("expression", "J3", "J_3", third, j3, tree=cube),
    ]


def _angle(ratio: float) -> list[Step]:
    tree = symbol("J3") / 2.0 * (term(3.0) / symbol("J2")) ** 1.5
    what = "cosine of three times the angle"
    angle = call("arccos", symbol("ratio")) / 3.0
    return [
        Step("expression", "ratio", "c", what, ratio, tree=tree),
        Step(
            "expression", "theta", "theta", "angle of the largest root", math.acos(ratio) / 3.0, "rad",
            tree=angle,
        ),
    ]  # fmt: skip
