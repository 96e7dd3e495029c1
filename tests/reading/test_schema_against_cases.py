"""The schema, held against real and broken files by a validator that is not ours."""

import json
from pathlib import Path

import jsonschema
import pytest
from core_yaml import core_yaml

from assurance.reading import read_case
from assurance.reading.schema import records_schema

ROOT = Path(__file__).parents[2]
FILES = sorted(
    path
    for folder in (ROOT, ROOT / "site_templates" / "new_case")
    for name in ("claims", "hazards")
    for path in (folder / name).rglob("*.yml")
)
DEMO = read_case(ROOT)
ANY = jsonschema.Draft202012Validator(records_schema())
OF_DEMO = jsonschema.Draft202012Validator(records_schema(DEMO))
BROKEN = {
    "kind": "clams: {}",
    "key": "claims: {a: {statement: S, statment: S}}",
    "key of an argument": "claims: {a: {statement: S, argument: {becuase: B}}}",
    "missing field": "claims: {a: {owner: stress-lead}}",
    "missing field of an item": "claims: {a: {statement: S, argument: {rests_on: [{shows: W}]}}}",
    "id": "claims: {2a: {statement: S}}",
    "id with a dot": "claims: {a.b: {statement: S}}",
    "name of a result": "evidence: {e: {title: T, kind: data, results: {peak load: 1 kN}}}",
    "list instead of records": "claims: [a]",
    "text instead of a record": "claims: {a: It is safe.}",
    "text instead of a list": "claims: {a: {statement: S, about: blade}}",
    "number instead of text": "claims: {a: {statement: 12}}",
    "true instead of text": "claims: {a: {statement: true}}",
    "empty text": 'claims: {a: {statement: ""}}',
    "blank text": 'claims: {a: {statement: "  "}}',
    "word of a closed list": "evidence: {e: {title: T, kind: tset}}",
    "state": "assumptions: {a: {statement: S, state: maybe}}",
    "stage": "case: {c: {title: T, top_claims: {trial: a}}}",
    "method": "calculations: {c: {title: T, method: reserve_factor}}",
    "input of a method": "calculations: {c: {title: T, method: allowables, inputs: {vaules: 1}}}",
    "unit": "requirements: {r: {statement: S, value: 12 furlongs}}",
    "unit of a short form": "claims: {a: {statement: S, argument: {checks: [{at_least: 12 mmm}]}}}",
    "decimal comma": 'requirements: {r: {statement: S, value: "1,5 mm"}}',
    "word for a number": "requirements: {r: {statement: S, value: large}}",
    "half-width without a number": "requirements: {r: {statement: S, value: 3 +/- mm}}",
    "range": "conditions: {c: {title: T, range: 5-10 kg}}",
    "range without its end": "conditions: {c: {title: T, range: 5 to kg}}",
    "unit of a column": "calculations: {c: {title: T, method: allowables, inputs: {values: {unit: Mpa}}}}",
    "date": "evidence: {e: {title: T, kind: data, date: 12.3.2026}}",
    "month": "evidence: {e: {title: T, kind: data, date: 2026-13-01}}",
    "rating": "failure_modes: {f: {title: T, effects: [{text: E, severity: 11}]}}",
    "rating as text": "failure_modes: {f: {title: T, effects: [{text: E, severity: high}]}}",
    "count": "evidence: {e: {title: T, kind: test, parts: [{part: p, quantity: 0}]}}",
    "sha256": "evidence: {e: {title: T, kind: data, files: [{file: a.csv, sha256: abc}]}}",
    "reference with a blank": "claims: {a: {statement: S, context: [two words]}}",
    "result without its name": "claims: {a: {statement: S, argument: {checks: [{result: calc}]}}}",
}
UNKNOWN = {
    "claim": "hazards: {h: {title: T, claim: no-such-claim}}",
    "claim of another kind": "hazards: {h: {title: T, claim: harbour-trial}}",
    "ground": "claims: {a: {statement: S, argument: {rests_on: [no-such-ground]}}}",
    "ground in a record": "claims: {a: {statement: S, argument: {rests_on: [{record: no-such-ground}]}}}",
    "result": "claims: {a: {statement: S, argument: {checks: [{result: harbour-trial.no_such_result}]}}}",
    "property": "calculations: {c: {title: T, method: allowables, inputs: {values: {material: none.such}}}}",
    "limit": "claims: {a: {statement: S, argument: {checks: [{at_least: no-such-limit}]}}}",
    "person": "claims: {a: {statement: S, owner: nobody}}",
    "quantity": "claims: {a: {statement: S, quantity: strenght}}",
    "cause": "actions: {a: {what: W, 'on': blade-delaminates.no-such-cause}}",
    "part": "failure_modes: {f: {title: T, item: no-such-part}}",
}


@pytest.mark.parametrize("validator", [ANY, OF_DEMO], ids=["any", "of the demo"])
def test_the_schema_is_one_of_its_dialect(validator):
    validator.check_schema(validator.schema)
    assert json.loads(json.dumps(validator.schema)) == validator.schema


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_sound_file_fits(path):
    told = core_yaml(path.read_text("utf-8"))

    assert not [fault.message for fault in ANY.iter_errors(told)]
    if path.is_relative_to(ROOT / "site_templates"):
        return
    assert not [fault.message for fault in OF_DEMO.iter_errors(told)]


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_a_value_that_cannot_stand_there_does_not_fit(text):
    assert not ANY.is_valid(core_yaml(text))


@pytest.mark.parametrize("text", UNKNOWN.values(), ids=UNKNOWN)
def test_a_name_that_the_case_does_not_have_fits_in_general_and_not_in_the_case(text):
    told = core_yaml(text)

    assert ANY.is_valid(told)
    assert not OF_DEMO.is_valid(told)


def written(folder, text):
    (folder / "claims").mkdir()
    (folder / "claims" / "case.yml").write_text(text)
    return jsonschema.Draft202012Validator(records_schema(read_case(folder)))


def test_a_record_that_could_not_be_read_may_be_named(tmp_path):
    validator = written(
        tmp_path, "case: {c: {title: T}}\nclaims: {broken: {statment: S}, sound: {statement: S}}\n"
    )

    assert validator.is_valid(core_yaml("hazards: {h: {title: T, claim: broken}}"))
    assert validator.is_valid(core_yaml("hazards: {h: {title: T, claim: sound}}"))
    assert not validator.is_valid(core_yaml("hazards: {h: {title: T, claim: other}}"))


def test_a_case_that_does_not_parse_still_gives_a_schema(tmp_path):
    validator = written(tmp_path, "case:\n  c: {title: T\nclaims:\n  seen: {statement: S}\n")

    assert validator.is_valid(core_yaml("hazards: {h: {title: T, claim: seen, owner: anybody}}"))


def test_where_there_is_nothing_to_name_no_name_fits(tmp_path):
    validator = written(tmp_path, "case: {c: {title: T}}\n")

    assert not validator.is_valid(core_yaml("hazards: {h: {title: T, claim: any}}"))
    assert validator.is_valid(core_yaml("hazards: {h: {title: T}}"))


def test_the_schema_of_a_case_is_the_same_each_time():
    assert json.dumps(records_schema(DEMO)) == json.dumps(records_schema(read_case(ROOT)))
