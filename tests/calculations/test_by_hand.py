"""Reserve factors by hand: factors, references and the basis that a part needs."""

import pytest
from sheet_check import check_sheet
from small_case import PARTS, ULTIMATE, read, texts, worked

from assurance.model.assessment import ResultValue
from assurance.model.steps import print_step
from assurance.model.verdicts import ReasonKind

PLAIN = """
calculations:
  sum:
    title: Bracket by hand
    method: reserve_factors
    inputs: {applied: 100 MPa, allowable: {material: alloy.ultimate}, part: bracket, load_case: heave}
"""


def with_inputs(inputs):
    return f"""
calculations:
  sum:
    title: By hand
    method: reserve_factors
    inputs: {inputs}
"""


def test_a_reserve_factor_by_hand_is_the_allowable_over_the_factored_load(tmp_path):
    found = worked(read(tmp_path, PARTS, ULTIMATE, PLAIN))
    # closed form: 500 / (100 x 1.5)
    assert found.results["least_reserve_factor"].value == pytest.approx(500 / 150, rel=1e-11)
    assert found.results["margin_of_safety"].value == pytest.approx(500 / 150 - 1, rel=1e-11)
    assert found.results["count_below_one"].value == 0
    assert found.results["least_reserve_factor"].factors == ("ultimate",)
    assert found.faults == ()
    check_sheet(found.sheet)


def test_by_hand_there_is_one_cell_without_a_row(tmp_path):
    (cell,) = worked(read(tmp_path, PARTS, ULTIMATE, PLAIN)).cells
    assert (cell.part, cell.load_case, cell.row, cell.needed) == ("bracket", "heave", 0, 1.5)
    assert cell.allowable_from == "alloy.ultimate"


def test_the_allowable_is_taken_in_the_unit_of_the_applied_value(tmp_path):
    inputs = "{applied: 100 MPa, allowable: {material: alloy.proof}, part: bracket}"
    found = worked(read(tmp_path, PARTS, ULTIMATE, with_inputs(inputs)))
    # closed form: 400 MPa / (100 MPa x 1.5)
    assert found.results["least_reserve_factor"].value == pytest.approx(400 / 150, rel=1e-11)


def test_of_two_special_factors_the_higher_is_put_on_and_the_other_listed_apart(tmp_path):
    special = """
    factors:
      ultimate: {title: Ultimate, kind: safety, value: 1.5}
      casting: {title: Casting, kind: special, value: 1.25}
      fitting: {title: Fitting, kind: special, value: 1.15}
    """
    (cell,) = worked(read(tmp_path, PARTS, special, PLAIN)).cells
    assert cell.needed == 1.875  # 14 CFR 25.619; the product would be 2.15625
    assert set(cell.factors) == {"ultimate", "casting"}
    assert cell.not_governing == ("fitting",)


def test_a_factor_is_narrowed_by_criterion_part_and_load_case(tmp_path):
    narrowed = """
    factors:
      ultimate: {title: Ultimate, kind: safety, value: 1.5, applies_to: {criteria: [ultimate]}}
      proof: {title: Yield, kind: safety, value: 1.1, applies_to: {criteria: [yield]}}
      here: {title: Here, kind: multiply, value: 1.2, applies_to: {parts: [bracket], load_cases: [heave]}}
      there: {title: There, kind: multiply, value: 9.0, applies_to: {parts: [frame]}}
      then: {title: Then, kind: multiply, value: 9.0, applies_to: {load_cases: [drop]}}
    """
    text = PLAIN.replace("applied:", "criterion: yield, applied:")
    (cell,) = worked(read(tmp_path, PARTS, narrowed, text)).cells
    assert cell.factors == ("here", "proof")
    assert cell.needed == pytest.approx(1.32, rel=1e-12)  # closed form: 1.1 x 1.2


def test_two_factors_of_safety_at_once_are_named(tmp_path):
    two = ULTIMATE + "  second: {title: Second, kind: safety, value: 2.0}\n"
    found = worked(read(tmp_path, PARTS, two, PLAIN))
    assert any("`second`" in text and "`ultimate`" in text for text in texts(found))
    assert found.results["least_reserve_factor"].value is None


def test_a_narrowed_factor_applies_where_the_criterion_is_not_named(tmp_path):
    narrowed = ULTIMATE.replace("value: 1.5", "value: 1.5, applies_to: {criteria: [ultimate]}")
    found = worked(read(tmp_path, PARTS, narrowed, PLAIN))
    assert found.cells[0].factors == ("ultimate",)


