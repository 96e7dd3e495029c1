"""What a calculation depends on."""

from small_case import PARTS, ULTIMATE, read

from assurance.calculations import depends, properties
from assurance.model.assessment import ResultValue

FACTORS = """
factors:
  ultimate: {title: Ultimate, kind: safety, value: 1.5, applies_to: {criteria: [ultimate]}}
  proof: {title: Yield, kind: safety, value: 1.1, applies_to: {criteria: [yield]}}
  frames: {title: Frames, kind: special, value: 1.1, applies_to: {parts: [frame]}}
  model: {title: Model, kind: multiply, value: 1.1, applies_to: {parts: [frame]}}
"""
BY_HAND = """
evidence:
  report: {title: Report, kind: analysis, files: [rig.csv], results: {stress: 100 MPa}}
  other: {title: Other, kind: analysis, files: [other.csv]}
calculations:
  sum:
    title: By hand
    method: reserve_factors
    inputs:
      applied: {result: report.stress}
      allowable: {material: alloy.ultimate}
      criterion: ultimate
      part: bracket
      load_case: heave
"""
TABLE = """
evidence:
  run: {title: Run, kind: analysis, files: [stress.csv]}
calculations:
  sum:
    title: Table
    method: reserve_factors
    table:
      file: stress.csv
      unit: MPa
      columns: {part: p, load_case: l, sxx: s, syy: s, sxy: s}
      already_in: [model]
    criteria: [{criterion: yield, stress: von_mises, allowable: {result: run.yield}}]
"""


def uses(case):
    return depends(case.entries["sum"].record, case)


def test_by_hand_it_is_what_the_inputs_name_and_the_factors_that_apply(tmp_path):
    case = read(tmp_path, PARTS, FACTORS, BY_HAND, rig_csv="a\n1\n", other_csv="b\n2\n")
    assert uses(case) == ("report", "alloy.ultimate", "bracket", "heave", "ultimate")


def test_evidence_that_lists_a_file_that_is_read_is_used(tmp_path):
    case = read(tmp_path, PARTS, FACTORS, TABLE, stress_csv="p,l,s\nbracket,heave,1\n")
    assert "run" in uses(case)


def test_a_table_that_is_not_narrowed_may_speak_of_every_part_and_load_case(tmp_path):
    case = read(tmp_path, PARTS, FACTORS, TABLE, stress_csv="p,l,s\nbracket,heave,1\n")
    assert {"bracket", "frame", "heave", "drop", "frames", "proof", "model"} <= set(uses(case))
    assert "ultimate" not in uses(case)


def test_a_narrowed_table_speaks_of_what_is_named(tmp_path):
    text = TABLE + "    parts: [bracket]\n    load_cases: [heave]\n"
    case = read(tmp_path, PARTS, FACTORS, text, stress_csv="p,l,s\nbracket,heave,1\n")
    assert not {"frame", "drop", "frames"} & set(uses(case))
    assert "model" in uses(case)  # already in the table


def test_properties_have_value_basis_and_what_they_come_from(tmp_path):
    stated = """
    materials:
      alloy:
        title: Alloy
        properties:
          typed: {value: 5.0 +/- 0.5 MPa, basis: S}
          computed: {result: coupons.b_basis}
          nothing: {basis: A}
    """
    case = read(tmp_path, stated)
    found = properties(case, {"coupons.b_basis": ResultValue(7.0, "MPa", basis="B")})
    assert set(found) == {"alloy.typed", "alloy.computed"}
    assert (found["alloy.typed"].lower, found["alloy.typed"].upper) == (4.5, 5.5)
    assert (found["alloy.computed"].value, found["alloy.computed"].basis) == (7.0, "B")
    assert found["alloy.computed"].tag == "computed"


def test_a_factor_of_any_load_case_is_used_where_none_is_named(tmp_path):
    text = BY_HAND.replace("      load_case: heave\n", "")
    case = read(tmp_path, PARTS, ULTIMATE, text, rig_csv="a\n1\n", other_csv="b\n1\n")
    assert "ultimate" in uses(case)
