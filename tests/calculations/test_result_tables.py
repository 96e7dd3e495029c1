"""Reserve factors from result tables: the worst row of each cell, and what a table can have wrong."""

import csv
import io
import random
from pathlib import Path

import polars
import pytest
from sheet_check import check_sheet
from small_case import PARTS, ULTIMATE, read, texts, worked

from assurance.calculations import tables
from assurance.calculations.bound import BoundNumber
from assurance.calculations.cells import Bar
from assurance.calculations.envelope import Plan, envelope
from assurance.methods import stress
from assurance.model.verdicts import ReasonKind

HEADING = ["component", "case", "element", "sx", "sy", "txy"]
CALCULATION = """
calculations:
  sum:
    title: From the table
    method: reserve_factors
    table:
      file: stress.csv
      unit: MPa
      columns: {part: component, load_case: case, row: element, sxx: sx, syy: sy, sxy: txy}
      parts: {BRK: bracket, FRM: frame}
      load_cases: {LC1: heave, LC2: drop}
    criteria:
      - {criterion: ultimate, stress: von_mises, allowable: {material: alloy.ultimate}}
      - {criterion: tension, stress: max_principal, allowable: {material: alloy.proof}, parts: [bracket]}
"""
SMALL = """
component,case,element,sx,sy,txy
BRK,LC1,e1,100,0,0
BRK,LC1,e2,200,0,0
BRK,LC1,e3,400,0,0
BRK,LC2,e4,-300,0,0
FRM,LC1,e5,0,0,100
FRM,LC1,e6,0,0,100
"""


def rows(count, seed=3):
    rng = random.Random(seed)
    for at in range(count):
        part, load_case = rng.choice(["BRK", "FRM"]), rng.choice(["LC1", "LC2"])
        yield [part, load_case, f"e{at}", *(round(rng.uniform(-300, 300), 2) for _ in range(3))]


def as_csv(table):
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([HEADING, *table])
    return text.getvalue()


def from_table(folder, text=SMALL, *, calculation=CALCULATION, more=ULTIMATE):
    return worked(read(folder, PARTS, more, calculation, stress_csv=text))


def by_cell(found):
    return {(cell.part, cell.load_case, cell.criterion): cell for cell in found.cells}


def test_each_cell_has_its_worst_row(tmp_path):
    cells = by_cell(from_table(tmp_path))
    worst = cells["bracket", "heave", "ultimate"]
    # closed form: 500 / (400 x 1.5); the heading is line 1, so the third row is line 4
    assert worst.reserve_factor == pytest.approx(500 / 600, rel=1e-11)
    assert (worst.row, worst.row_name, worst.applied) == (4, "e3", 400.0)
    assert worst.below_one == 1


def test_of_equal_rows_the_first_is_named(tmp_path):
    assert by_cell(from_table(tmp_path))["frame", "heave", "ultimate"].row == 6


def test_a_row_in_compression_is_not_governed_by_the_largest_principal(tmp_path):
    cells = by_cell(from_table(tmp_path))
    assert cells["bracket", "drop", "tension"].reserve_factor is None
    assert cells["bracket", "drop", "ultimate"].reserve_factor == pytest.approx(500 / 450, rel=1e-11)


def test_a_cell_without_a_row_is_listed_as_empty(tmp_path):
    found = from_table(tmp_path)
    assert found.empty_cells == (("frame", "drop", "ultimate"),)
    assert (found.parts, found.load_cases) == (("bracket", "frame"), ("drop", "heave"))


def test_the_results_are_those_of_the_least_cell(tmp_path):
    found = from_table(tmp_path)
    least = found.results["least_reserve_factor"].value
    assert least == min(cell.reserve_factor for cell in found.cells if cell.reserve_factor is not None)
    assert found.results["count_below_one"].value == 2.0  # 400 MPa by both criteria
    check_sheet(found.sheet)
    assert any("claims/stress.csv, row 4" in given.what for given in found.sheet.givens)


def test_narrowing_leaves_out_other_rows(tmp_path):
    narrowed = CALCULATION + "    parts: [frame]\n    load_cases: [heave, drop]\n"
    found = from_table(tmp_path, calculation=narrowed)
    assert set(by_cell(found)) == {("frame", "heave", "ultimate")}