def test_what_is_already_in_the_load_case_is_divided_out_and_put_on_once(tmp_path):
    parts = PARTS.replace("heave: {title: Heave,", "heave: {title: Heave, already_in: [ultimate],")
    found = worked(read(tmp_path, parts, ULTIMATE, PLAIN))
    # closed form: 100 MPa hold 1.5 already, so 100 / 1.5 x 1.5
    assert found.results["least_reserve_factor"].value == pytest.approx(5.0, rel=1e-11)
    assert found.cells[0].already == ("ultimate",)
    check_sheet(found.sheet)


def test_factors_inside_a_result_are_divided_out_too(tmp_path):
    inputs = "{applied: {result: before.load}, allowable: {material: alloy.ultimate}, part: bracket}"
    before = """
    evidence:
      before: {title: Report, kind: analysis, results: {load: 100 MPa}}
    """
    case = read(tmp_path, PARTS, ULTIMATE, before, with_inputs(inputs))
    known = {"before.load": ResultValue(150.0, "MPa", factors=("ultimate",))}
    found = worked(case, results=known)
    assert found.results["least_reserve_factor"].value == pytest.approx(500 / 150, rel=1e-11)


def test_a_load_case_gives_its_limit_load(tmp_path):
    inputs = "{applied: {load_case: heave}, allowable: 30 kN, part: frame}"
    found = worked(read(tmp_path, PARTS, ULTIMATE, with_inputs(inputs)))
    assert found.cells[0].load_case == "heave"
    assert found.results["least_reserve_factor"].value == pytest.approx(30 / 18, rel=1e-11)


@pytest.mark.parametrize(
    ("part", "allowable", "enough"),
    [
        ("bracket", "ultimate", True),
        ("bracket", "ultimate_b", False),
        ("bracket", "minimum", False),
        ("bracket", "average", False),
        ("bracket", "bare", False),
        ("frame", "ultimate", True),
        ("frame", "ultimate_b", True),
        ("frame", "minimum", True),
        ("frame", "average", False),
        ("frame", "bare", False),
    ],
)
def test_a_single_load_path_needs_an_a_basis_and_a_redundant_one_b(tmp_path, part, allowable, enough):
    # 14 CFR 25.613: 99 % content for a single load path, 90 % for a redundant one
    inputs = f"{{applied: 100 MPa, allowable: {{material: alloy.{allowable}}}, part: {part}}}"
    found = worked(read(tmp_path, PARTS, ULTIMATE, with_inputs(inputs)))
    kinds = [fault.kind for fault in found.faults]
    assert kinds == ([] if enough else [ReasonKind.BASIS_TOO_WEAK])
    assert found.results["least_reserve_factor"].value is not None


def test_a_typed_allowable_has_no_basis(tmp_path):
    found = worked(
        read(tmp_path, PARTS, ULTIMATE, with_inputs("{applied: 1 kN, allowable: 3 kN, part: frame}"))
    )
    assert [fault.kind for fault in found.faults] == [ReasonKind.BASIS_TOO_WEAK]
    assert "no basis" in texts(found)[0]


@pytest.mark.parametrize(("result", "basis"), [("a", "A"), ("b", "B"), ("mean", "")])
def test_a_property_cannot_claim_a_basis_that_its_result_does_not_have(tmp_path, result, basis):
    stated = """
    materials:
      steel: {title: Steel, properties: {strength: {result: coupons.RESULT, basis: A}}}
    evidence:
      coupons: {title: Coupons, kind: test, results: {a: 1 MPa, b: 1 MPa, mean: 1 MPa}}
    """.replace("RESULT", result)
    inputs = "{applied: 1 MPa, allowable: {material: steel.strength}, part: bracket}"
    case = read(tmp_path, PARTS, stated, with_inputs(inputs))
    found = worked(case, results={f"coupons.{result}": ResultValue(3.0, "MPa", basis=basis)})
    weak = [fault for fault in found.faults if fault.kind is ReasonKind.BASIS_TOO_WEAK]
    assert bool(weak) == (basis != "A")


