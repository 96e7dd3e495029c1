"""Whatever a record says, working it out gives results or reasons, and never raises."""

import json

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sheet_check import check_sheet
from small_case import PARTS, judged, read

from assurance.calculations import depends, stored, work_out
from assurance.methods.registry import METHODS
from assurance.model.engineering_records import Calculation
from assurance.model.quantity import read_quantity

MORE = """
factors:
  ultimate: {title: Ultimate, kind: safety, value: 1.5, applies_to: {criteria: [strength, yield]}}
  odd: {title: Odd, kind: special, value: 3 mm, applies_to: {parts: [frame]}}
  percent: {title: Percent, kind: multiply, value: 120 %, applies_to: {load_cases: [heave]}}
evidence:
  report: {title: Report, kind: analysis, results: {load: 12 kN, stress: 90 MPa, warm: 20 degC}}
"""
DATA = "part,case,travel,force,name\n" + "".join(
    f"{'bracket' if at % 2 else 'frame'},heave,{at},{at * 9.5 - (at % 3)},n{at}\n" for at in range(25)
)
FILES = {"d_csv": DATA, "odd_csv": 'part,travel\nbracket,"4\n5,6,7\nx', "empty_csv": ""}
NAMES = sorted({spec.name for method in METHODS.values() for spec in method.inputs} | {"nothing"})
QUANTITY = st.sampled_from(
    ["100 MPa", "0 MPa", "-3 MPa", "2 mm", "1e300 MPa", "1e-300 MPa", "20 degC", "5", "3 kN", "200 N/mm"]
).map(read_quantity)
FILE = st.sampled_from(["d.csv", "odd.csv", "empty.csv", "missing.csv", "../../etc/passwd"])
COLUMN = st.sampled_from(["travel", "force", "name", "part", "nothing"])
UNIT = st.sampled_from(["mm", "kN", "MPa", "s", "furlong", "", None])
ID = st.sampled_from(["bracket", "frame", "heave", "ultimate", "odd", "nowhere", "report"])
RESULT = st.sampled_from(["report.load", "report.stress", "report.warm", "report.no", "sum.least"])
PROPERTY = st.sampled_from(["alloy.ultimate", "alloy.bare", "alloy.no", "bracket.x", "nowhere.x"])
PLAIN_COLUMN = st.fixed_dictionaries({"file": FILE, "column": COLUMN, "unit": UNIT})
ANY_INPUT = st.fixed_dictionaries(
    {},
    optional={
        "value": QUANTITY, "result": RESULT, "material": PROPERTY, "factor": ID, "load_case": ID,
        "text": ID, "file": FILE, "column": COLUMN, "unit": UNIT,
        "where": st.dictionaries(COLUMN, st.sampled_from(["bracket", "heave"]), max_size=1),
    },
)  # fmt: skip
INPUT = st.one_of(
    QUANTITY.map(lambda value: {"value": value}), ID.map(lambda word: {"text": word}), PLAIN_COLUMN, ANY_INPUT,
    RESULT.map(lambda named: {"result": named}), PROPERTY.map(lambda named: {"material": named}),
)  # fmt: skip
TABLE = st.fixed_dictionaries(
    {
        "file": FILE,
        "unit": st.sampled_from(["MPa", "mm", "furlong"]),
        "columns": st.dictionaries(
            st.sampled_from(["part", "load_case", "row", "sxx", "sxy", "szz"]), COLUMN
        ),
    },
    optional={"already_in": st.tuples(ID), "parts": st.dictionaries(ID, ID, max_size=2)},
)
ALLOWABLE = st.one_of(
    QUANTITY.map(lambda value: {"value": value}), PROPERTY.map(lambda named: {"material": named}),
    st.fixed_dictionaries({}, optional={"value": QUANTITY, "result": RESULT}),
)  # fmt: skip
CRITERION = st.fixed_dictionaries(
    {
        "criterion": st.sampled_from(["strength", "yield"]),
        "stress": st.sampled_from(["von_mises", "max_principal", "max_shear", "force", "nothing"]),
        "allowable": ALLOWABLE,
    },
    optional={"parts": st.tuples(ID)},
)
CALCULATION = st.fixed_dictionaries(
    {"title": st.just("Any"), "method": st.sampled_from([*METHODS, "none"])},
    optional={
        "inputs": st.dictionaries(st.sampled_from(NAMES), INPUT, max_size=5),
        "table": TABLE,
        "criteria": st.lists(CRITERION, max_size=3).map(tuple),
        "parts": st.lists(ID, max_size=2).map(tuple),
        "load_cases": st.lists(ID, max_size=2).map(tuple),
    },
)


def case_with_files(folder):
    """Every file is found as if the calculation had named it well."""
    listed = "\n".join(
        f"  e{at}: {{title: Files, kind: data, files: [{name.replace('_', '.')}]}}"
        for at, name in enumerate(FILES)
    )
    case = read(folder, PARTS, MORE, "evidence:\n" + listed, **FILES)
    facts = {("sum", name): fact for (_, name), fact in case.files.items()}
    case.files.update(facts)
    return case


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_any_record_gives_results_or_reasons(tmp_path_factory, data):
    if not hasattr(test_any_record_gives_results_or_reasons, "case"):
        test_any_record_gives_results_or_reasons.case = case_with_files(tmp_path_factory.mktemp("any"))
    case = test_any_record_gives_results_or_reasons.case
    record = Calculation.model_validate(data.draw(CALCULATION))
    depends(record, case, id="sum")
    found = work_out("sum", record, case, judged(case), None)
    if record.method in METHODS:
        assert set(found.results) == {spec.name for spec in METHODS[record.method].results}
    assert all(one.value is not None or one.why_not for one in found.results.values())
    assert all(fault.text and fault.remedy and fault.path for fault in found.faults)
    if found.sheet:
        check_sheet(found.sheet)
    assert stored.from_plain(json.loads(json.dumps(stored.to_plain(found), allow_nan=False))) == found
