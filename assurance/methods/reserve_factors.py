"""Method `reserve_factors`: how many times the factored load fits into the allowable."""

import math
from collections.abc import Mapping
from typing import Any

from assurance.methods import reserve_sheet, stress
from assurance.methods.reserve_sheet import Applied
from assurance.model.methods import InputSpec, Method, Outcome, ResultSpec, WhyNot

SMALLEST = math.nextafter(0.0, 1.0)
NOT_GOVERNED = WhyNot(
    "not governed: the applied value is not above zero, so it cannot cause this failure",
    "Use a result that is defined for this load.",
)


def work(bound: Mapping[str, Any], units: Mapping[str, str]) -> Outcome:
    """The reserve factor of one applied and one allowable value.

    `already` and `put_on` in what is bound are the factors inside the applied value and those that
    apply, as tuples of `PutOn`; none where left out.
    """
    already, put_on = tuple(bound.get("already", ())), tuple(bound.get("put_on", ()))
    applied, allowable = float(bound["applied"]), float(bound["allowable"])
    if applied <= 0:
        return not_governed()
    reserve = stress.reserve_factor(
        allowable, applied, already=reserve_sheet.inside(already), needed=reserve_sheet.needed(put_on)
    )
    row = Applied(
        criterion=str(bound.get("criterion") or ""), value=applied, unit=units.get("applied", ""),
        allowable=allowable, already=already, put_on=put_on,
    )  # fmt: skip
    return Outcome(least(reserve, int(reserve_sheet.falls_short(reserve))), sheet=reserve_sheet.sheet(row))


def least(reserve: float, below_one: int) -> dict[str, float | None]:
    """The results of the method from the least reserve factor."""
    return {
        "least_reserve_factor": reserve,
        "margin_of_safety": stress.margin_of_safety(reserve),
        "count_below_one": float(below_one),
    }


def not_governed() -> Outcome:
    """No reserve factor and none to count: nothing applied can cause the failure."""
    names = ("least_reserve_factor", "margin_of_safety", "count_below_one")
    return Outcome(dict.fromkeys(names), why_not=dict.fromkeys(names, NOT_GOVERNED))


METHOD = Method(
    name="reserve_factors",
    version=2,
    title="Reserve factors and margins of safety",
    inputs=(
        InputSpec("applied", "sigma", "applied stress or load", "@"),
        InputSpec("allowable", "sigma_all", "allowable stress or load", "@applied", lower=SMALLEST),
        InputSpec("criterion", "", "what it fails by", kind="word", required=False),
        InputSpec("part", "", "the part it speaks of", kind="word", required=False),
        InputSpec("load_case", "", "the load case it speaks of", kind="word", required=False),
    ),
    results=(
        ResultSpec("least_reserve_factor", "RF", "least reserve factor"),
        ResultSpec("margin_of_safety", "MS", "margin of safety of the least: RF - 1"),
        ResultSpec("count_below_one", "n_f", "rows below 1, counted for each criterion", whole=True),
    ),
    source="NASA-STD-5001B (2014), sections 3.2 and 4.2; 14 CFR 25.303 and 25.619 for the factors",
    limits=(
        "stress in proportion to load, no yielding, no loss of stability",
        "a row whose applied value is not above zero is not governed by that criterion",
        "one factor of safety is put on, or is in the applied value already; none is below 1",
        "of values with an uncertainty the adverse ends: the upper of what is applied, the lower allowable",
        "von Mises and largest shear: isotropic ductile material; largest principal: brittle in tension",
    ),
    work=work,
)  # fmt: skip
