"""Whatever a record says, working it out gives results or reasons, and never raises."""

import json
import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sheet_check import check_sheet
from small_case import PARTS, judged, read

from assurance.calculations import depends, stored, work_out
from assurance.methods.registry import METHODS
from assurance.model.engineering_records import Calculation

MORE = """
factors:
  ultimate: {title: Ultimate, kind: safety, value: 1.5, applies_to: {criteria: [strength, yield]}}
  odd: {title: Odd, kind: special, value: 3 mm, applies_to: {parts: [frame]}}
  percent: {title: Percent, kind: multiply, value: 120 %, applies_to: {load_cases: [heave]}}
evidence:
  report: {title: Report, kind: analysis, results: {load: 12 kN, stress: 90 +/- 8 MPa, warm: 20 degC}}
"""
DATA = "part,case,travel,force,name\n" + "".join(
    f"{'bracket' if at % 2 else 'frame'},heave,{at},{at * 9.5 - (at % 3)},n{at}\n" for at in range(25)
)
FILES = {"d_csv": DATA, "odd_csv": 'part,travel\nbracket,"4\n5,6,7\nx', "empty_csv": ""}
NAMES = sorted({spec.name for method in METHODS.values() for spec in method.inputs} | {"nothing"})
QUANTITY = st.sampled_from(
    [
        "100 MPa",
        "100 +/- 30 MPa",
        "-5 +/- 9 MPa",
        "200 +/- 300 N/mm",
        "0 MPa",
        "-3 MPa",
        "2 mm",
        "1e300 MPa",
        "1e-300 MPa",
        "20 degC",
        "5",
        "3 kN",
        "200 N/mm",
    ]
)
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
    QUANTITY.map(lambda value: {"value": value}), ID.map(lambda word: {"text": word}), PLAIN_COLUMN,
    ANY_INPUT,
    RESULT.map(lambda named: {"result": named}), PROPERTY.map(lambda named: {"material": named}),
)  # fmt: skip
MEANING = st.sampled_from(["part", "load_case", "row", "sxx", "sxy", "szz"])
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
TRAVEL = {"file": "d.csv", "column": "travel", "unit": "mm"}
FORCE = {"file": "d.csv", "column": "force", "unit": "kN"}
COLUMNS = {"part": "part", "load_case": "case", "sxx": "force", "syy": "travel", "sxy": "force"}
ALLOY = {"material": "alloy.ultimate"}
SOUND = (
    {"method": "allowables", "inputs": {"values": FORCE}},
    {"method": "allowables", "inputs": {"values": FORCE, "batch": {"file": "d.csv", "column": "part"}}},
    {
        "method": "agreement",
        "inputs": {"displacement": TRAVEL, "load": FORCE, "predicted": {"value": "9500 N/mm"}},
    },
    {
        "method": "reserve_factors",
        "inputs": {"applied": {"result": "report.stress"}, "allowable": {"material": "alloy.ultimate"}},
    },
    {
        "method": "reserve_factors",
        "table": {
            "file": "d.csv",
            "unit": "MPa",
            "columns": COLUMNS,
        },
        "criteria": (
            {"criterion": "yield", "stress": "von_mises", "allowable": {"material": "alloy.ultimate"}},
        ),
    },
)
CHANGES = st.fixed_dictionaries(
    {},
    optional={
        "method": st.sampled_from([*METHODS, "none"]),
        "inputs": st.dictionaries(st.sampled_from(NAMES), INPUT, max_size=2),
        "table": TABLE,
        "criteria": st.lists(CRITERION, max_size=3).map(tuple),
        "parts": st.lists(ID, max_size=2).map(tuple),
        "load_cases": st.lists(ID, max_size=2).map(tuple),
    },
)


def changed(sound, changes):
    """A sound record with some of its fields changed, tables and inputs field by field."""
    fields = {"title": "Any", **sound}
    for name, value in changes.items():
        fields[name] = {**fields.get(name, {}), **value} if isinstance(value, dict) else value
    return Calculation.model_validate(fields)


def said(found):
    return (*found.faults, *found.remarks)


def is_whole_sentence(text):
    """A capital or a name in front, an end behind, and none of the words that help nobody."""
    text = re.sub("`[^`]*`", "X", text)  # names and values are the author's
    heads = text[0].isupper()
    bad = {"error", "invalid", "please", "illegal"} & set(re.findall("[a-z]+", text.lower()))
    return heads and text.endswith((".", "?")) and ".." not in text and not bad


@pytest.fixture(scope="module")
def case(tmp_path_factory):
    """Every file is found as if the calculation had named it well."""
    names = [name.replace("_", ".") for name in FILES]
    listed = "".join(f"  e-{name[0]}: {{title: Data, kind: data, files: [{name}]}}\n" for name in names)
    found = read(tmp_path_factory.mktemp("any"), PARTS, MORE, "evidence:\n" + listed, **FILES)
    files = {("sum", name): fact for (_, name), fact in found.files.items()}
    return replace(found, files={**found.files, **files})


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_any_record_gives_results_or_reasons(case, data):
    record = changed(data.draw(st.sampled_from(SOUND)), data.draw(CHANGES))
    depends(record, case, id="sum")
    found = work_out("sum", record, case, judged(case), None)
    if record.method in METHODS:
        assert set(found.results) == {spec.name for spec in METHODS[record.method].results}
    assert all(one.value is not None or one.why_not for one in found.results.values())
    assert all(fault.path for fault in found.faults)
    assert all(is_whole_sentence(one.text) and is_whole_sentence(one.remedy) for one in said(found))
    if found.sheet:
        check_sheet(found.sheet)
    assert stored.from_json(json.dumps(stored.to_plain(found), allow_nan=False).encode()) == found
