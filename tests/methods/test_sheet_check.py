"""The check of sheets refuses a sheet that lies."""

from dataclasses import replace

import pytest
from sheet_check import check_sheet

from assurance.methods.registry import METHODS
from assurance.model.steps import symbol

VALUES = (501.0, 498.5, 507.25, 493.0, 502.0, 499.0, 505.5, 496.0, 500.5, 503.0, 497.5, 499.5)
SHEET = METHODS["allowables"].work({"values": VALUES, "batch": ("p", "q", "r") * 4}, {"values": "MPa"}).sheet


def with_step(name, **changes):
    steps = tuple(replace(step, **changes) if step.name == name else step for step in SHEET.steps)
    return replace(SHEET, steps=steps)


def test_the_sheet_as_it_is_passes():
    check_sheet(SHEET)


@pytest.mark.parametrize("name", [step.name for step in SHEET.steps])
def test_a_result_that_is_off_by_one_per_cent_is_refused(name):
    honest = SHEET.named()[name]
    wrong = honest.value + 1.0 if honest.whole else honest.value * 1.01
    with pytest.raises(AssertionError):
        check_sheet(with_step(name, value=wrong))


def test_a_count_with_decimals_is_refused():
    with pytest.raises(ValueError, match=r"12\.25"):
        check_sheet(with_step("count", value=12.25))


def test_a_formula_that_is_not_the_one_used_is_refused():
    tree = symbol("mean") - symbol("k_a") * symbol("standard_deviation")
    with pytest.raises(AssertionError):
        check_sheet(with_step("b_basis", tree=tree))


def test_a_symbol_from_nowhere_is_refused():
    with pytest.raises(AssertionError, match="come from nowhere"):
        check_sheet(with_step("b_basis", tree=symbol("mean") - symbol("guess")))


def test_a_changed_value_of_the_data_is_refused():
    values, batch = SHEET.columns
    changed = replace(values, values=(600.0, *VALUES[1:]))
    with pytest.raises(AssertionError):
        check_sheet(replace(SHEET, columns=(changed, batch)))


def test_a_batch_that_the_count_leaves_out_is_refused():
    values, batch = SHEET.columns
    changed = replace(batch, values=(4.0, *batch.values[1:]))
    with pytest.raises(AssertionError, match="batches"):
        check_sheet(replace(SHEET, columns=(values, changed)))