def test_factors_in_the_table_and_in_the_load_case_are_divided_out_once(tmp_path):
    factors = ULTIMATE + "  model: {title: Model, kind: multiply, value: 1.2}\n"
    parts = PARTS.replace("heave: {title: Heave,", "heave: {title: Heave, already_in: [ultimate, model],")
    text = CALCULATION.replace("unit: MPa", "unit: MPa\n      already_in: [model]")
    found = worked(read(tmp_path, parts, factors, text, stress_csv=SMALL))
    heave, drop = (by_cell(found)["bracket", one, "ultimate"] for one in ("heave", "drop"))
    assert set(heave.already) == {"ultimate", "model"}
    assert drop.already == ("model",)
    # closed form: all that is put on was inside in heave; in drop the ultimate factor was not
    assert heave.reserve_factor == pytest.approx(500 / 400, rel=1e-11)
    assert drop.reserve_factor == pytest.approx(500 / (300 * 1.5), rel=1e-11)
    check_sheet(found.sheet)


def test_csv_and_parquet_give_the_same_cells(tmp_path):
    table = list(rows(400))
    case = read(
        tmp_path, PARTS, ULTIMATE, CALCULATION,
        CALCULATION.replace("sum:", "other:").replace("stress.csv", "stress.parquet"),
        stress_csv=as_csv(table), stress_parquet=parquet(table),
    )  # fmt: skip
    one, other = worked(case, "sum"), worked(case, "other")
    assert one.results == other.results
    for mine, theirs in zip(one.cells, other.cells, strict=True):
        assert (mine.reserve_factor, mine.row, mine.below_one) == (
            theirs.reserve_factor,
            theirs.row,
            theirs.below_one,
        )


def parquet(table):
    out = io.BytesIO()
    polars.DataFrame(table, schema=HEADING, orient="row").write_parquet(out)
    return out.getvalue()


def plan():
    columns = {
        "part": "component",
        "load_case": "case",
        "row": "element",
        "sxx": "sx",
        "syy": "sy",
        "sxy": "txy",
    }
    bars = (Bar("ultimate", "von_mises", BoundNumber(500.0, "MPa"), ()),)
    mapped = ({"BRK": "bracket", "FRM": "frame"}, {"LC1": "heave", "LC2": "drop"})
    return Plan(columns, bars, *mapped, ("bracket", "frame"), ("heave", "drop"))


def slow_envelope(table):
    """The worst row and the count below 1 of each cell, row by row."""
    found, names = {}, {**plan().parts, **plan().load_cases}
    for line, (part, load_case, _, sx, sy, txy) in enumerate(table, 2):
        applied = stress.von_mises(sx, sy, 0.0, txy, 0.0, 0.0)
        place = (0, names[part], names[load_case])
        worst, row, below = found.get(place, (-1.0, 0, 0))
        below += 500.0 / (applied * 1.5) < 1.0
        found[place] = (applied, line, below) if applied > worst else (worst, row, below)
    return found


@pytest.mark.parametrize("piece_bytes", [40, 500, 10_000_000])
def test_a_table_in_pieces_gives_what_row_by_row_gives(tmp_path, piece_bytes):
    table = list(rows(600))
    path = tmp_path / "stress.csv"
    path.write_text(as_csv(table))
    found = envelope(path, plan(), lambda *_: (1.0, 1.5), piece_bytes=piece_bytes)
    slow = slow_envelope(table)
    assert found.keys() == slow.keys()
    for place, worst in found.items():
        assert (worst.row, worst.below_one) == slow[place][1:]
        assert worst.applied == pytest.approx(slow[place][0], rel=1e-12)


@pytest.mark.parametrize("made_odd", [lambda text: "\ufeff" + text, lambda text: text.replace("\n", "\r\n")])
def test_a_byte_order_mark_and_other_line_ends_change_nothing(tmp_path, made_odd):
    plain = from_table(tmp_path / "plain", as_csv(rows(60)))
    odd = from_table(tmp_path / "odd", made_odd(as_csv(rows(60))).encode())
    assert [cell.row for cell in odd.cells] == [cell.row for cell in plain.cells]
    assert odd.results == plain.results


