"""What a record may not state in passing: parts and load cases, two values, a basis, rows left out, files."""

import pytest
from small_case import PARTS, ULTIMATE, read, texts, worked

from assurance.model.verdicts import ReasonKind, Verdict
from assurance.reading import read_case

PLAIN = """
calculations:
  sum:
    title: Bracket by hand
    method: reserve_factors
    inputs: {applied: 100 MPa, allowable: {material: alloy.ultimate}, part: bracket, load_case: heave}
"""
COUPONS = "strength,batch,keep\n" + "".join(
    f"{500 + at * 7 % 11},b{at % 3},{'no' if at < 3 else 'yes'}\n" for at in range(20)
)
ALLOWABLES = """
calculations:
  sum:
    title: Bars
    method: allowables
    inputs:
      values: {file: bars.csv, column: strength, unit: MPa}
      batch: {file: bars.csv, column: batch}
"""
TABLE = """
calculations:
  sum:
    title: Table
    method: reserve_factors
    table:
      file: stress.csv
      unit: MPa
      columns: {part: p, load_case: l, sxx: x, syy: y, sxy: xy}
    criteria: [{criterion: yield, stress: max_principal, allowable: {material: alloy.ultimate}}]
"""


def remarks(found):
    return [remark.text for remark in found.remarks]


@pytest.mark.parametrize(
    ("more", "says", "at"),
    [
        ("load_cases: [heave, drop]", "`load_cases` names `heave` and `drop`, and the inputs", "load_cases"),
        ("load_cases: [drop]", "`load_cases` names `drop`, and the inputs name `heave`", "load_cases"),
        ("parts: [frame]", "`parts` names `frame`, and the inputs name `bracket`", "parts"),
    ],
)
def test_by_hand_the_record_names_the_part_and_load_case_of_its_inputs(tmp_path, more, says, at):
    found = worked(read(tmp_path, PARTS, ULTIMATE, PLAIN + f"    {more}\n"))
    assert says in texts(found)[0]
    assert found.faults[0].path == (at,)
    assert found.cells == ()


def test_the_same_name_at_both_places_is_no_fault(tmp_path):
    found = worked(read(tmp_path, PARTS, ULTIMATE, PLAIN + "    load_cases: [heave]\n    parts: [bracket]\n"))
    assert (found.faults, found.load_cases, found.parts) == ((), ("heave",), ("bracket",))


def test_the_inputs_name_one_load_case(tmp_path):
    text = PLAIN.replace("applied: 100 MPa", "applied: {load_case: drop}")
    found = worked(read(tmp_path, PARTS.replace("Drop}", "Drop, value: 1 MPa}"), ULTIMATE, text))
    assert "the inputs name 2 load cases: `heave` and `drop`." in texts(found)


def test_one_stress_for_several_load_cases_is_one_cell_and_argues_none(tmp_path):
    text = PLAIN.replace(", load_case: heave", "") + "    load_cases: [heave, drop]\n"
    found = worked(read(tmp_path, PARTS, ULTIMATE, text))
    assert [cell.load_case for cell in found.cells] == [""]
    assert found.load_cases == ()
    (told,) = remarks(found)
    assert told.endswith("one value is of one load case: it counts for none of them.")


def test_a_load_case_named_beside_the_inputs_is_the_one_meant(tmp_path):
    text = PLAIN.replace(", load_case: heave", "") + "    load_cases: [heave]\n"
    assert worked(read(tmp_path, PARTS, ULTIMATE, text)).load_cases == ("heave",)


def test_a_method_without_load_cases_argues_none(tmp_path):
    text = ALLOWABLES + "    load_cases: [heave]\n"
    found = worked(read(tmp_path, PARTS, text, bars_csv=COUPONS))
    assert texts(found) == ["method `allowables` has no load case, and `load_cases` names 1."]
    assert found.faults[0].path == ("load_cases",)


def test_what_cannot_be_worked_out_still_speaks_of_its_part_and_load_case(tmp_path):
    found = worked(read(tmp_path, PARTS, ULTIMATE, PLAIN.replace("100 MPa", "100 mm")))
    assert (found.parts, found.load_cases) == (("bracket",), ("heave",))


def property_of(folder, stated):
    steel = f"materials: {{steel: {{title: Steel, properties: {{strength: {{{stated}}}}}}}}}"
    more = "evidence: {report: {title: Report, kind: analysis, results: {strength: 500 MPa}}}"
    text = PLAIN.replace("alloy.ultimate", "steel.strength")
    return worked(read(folder, PARTS, ULTIMATE, steel, more, text))


