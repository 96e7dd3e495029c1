"""Reserve factor and margin of safety by hand, with their sheets."""

import re

import numpy as np
import pytest
from sheet_check import check_sheet

from assurance.methods import reserve_sheet, stress
from assurance.methods.registry import METHODS
from assurance.methods.reserve_sheet import Applied, PutOn
from assurance.model import numbers
from assurance.model.mathml import with_numbers
from assurance.model.quantity import Quantity
from assurance.model.steps import print_step

METHOD = METHODS["reserve_factors"]
SAFETY, CASTING = PutOn("ultimate", "safety", 1.5), PutOn("casting", "special", 1.25)
FITTING, MODEL = PutOn("fitting", "special", 1.15), PutOn("model", "multiply", 1.2)
ROW = {"sxx": 120.0, "syy": -45.5, "szz": 12.25, "sxy": 60.1, "syz": -8.0, "szx": 22.0}
IN_PLANE = {"sxx": 120.0, "syy": -45.5, "sxy": 60.1}
EQUAL_ROOTS = {"sxx": 80.0, "syy": 80.0, "szz": -20.0, "szx": 0.0}
SHEAR_ONLY = {"sxy": 25.0, "syz": -40.0, "szx": 31.5}
NO_MEAN = {"sxx": 10.0, "syy": -10.0, "szz": 0.0, "syz": 4.0}
LARGE = {"sxx": -123456.78, "syy": 98765.43, "szz": 10101.01, "sxy": 33333.33, "syz": -4444.4, "szx": 555.5}
SMALL = {name: value * 1e-6 for name, value in LARGE.items()}


def by_hand(applied, allowable, **more):
    bound = {"applied": applied, "allowable": allowable, **more}
    return METHOD.work(bound, {"applied": "MPa", "allowable": "MPa"})


def test_a_reserve_factor_just_below_one_fails_and_is_not_shown_as_one():
    # rounding trap: 0.99951 compared unrounded, displayed rounded down
    outcome = by_hand(1.0, 0.99951)
    assert outcome.values["count_below_one"] == 1.0
    assert outcome.values["least_reserve_factor"] < 1.0
    assert numbers.reserve(outcome.values["least_reserve_factor"]) == "0.99"


@pytest.mark.parametrize("reserve", [0.99951, 0.99997, 0.999999, 1.0, 1.00003])
def test_no_sheet_prints_a_reserve_factor_on_the_wrong_side_of_one(reserve):
    named = by_hand(1.0, reserve).sheet.named()
    printed = print_step(named["least_reserve_factor"], named).result
    assert (float(printed) < 1.0) == (reserve < 1.0)


def test_margin_of_safety_is_the_reserve_factor_less_one():
    # NASA-STD-5001B, section 3.2, with RF = MS + 1 (from memory)
    outcome = by_hand(100.0, 250.0)
    assert outcome.values == {"least_reserve_factor": 2.5, "margin_of_safety": 1.5, "count_below_one": 0.0}


@pytest.mark.parametrize("applied", [0.0, -35.0])
def test_what_is_not_in_tension_is_not_governed(applied):
    outcome = by_hand(applied, 250.0)
    assert outcome.values["least_reserve_factor"] is None
    assert outcome.why_not["least_reserve_factor"].text.startswith("not governed")


def test_casting_and_fitting_factor_together_give_the_higher_one():
    # own numbers: 1.5 x 1.25 = 1.875 needed; 300 / (100 x 1.875) = 1.6
    outcome = by_hand(100.0, 300.0, put_on=(SAFETY, CASTING, FITTING))
    assert outcome.values["least_reserve_factor"] == pytest.approx(1.6, rel=1e-14)
    check_sheet(outcome.sheet)