def test_quoted_cells_and_blank_lines_keep_their_line_numbers(tmp_path):
    text = (
        SMALL.lstrip().replace("BRK,LC1,e2", '\n"BRK","LC1","e, 2"').replace("\nBRK,LC1,e3", "\n\nBRK,LC1,e3")
    )
    assert by_cell(from_table(tmp_path, text))["bracket", "heave", "ultimate"].row == 6


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (SMALL.replace("200,0,0", "2OO,0,0"), "row 3, column `sx`: `2OO` is not a number"),
        (SMALL.replace("200,0,0", "NaN,0,0"), "row 3, column `sx`: `NaN` is not a number"),
        (SMALL.replace("200,0,0", "inf,0,0"), "row 3, column `sx`: `inf` is not a number"),
        (SMALL.replace("200,0,0", ",0,0"), "row 3, column `sx`: the cell is empty"),
        (SMALL.replace("200,0,0", '"200,5",0,0'), "row 3, column `sx`: `200,5` is not a number"),
        (SMALL.replace("200,0,0", "200,0"), "row 3 has 5 cells, the heading has 6"),
        (SMALL.replace("200,0,0", "200,0,0,7"), "row 3 has 7 cells, the heading has 6"),
        (SMALL.replace(",sx,", ",sxx,"), "no column `sx`; did you mean `sxx`?"),
        (SMALL.replace(",sx,", ",sy,"), "no column `sx`"),
        (SMALL.replace(",txy", ",sx"), "column `sx` is named twice"),
        (
            SMALL.replace("BRK,LC1,e2", "BRX,LC1,e2"),
            "row 3, column `component`: `BRX` is no part that the record names",
        ),
        (
            SMALL.replace("BRK,LC1,e2", "BRK,LC9,e2"),
            "row 3, column `case`: `LC9` is no load case that the record names",
        ),
        (SMALL.replace("BRK,LC1,e2", ",LC1,e2"), "row 3, column `component`: the cell is empty"),
        (SMALL.replace("200,0,0", "1e200,0,0"), "row 3, column `sx`: `1e200` is too large or too small"),
        ("component,case,element,sx,sy,txy\n", "no row of `claims/stress.csv`"),
        ("", "the file has no heading"),
        (b"component,case,element,sx,sy,txy\nBRK,LC1,\xff,1,2,3\n", "the file is not UTF-8 text"),
        (b"\x00\x01\xff\xfe", "not UTF-8"),
    ],
)
def test_what_is_wrong_with_a_table_is_said_with_row_and_value(tmp_path, text, says):
    found = from_table(tmp_path, text)
    assert any(says in one for one in texts(found)), texts(found)
    assert all("stress.csv`" in one for one in texts(found))
    assert all(one.value is None and one.why_not for one in found.results.values())
    assert found.cells == ()


def test_a_file_that_is_no_parquet_is_a_fault(tmp_path):
    text = CALCULATION.replace("stress.csv", "stress.parquet")
    found = worked(read(tmp_path, PARTS, text, stress_parquet=b"PAR1 this is not one"))
    assert "cannot be read as Parquet" in texts(found)[0]


def test_a_missing_file_is_a_fault_at_its_field(tmp_path):
    found = worked(read(tmp_path, PARTS, CALCULATION))
    assert ("table", "file") in [fault.path for fault in found.faults]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("unit: MPa", "unit: MPaa"), "did you mean `MPa`?"),
        (("alloy.ultimate", "alloy.ultimat"), "is no property of a material"),
        (("{material: alloy.ultimate}", "5 mm"), "which is length; the table holds stress"),
        (("{material: alloy.ultimate}", "-5 MPa"), "must be above 0"),
        (("criterion: tension", "criterion: ultimate"), "given twice for the same part"),
        (("part: component, ", ""), "no column for the part"),
        (("sxx: sx, syy: sy, sxy: txy", "row: element"), "no column is named for `sxx`, `syy` and `sxy`"),
        ((", sxy: txy", ""), "no column is named for `sxy`"),
        (("stress: von_mises", "stress: von_misses"), "no column `von_misses`"),
        (("table:", "inputs: {applied: 1 MPa}\n    table:"), "takes no `inputs`"),
    ],
)
def test_what_is_wrong_with_the_record_is_said(tmp_path, change, says):
    text = CALCULATION.replace("row: element, ", "") if "sxx" in change[0] else CALCULATION
    found = from_table(tmp_path, calculation=text.replace(*change))
    assert any(says in one for one in texts(found)), texts(found)


