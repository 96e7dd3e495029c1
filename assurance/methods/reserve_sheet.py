"""The sum behind one reserve factor, told step by step."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from assurance.methods import stress, stress_steps
from assurance.model import numbers, units
from assurance.model.quantity import Quantity
from assurance.model.steps import Given, Sheet, Step, Term, call, product, symbol

SOURCE_RF = "NASA-STD-5001B (2014), section 3.2"
SOURCE_NEEDED = "14 CFR 25.303 and 25.619"
ROUNDING = 5e-13  # half a unit in the twelfth digit, to which exact numbers are published
SIGNS = {
    "sxx": "sigma_x", "syy": "sigma_y", "szz": "sigma_z", "sxy": "tau_xy", "syz": "tau_yz", "szx": "tau_zx",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class PutOn:
    """A factor by name, kind and value."""

    name: str
    kind: Literal["safety", "special", "multiply"]
    value: float
    title: str = ""


@dataclass(frozen=True, slots=True)
class Applied:
    """One applied value with what it is compared with, and how it came about.

    `components` are the stresses of the row, by name, where `stress` is worked out from them.
    `allowable_written` is the allowable in the unit in which it is stated, where that is another one.
    Where a value comes with an uncertainty, `value` and `allowable` are its adverse ends, and
    `value_stated` and `allowable_stated` the values themselves, in the same unit. Factors in `left_in`
    are in the value already and stay there.
    """

    criterion: str
    value: float
    unit: str
    allowable: float
    already: tuple[PutOn, ...] = ()
    put_on: tuple[PutOn, ...] = ()
    stress: str = ""
    components: Mapping[str, float] = field(default_factory=dict)
    where: str = ""
    applied_from: str = ""
    allowable_from: str = ""
    allowable_written: Quantity | None = None
    value_stated: float | None = None
    allowable_stated: float | None = None
    left_in: tuple[PutOn, ...] = ()


def sheet(row: Applied) -> Sheet:
    """From the stresses of the row to the reserve factor and the margin."""
    givens, steps = _stress(row)
    allowable, converted = _allowable(row)
    givens = [*givens, *allowable, *_factor_givens(row)]
    steps = [*steps, *converted, *_needed(row.put_on), *_reserve(row)]
    return Sheet(f"Reserve factor, {row.criterion}".rstrip(", "), tuple(givens), (), tuple(steps))


def _stress(row: Applied) -> tuple[list[Given], list[Step]]:
    if not row.components:
        what = f"applied value, {row.where}".rstrip(", ")
        if row.value_stated is None:
            return [Given("applied", "sigma", row.value, row.unit, what, record=row.applied_from)], []
        return _adverse_applied(row, row.value_stated, what)
    return _component_givens(row), stress_steps.steps(row.stress, row.components, row.value, row.unit)


def _adverse_applied(row: Applied, stated: float, what: str) -> tuple[list[Given], list[Step]]:
    """The upper end of an applied value with an uncertainty."""
    width, what_width = row.value - stated, "applied value, from there to its upper end"
    givens = [
        Given("applied_stated", "sigma_s", stated, row.unit, what, row.applied_from),
        Given("applied_half_width", "U", width, row.unit, what_width, row.applied_from),
    ]
    tree = symbol("applied_stated") + symbol("applied_half_width")
    return givens, [_end("applied", "sigma", "applied value, adverse end", row.value, row.unit, tree)]


def _end(name: str, mark: str, what: str, value: float, unit: str, tree: Term) -> Step:
    return Step("expression", name, mark, what, value, unit, tree=tree)


def _allowable(row: Applied) -> tuple[list[Given], list[Step]]:
    """The allowable in the unit of what is applied, and of one with an uncertainty its lower end."""
    stated = row.allowable_stated
    if stated is None:
        return _converted(row, "allowable", "sigma_all", row.allowable)
    givens, steps = _converted(row, "allowable_stated", "sigma_m", stated)
    width, what = stated - row.allowable, "allowable, from there to its lower end"
    givens.append(Given("allowable_half_width", "U_all", width, row.unit, what, row.allowable_from))
    tree = symbol("allowable_stated") - symbol("allowable_half_width")
    end = _end("allowable", "sigma_all", "allowable, adverse end", row.allowable, row.unit, tree)
    return givens, [*steps, end]


def _converted(row: Applied, name: str, mark: str, value: float) -> tuple[list[Given], list[Step]]:
    """The allowable as stated; a step of its own where it is stated in another unit."""
    written, origin = row.allowable_written, row.allowable_from
    if written is None:
        return [Given(name, mark, value, row.unit, "allowable", origin)], []
    own, wanted = units.unit(written.unit), units.unit(row.unit)
    if own.offset != wanted.offset:
        what = f"allowable, stated as {written}"
        return [Given(name, mark, value, row.unit, what, origin)], []
    ratio = own.factor / wanted.factor
    one = f"{numbers.unit_shown(row.unit)} in one {numbers.unit_shown(written.unit)}"
    givens = [
        Given("allowable_written", "sigma_w", written.value, written.unit, "allowable as stated", origin),
        Given("conversion", "c", ratio, "", one, whole=ratio.is_integer()),
    ]
    what = f"allowable in {numbers.unit_shown(row.unit)}"
    tree = symbol("allowable_written") * symbol("conversion")
    return givens, [_end(name, mark, what, value, row.unit, tree)]


def _component_givens(row: Applied) -> list[Given]:
    """The stresses of the row; one without a column is taken as zero, and says so."""
    return [
        Given(
            name,
            SIGNS[name],
            row.components.get(name, 0.0),
            row.unit,
            _component_from(name, row),
            whole=not row.components.get(name),  # a zero is exact
        )
        for name in stress_steps.used(row.components)
    ]


def _component_from(name: str, row: Applied) -> str:
    if name not in row.components:
        return f"stress {name}, no column: zero"
    return f"stress {name}, {row.where}".rstrip(", ")


def _factor_givens(row: Applied) -> list[Given]:
    held = [
        Given(f"already_{at}", f"f_in{at}", one.value, "", f"already in: {one.title or one.name}", one.name)
        for at, one in enumerate(row.already, 1)
    ]
    held += [
        Given(
            f"left_in_{at}", f"f_k{at}", one.value, "",
            f"already in and left there, since it is not put on: {one.title or one.name}", one.name,
        )
        for at, one in enumerate(row.left_in, 1)
    ]  # fmt: skip
    return held + [
        Given(f"factor_{at}", f"f_{at}", one.value, "", f"{one.kind}: {one.title or one.name}", one.name)
        for at, one in enumerate(row.put_on, 1)
    ]


def _needed(put_on: tuple[PutOn, ...]) -> list[Step]:
    """The product, of the special factors only the highest."""
    if not put_on:
        return []
    named = [(one, symbol(f"factor_{at}")) for at, one in enumerate(put_on, 1)]
    specials = [mark for one, mark in named if one.kind == "special"]
    terms = [mark for one, mark in named if one.kind == "safety"]
    terms += [call("max", *specials)] if len(specials) > 1 else specials
    terms += [mark for one, mark in named if one.kind == "multiply"]
    return [
        Step(
            "expression", "needed", "f", "needed factor", needed(put_on),
            tree=product(*terms), source=SOURCE_NEEDED,
        )
    ]  # fmt: skip


def needed(factors: tuple[PutOn, ...]) -> float:
    """The needed factor from the factors that apply, each by its kind."""
    of_kind = {
        kind: [one.value for one in factors if one.kind == kind] for kind in ("safety", "special", "multiply")
    }
    return stress.needed_factor(
        math.prod(of_kind["safety"], start=1.0), of_kind["special"], of_kind["multiply"]
    )


def not_governing(factors: tuple[PutOn, ...]) -> tuple[PutOn, ...]:
    """The special factors that are not the highest; of equal ones the first governs."""
    specials = [one for one in factors if one.kind == "special"]
    highest = max(specials, key=lambda one: one.value, default=None)
    return tuple(one for one in specials if one is not highest)


def inside(factors: tuple[PutOn, ...]) -> float:
    """The product of the factors that an applied value holds already."""
    return math.prod((factor.value for factor in factors), start=1.0)


def falls_short(reserve: Any) -> Any:
    """Whether a reserve factor lies below 1 by more than the rounding of published numbers."""
    return reserve < 1.0 - ROUNDING


def _reserve(row: Applied) -> list[Step]:
    load = symbol("applied")
    if row.already:
        load = load / product(*(symbol(f"already_{at}") for at in range(1, len(row.already) + 1)))
    if row.put_on:
        load = load * symbol("needed")
    reserve = stress.reserve_factor(
        row.allowable, row.value, already=inside(row.already), needed=needed(row.put_on)
    )
    return [
        Step(
            "expression", "least_reserve_factor", "RF", "reserve factor", reserve,
            tree=symbol("allowable") / load, source=SOURCE_RF, limit=1.0,
        ),
        Step(
            "expression", "margin_of_safety", "MS", "margin of safety", stress.margin_of_safety(reserve),
            tree=symbol("least_reserve_factor") - 1.0, source=SOURCE_RF, limit=0.0,
        ),
    ]  # fmt: skip
