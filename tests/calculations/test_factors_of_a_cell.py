"""Factors that are missing, odd, or in the load already: no way to a better reserve factor by leaving out."""

import pytest
from sheet_check import check_sheet
from small_case import PARTS, ULTIMATE, read, texts, worked

from assurance.model.verdicts import ReasonKind, Verdict

PLAIN = """
calculations:
  sum:
    title: Bracket by hand
    method: reserve_factors
    inputs:
      applied: 100 MPa
      allowable: {material: alloy.ultimate}
      criterion: ultimate
      part: bracket
      load_case: heave
"""
TABLE = """
calculations:
  sum:
    title: From the table
    method: reserve_factors
    table: {file: stress.csv, unit: MPa, columns: {part: p, load_case: l}}
    criteria:
      - {criterion: ultimate, stress: s, allowable: {material: alloy.ultimate}}
      - {criterion: yield, stress: s, allowable: {material: alloy.proof}}
"""
STRESS = "p,l,s\nbracket,heave,100\nframe,heave,90\nframe,drop,-50\n"
RESERVE = "least_reserve_factor"


def by_hand(folder, factors, *, already="", text=PLAIN):
    parts = PARTS.replace("heave: {title: Heave,", f"heave: {{title: Heave, already_in: [{already}],")
    return worked(read(folder, parts, factors, text))


def remarks(found):
    return [remark.text for remark in found.remarks]


def factor(name, kind, value, criterion=""):
    narrowed = f", applies_to: {{criteria: [{criterion}]}}" if criterion else ""
    return f"  {name}: {{title: One, kind: {kind}, value: {value}{narrowed}}}\n"


@pytest.mark.parametrize("factors", ["", "factors:\n" + factor("fitting", "special", 1.5)])
def test_without_a_factor_of_safety_the_result_lies_outside_the_method(tmp_path, factors):
    found = by_hand(tmp_path, factors)
    (fault,) = found.faults
    assert (fault.kind, fault.verdict) == (ReasonKind.OUTSIDE_METHOD_LIMITS, Verdict.OPEN)
    assert fault.text == "No factor of safety applies to criterion `ultimate`: `bracket` in `heave`."
    assert found.results[RESERVE].value is not None


def test_a_factor_of_safety_of_one_says_that_none_is_asked_for(tmp_path):
    assert by_hand(tmp_path, "factors:\n" + factor("none", "safety", 1.0)).faults == ()


def test_a_table_names_the_criterion_that_no_factor_of_safety_applies_to(tmp_path):
    factors = "factors:\n" + factor("ultimate", "safety", 1.5, "ultimate")
    found = worked(read(tmp_path, PARTS, factors, TABLE, stress_csv=STRESS))
    assert texts(found) == ["no factor of safety applies to criterion `yield`."]
    assert found.faults[0].path[:2] == ("criteria", 1)


@pytest.mark.parametrize(("kind", "words"), [("safety", "factor of safety"), ("special", "special factor")])
def test_a_factor_that_should_raise_the_load_is_at_least_one(tmp_path, kind, words):
    factors = ULTIMATE if kind == "special" else "factors:\n"
    found = by_hand(tmp_path, factors + factor("low", kind, 0.5))
    assert texts(found) == [f"{words} `low` is `0.5`; it must be at least 1."]
    assert found.results[RESERVE].value is None


def test_a_further_factor_below_one_is_a_caution(tmp_path):
    found = by_hand(tmp_path, ULTIMATE + factor("shade", "multiply", 0.8))
    assert remarks(found) == ["Factor `shade` (`0.8`) is below 1: it makes the load smaller."]
    assert found.cells[0].needed == pytest.approx(1.2, rel=1e-12)  # closed form: 1.5 x 0.8


def test_a_factor_with_an_uncertainty_is_a_fault(tmp_path):
    found = by_hand(tmp_path, ULTIMATE.replace("1.5", "1.5 +/- 0.2"))
    assert "a factor is one number" in texts(found)[0]