def sheets():
    yield Applied("yield", 97.0, "MPa", 448.0)
    yield Applied("yield", 97.0, "MPa", 448.0, put_on=(SAFETY, CASTING, FITTING, MODEL))
    yield Applied("yield", 97.0, "MPa", 448.0, already=(MODEL, SAFETY), put_on=(SAFETY, MODEL))
    yield Applied("yield", 97.0, "MPa", 448.0, already=(SAFETY,))
    yield Applied("yield", 97.0, "MPa", 448.0, put_on=(SAFETY,), left_in=(MODEL,))
    yield Applied("yield", 97.0, "MPa", 448.0, value_stated=91.37, allowable_stated=470.5)
    yield Applied("yield", 0.25, "MPa", 448.0, value_stated=-119.8)
    stated = Quantity(448.0, "MPa")
    lower = Quantity(420.0, "MPa").within("ksi").value
    yield Applied(
        "yield", 14.0, "ksi", lower, allowable_written=stated, allowable_stated=stated.within("ksi").value
    )
    yield Applied("yield", 14.0, "ksi", stated.within("ksi").value, allowable_written=stated)
    for components in (
        ROW, IN_PLANE, EQUAL_ROOTS, SHEAR_ONLY, NO_MEAN, LARGE, SMALL, {"szz": 100.0}, {"sxx": 100.0},
        {"sxy": 30.0}, {"szz": 80.0, "sxx": 80.0, "syy": 80.0},
    ):  # fmt: skip
        for name, kernel in stress.STRESSES.items():
            value = float(kernel(*(components.get(one, 0.0) for one in stress.COMPONENTS)))
            if value > 0:
                yield Applied(
                    "ultimate", value, "MPa", 448.0, put_on=(SAFETY,), stress=name, components=components
                )


def longest_line(sheet):
    """Characters of the longest line of a sheet with numbers put in, as it stands on paper."""
    named = sheet.named()
    lines = (with_numbers(step.tree, print_step(step, named).inputs) for step in sheet.steps if step.tree)
    return max(len(re.sub("<[^>]*>", "", line)) for line in lines)


@pytest.mark.parametrize("components", [ROW, SHEAR_ONLY, EQUAL_ROOTS, NO_MEAN, SMALL])
@pytest.mark.parametrize("name", stress.STRESSES)
def test_every_line_of_a_sheet_can_be_read_at_once(name, components):
    value = float(stress.STRESSES[name](*(components.get(one, 0.0) for one in stress.COMPONENTS)))
    row = Applied("yield", value, "MPa", 448.0, stress=name, components=components)
    assert longest_line(reserve_sheet.sheet(row)) <= 80


def test_the_invariants_of_the_sheet_are_those_of_an_eigenvalue_solver():
    # numpy.linalg.eigvalsh on the deviator: J2 is half the sum of the squared roots, J3 their product
    named = reserve_sheet.sheet(
        Applied("yield", 142.0, "MPa", 448.0, stress="max_principal", components=ROW)
    ).named()
    sxx, syy, szz, sxy, syz, szx = (ROW[one] for one in stress.COMPONENTS)
    tensor = np.array([[sxx, sxy, szx], [sxy, syy, syz], [szx, syz, szz]])
    roots = np.linalg.eigvalsh(tensor - np.eye(3) * np.trace(tensor) / 3.0)
    assert named["J2"].value == pytest.approx(sum(roots**2) / 2.0, rel=1e-12)
    assert named["J3"].value == pytest.approx(np.prod(roots), rel=1e-12)


def test_products_of_stresses_have_the_unit_raised():
    for unit, squared in (("MPa", "MPa²"), ("N/mm2", "(N/mm²)²")):
        row = Applied("yield", 142.0, unit, 448.0, stress="max_principal", components=ROW)
        named = reserve_sheet.sheet(row).named()
        assert (named["J2"].unit, named["J3"].unit) == (squared, squared[:-1] + "³")


def test_a_stress_of_zero_is_printed_as_zero_and_stands_for_zero():
    row = Applied("yield", 100.0, "MPa", 448.0, stress="von_mises", components={"sxx": 100.0, "syy": 0.0})
    named = reserve_sheet.sheet(row).named()
    assert print_step(named["applied"], named).inputs == {"sxx": "100.0", "syy": "0", "sxy": "0"}


def named(row):
    return f"{row.stress or 'by hand'}-{'-'.join(row.components)}"


@pytest.mark.parametrize("row", list(sheets()), ids=named)
def test_the_sheet_of_a_row_adds_up(row):
    sheet = reserve_sheet.sheet(row)
    check_sheet(sheet)
    reserve = stress.reserve_factor(
        row.allowable, row.value, already=reserve_sheet.inside(row.already),
        needed=reserve_sheet.needed(row.put_on),
    )  # fmt: skip
    assert sheet.named()["least_reserve_factor"].value == reserve
    assert sheet.steps[-1].value == reserve - 1.0


def test_a_stress_without_a_column_says_that_it_is_taken_as_zero():
    row = Applied("yield", 100.0, "MPa", 448.0, stress="von_mises", components={"sxx": 100.0}, where="row 4")
    what = {given.name: given.what for given in reserve_sheet.sheet(row).givens}
    assert what["sxx"].endswith("row 4")
    assert what["syy"].endswith("no column: zero")