def test_two_factors_of_safety_at_once_are_named_once(tmp_path):
    two = ULTIMATE + "  second: {title: Second, kind: safety, value: 2.0}\n"
    found = from_table(tmp_path, more=two)
    assert [fault.path for fault in found.faults] == [("criteria", 0, "criterion")]
    assert all("`second` and `ultimate`" in one for one in texts(found))
    assert found.results["least_reserve_factor"].value is None


def test_a_slip_of_the_pen_in_a_factor_is_a_fault_of_the_criterion(tmp_path):
    slip = ULTIMATE.replace("value: 1.5", "value: 1.5, applies_to: {criteria: [tensoin]}")
    found = from_table(tmp_path, more=slip)
    (fault,) = found.faults
    assert fault.path == ("criteria", 1, "criterion")
    assert "did you mean `tension`?" in fault.text


def test_a_table_in_another_unit_turns_the_allowable_over_in_a_step(tmp_path):
    found = from_table(tmp_path, calculation=CALCULATION.replace("unit: MPa", "unit: ksi"))
    named = found.sheet.named()
    assert (named["allowable"].unit, named["allowable_written"].unit) == ("ksi", "GPa")
    check_sheet(found.sheet)


def test_a_weak_basis_is_a_fault_and_the_result_stays(tmp_path):
    text = CALCULATION.replace("alloy.ultimate", "alloy.ultimate_b")
    found = from_table(tmp_path, calculation=text)
    (weak,) = found.faults
    assert weak.kind is ReasonKind.BASIS_TOO_WEAK
    assert weak.path == ("criteria", 0, "allowable")
    assert "`bracket`" in weak.text
    assert "`frame`" not in weak.text  # its load path is redundant
    assert found.results["least_reserve_factor"].value is not None


def test_a_column_of_its_own_may_be_judged(tmp_path):
    text = CALCULATION.replace("stress: von_mises", "stress: interlaminar")
    table = (
        SMALL.replace(",txy", ",txy,interlaminar").replace(",0\n", ",0,10\n").replace(",100\n", ",100,50\n")
    )
    found = from_table(tmp_path, table, calculation=text)
    assert by_cell(found)["frame", "heave", "ultimate"].applied == 50.0


def test_a_part_that_no_criterion_speaks_of_is_remarked(tmp_path):
    text = CALCULATION.replace("{material: alloy.ultimate}}", "{material: alloy.ultimate}, parts: [bracket]}")
    found = from_table(tmp_path, calculation=text)
    assert "`frame`" in found.remarks[0].text


def test_without_a_column_the_table_speaks_of_the_one_part_named(tmp_path):
    text = CALCULATION.replace("part: component, ", "").replace("parts: {BRK: bracket, FRM: frame}", "")
    found = from_table(tmp_path, calculation=text + "    parts: [bracket]\n")
    assert found.parts == ("bracket",)
    assert by_cell(found)["bracket", "heave", "ultimate"].row == 4


def test_a_number_is_read_as_written_or_not_at_all():
    assert tables.number(" -1.5e3 ", column="x", row=2) == -1500.0
    for odd in ("1_000", "0x10", "１２", "1e999", "1e61", "1e-61", "--1", "1 2"):
        with pytest.raises(tables.TableError, match="row 2"):
            tables.number(odd, column="x", row=2)


def test_a_large_table_is_read_piece_by_piece(tmp_path):
    path = Path(tmp_path / "stress.csv")
    path.write_text(as_csv(rows(5000)))
    sizes = [
        len(piece.rows)
        for piece in tables.pieces(path, words=["component"], numbers=["sx"], piece_bytes=20_000)
    ]
    assert len(sizes) > 5
    assert sum(sizes) == 5000