def test_compression_is_not_governed_and_is_no_fault(tmp_path):
    inputs = "{applied: -20 MPa, allowable: {material: alloy.ultimate}, part: bracket}"
    found = worked(read(tmp_path, PARTS, ULTIMATE, with_inputs(inputs)))
    assert found.faults == ()
    assert found.cells[0].reserve_factor is None
    assert all(one.value is None and one.undefined for one in found.results.values())
    assert found.results["least_reserve_factor"].why_not.startswith("not governed")


@pytest.mark.parametrize(
    ("inputs", "says"),
    [
        ("{applied: 1 MPa}", "needs the input `allowable`"),
        (
            "{applied: 1 MPa, allowable: 3 mm}",
            "in `mm`, which is length, and `applied` is in `MPa`, which is stress",
        ),
        ("{applied: 1 MPa, allowable: 0 MPa}", "must be above 0"),
        ("{applied: 1 MPa, allowable: 3 MPa, part: brackett}", "did you mean `bracket`?"),
        ("{applied: 1 MPa, allowable: 3 MPa, load_case: heavy}", "did you mean `heave`?"),
        ("{applied: 1 MPa, allowable: 3 MPa, load_cas: heave}", "did you mean `load_case`?"),
        ("{applied: soft, allowable: 3 MPa}", "`soft` is not a number"),
        ("{applied: {value: 1 MPa, load_case: heave}, allowable: 3 MPa}", "gives `value` and `load_case`"),
        ("{applied: {load_case: drop}, allowable: 3 kN}", "states neither a `value`"),
    ],
)
def test_what_cannot_be_bound_is_said_with_its_field(tmp_path, inputs, says):
    found = worked(read(tmp_path, PARTS, ULTIMATE, with_inputs(inputs)))
    assert any(says in text for text in texts(found)), texts(found)
    assert all(one.value is None and one.why_not for one in found.results.values())
    assert all(fault.path[0] == "inputs" and fault.remedy for fault in found.faults)


def test_an_unknown_method_is_named_with_the_nearest(tmp_path):
    found = worked(read(tmp_path, PARTS, PLAIN.replace("reserve_factors", "reserve_factor")))
    assert "did you mean `reserve_factors`?" in texts(found)[0]
    assert found.faults[0].path == ("method",)


def test_a_value_that_is_missing_further_up_is_no_fault_of_its_own(tmp_path):
    inputs = "{applied: {result: before.load}, allowable: {material: alloy.ultimate}, part: bracket}"
    before = "evidence: {before: {title: Report, kind: analysis, results: {load: 1 MPa}}}"
    case = read(tmp_path, PARTS, before, with_inputs(inputs))
    found = worked(case, results={"before.load": ResultValue(None, "MPa", why_not="2 values are too few")})
    assert found.faults == ()
    assert "2 values are too few" in found.results["least_reserve_factor"].why_not


def test_a_result_of_a_record_that_cannot_be_read_is_no_fault_of_its_own(tmp_path):
    inputs = "{applied: {result: broken.load}, allowable: {material: alloy.ultimate}, part: bracket}"
    broken = "evidence: {broken: {title: Report, kind: analysis, resultz: {load: 1 MPa}}}"
    case = read(tmp_path, PARTS, broken, with_inputs(inputs))
    found = worked(case, results={})
    assert found.faults == ()
    assert found.results["least_reserve_factor"].why_not == "`broken.load` has no value"


def test_a_result_that_no_method_gives_is_named_with_the_nearest(tmp_path):
    inputs = "{applied: {result: report.lode}, allowable: {material: alloy.ultimate}, part: bracket}"
    report = "evidence: {report: {title: Report, kind: analysis, results: {load: 1 MPa}}}"
    found = worked(read(tmp_path, PARTS, report, with_inputs(inputs)))
    assert "did you mean" in found.faults[0].remedy
    assert found.faults[0].path == ("inputs", "applied", "result")


@pytest.mark.parametrize("word", ["yeild", "Yield", "yields", "y ield"])
def test_a_factor_that_a_slip_of_the_pen_keeps_off_is_a_fault(tmp_path, word):
    narrowed = ULTIMATE.replace("value: 1.5", f"value: 1.5, applies_to: {{criteria: [{word}]}}")
    text = PLAIN.replace("applied:", "criterion: yield, applied:")
    found = worked(read(tmp_path, PARTS, narrowed, text))
    (fault,) = found.faults
    assert (
        fault.text
        == f"Factor `ultimate` applies to `{word}`, which no calculation names; did you mean `yield`?"
    )
    assert fault.path == ("inputs", "criterion")
    assert found.results["least_reserve_factor"].value is None


