"""Calculations that a method works out from columns of data files and single numbers."""

import pytest
from sheet_check import check_sheet
from small_case import read, texts, worked

from assurance.methods.published import examples
from assurance.model.assessment import ResultValue

EIGHTEEN = examples("allowables")[0].inputs["values"]
COUPONS = "bar,batch,strength\n" + "".join(
    f"b{at},{('two', 'one', 'four', 'one')[at % 4]},{value}\n" for at, value in enumerate(EIGHTEEN)
)
ALLOWABLES = """
calculations:
  sum:
    title: Strength of the bars
    method: allowables
    inputs:
      values: {file: coupons.csv, column: strength, unit: ksi}
"""
VALUES = "values: {file: coupons.csv, column: strength, unit: ksi}"
BATCH = "batch: {file: coupons.csv, column: batch}"
AGREEMENT = """
calculations:
  sum:
    title: Stiffness of the blade
    method: agreement
    inputs:
      displacement: {file: rig.csv, column: travel, unit: mm}
      load: {file: rig.csv, column: force, unit: kN}
      from: 0.05 cm
      to: 4 mm
      predicted: 200 N/mm
"""
RIG = "travel,force\n" + "".join(
    f"{at / 4},{0.2 * at / 4 + (0.002 if at % 2 else -0.002)}\n" for at in range(21)
)


def allowables(folder, change=("", ""), data=COUPONS):
    return worked(read(folder, ALLOWABLES.replace(*change), coupons_csv=data))


def agreement(folder, change=("", ""), data=RIG):
    return worked(read(folder, AGREEMENT.replace(*change), rig_csv=data))


def test_basis_values_come_from_a_column_with_unit_and_basis(tmp_path):
    found = allowables(tmp_path)
    # results of a reference program, with a tolerance factor of three decimals
    assert found.results["b_basis"].value == pytest.approx(129.287, rel=5e-4)
    assert (found.results["b_basis"].unit, found.results["b_basis"].basis) == ("ksi", "B")
    assert found.results["a_basis"].basis == "A"
    assert found.results["mean"].basis == ""
    assert found.files == ("claims/coupons.csv",)
    check_sheet(found.sheet)
    assert found.sheet.columns[0].file == "claims/coupons.csv"


def batched(folder, batch=BATCH, *, data=COUPONS, values=VALUES, **files):
    """The bars with the column of their batches."""
    text = ALLOWABLES.replace(VALUES, f"{values}\n      {batch}")
    return worked(read(folder, text, coupons_csv=data, **files))


def test_batches_are_counted_from_a_column_of_words(tmp_path):
    found = batched(tmp_path)
    assert (found.faults, found.remarks) == ((), ())
    assert found.sheet.named()["batches"].value == 3.0
    assert [column.file for column in found.sheet.columns] == ["claims/coupons.csv"] * 2
    assert found.files == ("claims/coupons.csv",)
    assert found.results == allowables(tmp_path).results
    check_sheet(found.sheet)


def test_batches_that_are_not_named_are_a_caution_and_every_result_stands(tmp_path):
    found = allowables(tmp_path)
    assert [remark.text for remark in found.remarks] == ["Nothing says which batch each value comes from."]
    assert found.faults == ()
    assert all(one.value is not None for one in found.results.values())


def test_batches_are_counted_over_the_rows_that_the_values_are_of(tmp_path):
    where = ", where: {batch: one}}"
    found = batched(tmp_path, BATCH.replace("}", where), values=VALUES.replace("}", where))
    assert found.faults == ()
    assert found.sheet.named()["batches"].value == 1.0
    assert "The A- and B-basis rest on 1 batch, fewer than 3." in [remark.text for remark in found.remarks]


def test_spaces_around_a_word_make_no_other_batch(tmp_path):
    found = batched(tmp_path, data=COUPONS.replace(",four,", ", one ,"))
    assert found.sheet.named()["batches"].value == 2.0