def test_a_property_with_two_values_has_none(tmp_path):
    found = property_of(tmp_path, "value: 900 MPa, result: report.strength, basis: A, origin: report")
    assert "states a `value` and the `result`" in texts(found)[0]
    assert found.faults[0].path == ("inputs", "allowable", "material")
    assert found.results["least_reserve_factor"].value is None


@pytest.mark.parametrize("ground", ["", ", origin: report", ", source: Handbook"])
def test_a_typed_basis_needs_an_origin_or_a_source(tmp_path, ground):
    found = property_of(tmp_path, f"value: 900 MPa, basis: A{ground}")
    assert texts(found) == (
        [] if ground else ["`steel.strength` states basis `A` and not what that rests on."]
    )
    assert all(fault.kind is ReasonKind.BASIS_TOO_WEAK for fault in found.faults)


def test_a_load_case_with_two_values_has_none(tmp_path):
    parts = PARTS.replace("drop: {title: Drop}", "drop: {title: Drop, value: 1 kN, result: report.load}")
    more = "evidence: {report: {title: Report, kind: analysis, results: {load: 5 kN}}}"
    text = PLAIN.replace("100 MPa", "{load_case: drop}").replace(", load_case: heave", "")
    assert "load case `drop` states a `value` and" in texts(worked(read(tmp_path, parts, more, text)))[0]


@pytest.mark.parametrize("suffix", ["csv", "parquet"])
def test_rows_that_a_word_leaves_out_are_told(tmp_path, suffix):
    text = ALLOWABLES.replace("unit: MPa}", 'unit: MPa, where: {keep: "yes"}}').replace(
        "bars.csv", f"bars.{suffix}"
    )
    text = text.replace("column: batch}", 'column: batch, where: {keep: "yes"}}')
    found = worked(read(tmp_path, text, **{f"bars_{suffix}": COUPONS if suffix == "csv" else parquet()}))
    assert [column.left_out for column in found.sheet.columns] == [
        "3 of 20 rows left out by `keep` is `yes`"
    ] * 2
    assert "every row of its file: 3 of 20 rows left out by `keep` is `yes`." in remarks(found)[-1]
    assert not found.remarks[-1].outside


def parquet():
    import io

    import polars

    out = io.BytesIO()
    polars.read_csv(COUPONS.encode()).write_parquet(out)
    return out.getvalue()


def test_where_no_row_is_left_out_nothing_is_told(tmp_path):
    found = worked(read(tmp_path, ALLOWABLES, bars_csv=COUPONS))
    assert [column.left_out for column in found.sheet.columns] == ["", ""]
    assert found.remarks == ()


def test_a_data_file_that_no_evidence_lists_is_provisional(tmp_path):
    read(tmp_path, ALLOWABLES, bars_csv=COUPONS)
    (tmp_path / "claims" / "listed.yml").unlink()
    found = worked(read_case(tmp_path))
    (fault,) = found.faults
    assert (fault.kind, fault.verdict) == (ReasonKind.FILE_WITHOUT_DIGEST, Verdict.PROVISIONAL)
    assert fault.path == ("inputs", "values", "file")
    assert "sha256: " in fault.remedy
    assert found.results["a_basis"].value is not None


def test_a_file_is_not_missed_while_the_evidence_that_may_list_it_cannot_be_read(tmp_path):
    read(tmp_path, TABLE, PARTS, ULTIMATE, stress_csv="p,l,x,y,xy\nbracket,heave,1,2,3\n")
    (tmp_path / "claims" / "listed.yml").write_text("evidence: {broken: {titel: Data}}")
    assert worked(read_case(tmp_path), results={}).faults == ()


def from_table(folder, *, heading="p,l,x,y,xy,z", row="bracket,heave,10,0,900,5"):
    return worked(read(folder, TABLE, PARTS, ULTIMATE, stress_csv=f"{heading}\n{row}\n"))


def test_a_stress_taken_as_zero_is_told_where_an_unnamed_column_may_hold_it(tmp_path):
    found = from_table(tmp_path)
    assert remarks(found) == [
        "The stresses `szz`, `syz` and `szx` are taken as zero, and the table has columns of numbers that "
        "nothing names: `z`."
    ]
    assert "szz, syz and szx have no column" in found.sheet.named()["applied"].what


def test_words_and_named_columns_hold_no_stress(tmp_path):
    found = from_table(tmp_path, heading="p,l,x,y,xy,note", row="bracket,heave,10,0,900,weld")
    assert found.remarks == ()
