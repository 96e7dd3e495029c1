"""Every step of every sheet of the demo and of a new case follows from its printed numbers."""

import pytest
from demo_case import ROOT, SMALL
from sheet_check import check_sheet

from assurance.assess import assess
from assurance.reading import read_case

WORKED = {
    (folder.name, id_): one
    for folder in (ROOT, SMALL)
    for id_, one in assess(read_case(folder)).worked.items()
}


@pytest.mark.parametrize("name", sorted(WORKED), ids="-".join)
def test_each_step_follows_from_the_printed_numbers(name):
    check_sheet(WORKED[name].sheet)


@pytest.mark.parametrize("name", sorted(WORKED), ids="-".join)
def test_each_result_that_could_be_worked_out_stands_at_the_end_of_a_step(name):
    worked = WORKED[name]
    steps = {step.name: step.value for step in worked.sheet.steps}
    for result, value in worked.results.items():
        if value.value is not None and result in steps:
            # results are published with 9 digits, and a margin is taken from the published factor
            assert steps[result] == pytest.approx(value.value, rel=1e-8, abs=1e-8)
    assert set(worked.results) & set(steps), "no result of the calculation is told in steps"