@pytest.mark.parametrize(
    ("change", "data", "says", "at"),
    [
        (("column: batch", "column: bach"), COUPONS, "no column `bach`; did you mean `batch`?", "file"),
        (("coupons.csv", "nowhere.csv"), COUPONS, "file `nowhere.csv`", "file"),
        (("coupons.csv", "other.csv"), COUPONS,
         "`batch` is read from `claims/other.csv`, `values` from `claims/coupons.csv`", "file"),
        (("batch}", "batch, where: {batch: one}}"), COUPONS,
         "`batch` is of other rows than `values`: where `batch` is `one`, not all rows", ""),
        (("batch}", "batch, unit: MPa}"), COUPONS, "column of words; it has the unit `MPa`", "unit"),
        (("{file: coupons.csv, column: batch}", "batch"), COUPONS, "`batch` is not a column", ""),
        (("{file: coupons.csv, column: batch}", "{file: coupons.csv}"), COUPONS, "is not a column", ""),
        (("", ""), COUPONS.replace("b1,one,", "b1, ,"), "row 3, column `batch`: the cell is empty", "file"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_the_batches_is_said_at_its_field(tmp_path, change, data, says, at):
    found = batched(tmp_path, BATCH.replace(*change), data=data, other_csv=COUPONS)
    own = [fault for fault in found.faults if fault.path[:2] == ("inputs", "batch")]
    assert any(says in text for text in texts(found)), texts(found)
    assert [fault.path[2:] for fault in own] == [(at,) if at else ()]
    assert all(one.value is None and one.why_not for one in found.results.values())


@pytest.mark.parametrize("data", [b"\xff\xfe", ""])
def test_what_is_wrong_with_a_file_that_two_inputs_name_is_told_once(tmp_path, data):
    (fault,) = batched(tmp_path, data=data).faults
    assert fault.path == ("inputs", "values", "file")


def test_batches_in_a_parquet_file_are_words_too(tmp_path):
    import polars

    frame = polars.DataFrame({"strength": EIGHTEEN, "batch": [1, 2, 3] * 6})
    (tmp_path / "claims").mkdir()
    frame.write_parquet(tmp_path / "claims" / "bars.parquet")
    text = ALLOWABLES.replace(VALUES, f"{VALUES}\n      {BATCH}").replace("coupons.csv", "bars.parquet")
    assert worked(read(tmp_path, text)).sheet.named()["batches"].value == 3.0


def test_only_rows_with_the_stated_word_are_taken(tmp_path):
    found = allowables(tmp_path, ("unit: ksi", "unit: ksi, where: {batch: one}"))
    assert found.results["count"].value == 9
    assert any(remark.outside for remark in found.remarks)


def test_two_values_give_one_fault_that_names_what_is_missing(tmp_path):
    found = allowables(tmp_path, data="strength\n500\n510\n")
    (fault,) = found.faults
    assert fault.text == (
        "The B-basis value and the A-basis value of `sum` cannot be worked out (nor 3 more results): "
        "2 values are too few, at least 3 are needed."
    )
    assert fault.remedy == "Test at least 8 more: the method asks for at least 10 values."
    assert "mean" not in fault.results
    assert found.results["mean"].value == 505.0


def test_where_nothing_can_be_worked_out_the_fault_says_so_of_the_calculation(tmp_path):
    data = COUPONS.replace("b1,one,", "b1,,")
    (fault,) = batched(tmp_path, BATCH.replace("column: batch", "column: batch")).faults or (None,)
    assert fault is None
    (fault,) = batched(tmp_path, data=data).faults
    assert fault.text.startswith("`claims/coupons.csv`: row 3, column `batch`")


def test_one_result_that_is_not_defined_is_named_in_words(tmp_path):
    below = COUPONS.replace(",1", ",-1")
    (fault,) = allowables(tmp_path, data=below).faults
    assert fault.text.startswith("The standard deviation over mean of `sum` cannot be worked out: the mean")
    assert fault.results == ("coefficient_of_variation",)


def test_counts_are_whole_numbers(tmp_path):
    results = allowables(tmp_path).results
    assert [name for name, one in results.items() if one.whole] == ["count"]


def test_a_solved_number_has_nine_digits_and_an_exact_one_twelve(tmp_path):
    results = allowables(tmp_path).results
    assert results["b_basis"].value == float(f"{results['b_basis'].value:.9g}")
    assert results["mean"].value == 141.917883333


def test_a_stiffness_keeps_the_unit_of_the_prediction_and_its_interval(tmp_path):
    found = agreement(tmp_path)
    stiffness = found.results["stiffness"]
    # the data were made with 200 N/mm and a scatter of 2 N
    assert stiffness.unit == "N/mm"
    assert stiffness.lower < 200.0 < stiffness.upper
    assert found.results["rows_used"].value == 15  # 0.5 to 4 mm, ends included
    assert found.results["residual_standard_deviation"].unit == "kN"
    check_sheet(found.sheet)


def test_a_given_number_points_at_the_record_it_comes_from(tmp_path):
    model = "evidence: {model: {title: Model, kind: analysis, results: {stiffness: 0.2 kN/mm}}}"
    text = AGREEMENT.replace("200 N/mm", "{result: model.stiffness}")
    found = worked(read(tmp_path, text, model, rig_csv=RIG))
    assert {given.name: given.record for given in found.sheet.givens}["predicted"] == "model.stiffness"
    assert found.results["ratio"].value == pytest.approx(1.0, abs=0.01)


@pytest.mark.parametrize(
    ("change", "data", "says"),
    [
        (("column: strength", "column: strenght"), COUPONS, "did you mean `strength`?"),
        ((", unit: ksi", ""), COUPONS, "has no unit"),
        (("unit: ksi", "unit: ksy"), COUPONS, "did you mean `ksi`?"),
        (("file: coupons.csv, column: strength, unit: ksi", "value: 5 ksi"), COUPONS, "not a column"),
        (("unit: ksi", "unit: ksi, where: {batch: three}"), COUPONS, "no row where `batch` is `three`"),
        (("", ""), COUPONS.replace("150.89", "15O.89"), "row 4, column `strength`: `15O.89`"),
        (("", ""), "strength\n1\n2,3\n", "row 3 has 2 cells"),
        (("", ""), "strength\n", "no rows below the heading"),
        (("", ""), "", "no heading"),
        (("", ""), b"\xff\xfe", "not UTF-8"),
        (("method: allowables", "method: allowables\n    parts: []\n    criteria: [{criterion: x, stress: y, "
          "allowable: 1 MPa}]"), COUPONS, "takes no `criteria`"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_column_is_said(tmp_path, change, data, says):
    found = allowables(tmp_path, change, data)
    assert any(says in text for text in texts(found)), texts(found)
    assert all(one.value is None and one.why_not for one in found.results.values())


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("predicted: 200 N/mm", "predicted: 200 mm"), "which is length; stiffness is needed"),
        (("column: force, unit: kN", "column: force, unit: s"), "which is time; force is needed"),
        (("from: 0.05 cm", "from: 2 kN"), "which is force; length is needed"),
        (("predicted: 200 N/mm", "predicted: -200 N/mm"), "must be above 0"),
        (("to: 4 mm", "to: 0.1 mm"), "cannot be worked out"),
    ],
)
def test_a_wrong_dimension_or_range_is_said(tmp_path, change, says):
    found = agreement(tmp_path, change)
    assert any(says in text for text in texts(found)), texts(found)
    assert found.results["ratio"].value is None


def test_a_missing_file_is_said_at_its_field(tmp_path):
    found = worked(read(tmp_path, ALLOWABLES))
    assert found.faults[0].path == ("inputs", "values", "file")


def test_factors_inside_an_input_are_inside_the_results(tmp_path):
    text = AGREEMENT.replace("200 N/mm", "{result: model.stiffness}")
    model = "evidence: {model: {title: Model, kind: analysis, results: {stiffness: 200 N/mm}}}"
    known = {"model.stiffness": ResultValue(200.0, "N/mm", factors=("model-factor",))}
    found = worked(read(tmp_path, text, model, rig_csv=RIG), results=known)
    assert found.results["ratio"].factors == ("model-factor",)