def test_a_factor_for_another_criterion_of_the_case_is_no_slip(tmp_path):
    narrowed = ULTIMATE.replace("value: 1.5", "value: 1.5, applies_to: {criteria: [yields]}")
    text = PLAIN.replace("applied:", "criterion: yield, applied:")
    other = text.replace("sum:", "other:").replace("criterion: yield,", "criterion: yields,")
    found = worked(read(tmp_path, PARTS, narrowed, text, other))
    assert [fault.kind for fault in found.faults] == [ReasonKind.OUTSIDE_METHOD_LIMITS]  # none applies
    assert found.cells[0].factors == ()


@pytest.mark.parametrize("word", ["buckling", "ultimate", "bolt shear"])
def test_a_factor_for_something_else_is_no_slip(tmp_path, word):
    narrowed = ULTIMATE.replace("value: 1.5", f"value: 1.5, applies_to: {{criteria: [{word}]}}")
    text = PLAIN.replace("applied:", "criterion: bond shear, applied:")
    (fault,) = worked(read(tmp_path, PARTS, narrowed, text)).faults
    assert fault.text.startswith("No factor of safety applies")


def test_a_factor_inside_that_belongs_to_another_criterion_is_taken_out_and_not_put_on(tmp_path):
    parts = PARTS.replace("heave: {title: Heave,", "heave: {title: Heave, already_in: [proof],")
    factors = """
    factors:
      ultimate: {title: Ultimate, kind: safety, value: 1.5, applies_to: {criteria: [ultimate]}}
      proof: {title: Yield, kind: safety, value: 1.25, applies_to: {criteria: [yield]}}
    """
    text = PLAIN.replace("applied:", "criterion: ultimate, applied:")
    found = worked(read(tmp_path, parts, factors, text))
    assert (found.cells[0].already, found.cells[0].factors) == (("proof",), ("ultimate",))
    # closed form: 500 / (100 / 1.25 x 1.5)
    assert found.results["least_reserve_factor"].value == pytest.approx(500 / 120, rel=1e-11)
    check_sheet(found.sheet)


def test_a_part_without_a_load_path_counts_as_a_single_one(tmp_path):
    text = PLAIN.replace("alloy.ultimate", "alloy.ultimate_b")
    found = worked(read(tmp_path, PARTS, ULTIMATE, text))
    assert texts(found) == [
        "`alloy.ultimate_b` has basis `B`; a single load path (`bracket`) needs A (14 CFR 25.613)."
    ]
    assert found.results["least_reserve_factor"].value is not None


def test_an_allowable_in_another_unit_is_turned_over_in_a_step_of_its_own(tmp_path):
    inputs = "{applied: 14.5 ksi, allowable: {material: alloy.proof}, part: bracket}"
    found = worked(read(tmp_path, PARTS, ULTIMATE, with_inputs(inputs)))
    named = found.sheet.named()
    # 1 ksi = 6.894757 MPa (NIST SP 811, appendix B.8), so 0.4 GPa are 58.0151 ksi
    assert (named["allowable"].unit, named["allowable"].value) == ("ksi", pytest.approx(58.0151, rel=1e-6))
    assert (named["allowable_written"].value, named["allowable_written"].unit) == (0.4, "GPa")
    assert named["allowable_written"].record == "alloy.proof"
    assert named["conversion"].what == "ksi in one GPa"
    assert found.results["least_reserve_factor"].value == pytest.approx(58.0151 / 14.5 / 1.5, rel=1e-6)
    check_sheet(found.sheet)


def test_a_ratio_of_units_that_is_whole_is_printed_whole(tmp_path):
    inputs = "{applied: 100 MPa, allowable: {material: alloy.proof}, part: bracket}"
    sheet = worked(read(tmp_path, PARTS, ULTIMATE, with_inputs(inputs))).sheet
    named = sheet.named()
    assert print_step(named["allowable"], named).inputs == {
        "allowable_written": "0.4000",
        "conversion": "1,000",
    }
    check_sheet(sheet)


def test_an_allowable_in_the_same_unit_has_no_step_of_its_own(tmp_path):
    found = worked(read(tmp_path, PARTS, ULTIMATE, PLAIN))
    assert "conversion" not in found.sheet.named()