@pytest.mark.parametrize("kind", ["multiply", "special"])
def test_a_factor_in_the_load_that_is_not_put_on_stays_in_it(tmp_path, kind):
    found = by_hand(tmp_path, ULTIMATE + factor("big", kind, 10, "nowhere"), already="big")
    (cell,) = found.cells
    assert (cell.already, cell.factors, cell.left_in) == ((), ("ultimate",), ("big",))
    # closed form: 500 / (100 x 1.5), as if nobody had said that the load holds it
    assert cell.reserve_factor == pytest.approx(500 / 150, rel=1e-11)
    assert remarks(found) == [
        "Factor `big` (`10`) is said to be in the applied value and is not put on: it stays in."
    ]
    assert "left there" in found.sheet.named()["left_in_1"].what
    check_sheet(found.sheet)


def test_a_factor_of_safety_in_the_load_makes_way_for_another_one(tmp_path):
    factors = ULTIMATE.replace("1.5}", "1.5, applies_to: {criteria: [ultimate]}}")
    factors += factor("proof", "safety", 1.15, "yield")
    found = by_hand(tmp_path, factors, already="ultimate", text=PLAIN.replace(": ultimate\n", ": yield\n"))
    # closed form: 100 MPa at ultimate load are 100 / 1.5 at limit load; then 1.15 for yield
    assert found.results[RESERVE].value == pytest.approx(500 / (100 / 1.5 * 1.15), rel=1e-11)
    assert (found.cells[0].already, found.cells[0].factors) == (("ultimate",), ("proof",))
    assert remarks(found)[0].startswith("Factor of safety `ultimate` (`1.5`) is taken out")


def test_a_factor_of_safety_that_another_criterion_puts_on_makes_way_without_a_word(tmp_path):
    factors = ULTIMATE.replace("1.5}", "1.5, applies_to: {criteria: [ultimate]}}")
    factors += factor("proof", "safety", 1.15, "yield")
    text = TABLE.replace("columns:", "already_in: [ultimate], columns:")
    found = worked(read(tmp_path, PARTS, factors, text, stress_csv=STRESS))
    assert (found.faults, [one for one in remarks(found) if "taken out" in one]) == ((), [])


def test_two_factors_of_safety_in_one_load_are_a_fault(tmp_path):
    factors = ULTIMATE.replace("1.5}", "1.5, applies_to: {criteria: [ultimate]}}")
    factors += factor("proof", "safety", 1.15, "yield")
    found = by_hand(tmp_path, factors, already="ultimate, proof")
    assert texts(found) == [
        "2 factors of safety are said to be in one value already: `ultimate` and `proof`."
    ]


def test_what_a_cell_lists_leads_to_its_reserve_factor_again(tmp_path):
    values = {"ultimate": 1.5, "cast": 1.25, "fit": 1.15, "model": 1.1, "gust": 1.3}
    factors = ULTIMATE + factor("cast", "special", 1.25) + factor("fit", "special", 1.15)
    factors += factor("model", "multiply", 1.1) + factor("gust", "multiply", 1.3, "nowhere")
    (cell,) = by_hand(tmp_path, factors, already="model, fit, gust").cells
    load = cell.applied
    for name in cell.already:
        load /= values[name]
    for name in cell.factors:
        load *= values[name]
    assert cell.reserve_factor == pytest.approx(cell.allowable / load, rel=1e-11)
    assert (cell.not_governing, cell.left_in) == (("fit",), ("gust",))


def test_a_part_in_a_load_case_that_nothing_can_govern_is_told(tmp_path):
    factors = "factors:\n" + factor("ultimate", "safety", 1.5)
    found = worked(read(tmp_path, PARTS, factors, TABLE, stress_csv=STRESS))
    assert remarks(found) == [
        "No criterion can govern here, since no applied value is above zero: `frame` in `drop`."
    ]


def test_where_nothing_is_governed_there_is_no_count_either(tmp_path):
    found = by_hand(tmp_path, ULTIMATE, text=PLAIN.replace("100 MPa", "-100 MPa"))
    assert all(one.value is None and one.undefined for one in found.results.values())
    assert found.faults == ()
