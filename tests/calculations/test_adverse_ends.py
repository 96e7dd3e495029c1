"""A stated uncertainty is carried into every result, at the adverse end, or it is told that it is not."""

import math

import pytest
from sheet_check import check_sheet
from small_case import PARTS, ULTIMATE, read, texts, worked

from assurance.model.assessment import ResultValue

RESERVE = "least_reserve_factor"
RIG = "travel,force\n" + "".join(
    f"{at / 4},{0.2 * at / 4 + (0.002 if at % 2 else -0.002)}\n" for at in range(21)
)


def by_hand(folder, inputs, *, parts=PARTS, results=None):
    text = f"calculations: {{sum: {{title: By hand, method: reserve_factors, inputs: {inputs}}}}}"
    return worked(read(folder, parts, ULTIMATE, text), results=results)


def agreement(folder, predicted, *, start="0 mm"):
    text = f"""
    calculations:
      sum:
        title: Stiffness
        method: agreement
        inputs:
          displacement: {{file: rig.csv, column: travel, unit: mm}}
          load: {{file: rig.csv, column: force, unit: kN}}
          from: {start}
          predicted: {predicted}
    """
    return worked(read(folder, text, rig_csv=RIG))


def test_what_is_applied_is_judged_at_its_upper_end(tmp_path):
    found = by_hand(tmp_path, "{applied: 100 +/- 20 MPa, allowable: {material: alloy.ultimate}}")
    # closed form: 500 / (120 x 1.5)
    assert found.results[RESERVE].value == pytest.approx(500 / 180, rel=1e-11)
    assert found.cells[0].applied == 120.0
    named = found.sheet.named()
    assert (named["applied_stated"].value, named["applied_half_width"].value) == (100.0, 20.0)
    assert named["applied"].what.endswith("adverse end")
    check_sheet(found.sheet)


def test_an_allowable_is_judged_at_its_lower_end_in_the_unit_of_the_load(tmp_path):
    parts = PARTS.replace("0.4 GPa", "0.40 +/- 0.05 GPa")
    found = by_hand(tmp_path, "{applied: 100 MPa, allowable: {material: alloy.proof}}", parts=parts)
    # closed form: (400 - 50) / (100 x 1.5)
    assert found.results[RESERVE].value == pytest.approx(350 / 150, rel=1e-11)
    assert found.cells[0].allowable == 350.0
    assert found.sheet.named()["allowable_half_width"].value == pytest.approx(50.0, rel=1e-11)
    check_sheet(found.sheet)


def test_the_interval_of_a_result_and_of_a_load_case_are_carried(tmp_path):
    parts = PARTS.replace("drop: {title: Drop}", "drop: {title: Drop, value: 10 +/- 2 kN}")
    found = by_hand(tmp_path, "{applied: {load_case: drop}, allowable: 30 kN}", parts=parts)
    assert found.results[RESERVE].value == pytest.approx(30 / 18, rel=1e-11)
    parts = PARTS.replace("drop: {title: Drop}", "drop: {title: Drop, result: report.load}")
    parts += "evidence: {report: {title: Report, kind: analysis, results: {load: 10 kN}}}"
    known = {"report.load": ResultValue(10.0, "kN", 9.0, 14.0)}
    found = by_hand(tmp_path, "{applied: {load_case: drop}, allowable: 30 kN}", parts=parts, results=known)
    assert found.results[RESERVE].value == pytest.approx(30 / 21, rel=1e-11)


def test_a_pull_that_may_be_one_governs(tmp_path):
    found = by_hand(tmp_path, "{applied: -10 +/- 30 MPa, allowable: {material: alloy.ultimate}}")
    assert found.results[RESERVE].value == pytest.approx(500 / 30, rel=1e-11)  # closed form: 20 x 1.5
    check_sheet(found.sheet)


def test_an_allowable_that_may_be_nothing_is_a_fault(tmp_path):
    found = by_hand(tmp_path, "{applied: 10 MPa, allowable: 100 +/- 100 MPa}")
    assert "`allowable` reaches `0`; it must be above 0." in texts(found)


def test_a_half_width_of_zero_changes_nothing(tmp_path):
    found = by_hand(tmp_path, "{applied: 100 +/- 0 MPa, allowable: {material: alloy.ultimate}}")
    assert "applied_half_width" not in found.sheet.named()
    assert found.results[RESERVE].value == pytest.approx(500 / 150, rel=1e-11)


def test_the_allowable_of_a_table_is_judged_at_its_lower_end_too(tmp_path):
    text = """
    calculations:
      sum:
        title: Table
        method: reserve_factors
        table: {file: stress.csv, unit: MPa, columns: {part: p, load_case: l}}
        criteria: [{criterion: yield, stress: s, allowable: {material: alloy.proof}}]
    """
    parts = PARTS.replace("0.4 GPa", "0.40 +/- 0.05 GPa")
    table = "p,l,s\nbracket,heave,240\nbracket,heave,100\n"
    found = worked(read(tmp_path, parts, ULTIMATE, text, stress_csv=table))
    (cell,) = found.cells
    # closed form: 350 / (240 x 1.5) is below 1, 400 / (240 x 1.5) is not
    assert (cell.reserve_factor, cell.below_one) == (pytest.approx(350 / 360, rel=1e-11), 1)
    check_sheet(found.sheet)


def test_the_uncertainty_of_a_prediction_widens_the_ratio(tmp_path):
    sure = agreement(tmp_path / "sure", "200 N/mm").results["ratio"]
    found = agreement(tmp_path / "unsure", "200 +/- 20 N/mm")
    ratio = found.results["ratio"]
    own, whole = (sure.upper - sure.lower) / 2, (ratio.upper - ratio.lower) / 2
    # JCGM 100:2008, 5.1.2: in parts of the ratio the prediction is uncertain by 20 / 200
    assert whole == pytest.approx(math.hypot(own, 0.1 * ratio.value), rel=1e-6)
    assert ratio.value == sure.value
    assert found.sheet.named()["predicted_half_width"].value == 20.0
    assert found.remarks == ()
    check_sheet(found.sheet)


def test_an_uncertainty_that_the_method_cannot_carry_is_told(tmp_path):
    found = agreement(tmp_path, "200 N/mm", start="0.5 +/- 0.1 mm")
    assert [remark.text for remark in found.remarks] == [
        "The uncertainty of `from` is not carried into any result."
    ]
