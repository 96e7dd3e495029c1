"""Every fault of the input is reported at its own line, and nothing else is."""

from pathlib import Path

import pytest
from marked_text import marked, read_text, reported

from assurance.model.verdicts import Weight

FAULTY = {
    "a key that no claim has": """\
claims:
  top:
    statement: It is safe.
    statment: It is safe.  # <- key-unknown
""",
    "a key of a later kind of field": """\
evidence:
  drop:
    title: Drop test
    kind: test
    instruments: [scale]  # <- key-unknown
""",
    "a key that a nested record does not have": """\
claims:
  top:
    statement: It is safe.
    argument:
      rests_on:
        - {record: rig, shws: no damage}  # <- key-unknown
""",
    "two unknown keys": """\
claims:
  top:
    statement: It is safe.
    one: 1  # <- key-unknown
    two: 2  # <- key-unknown
""",
    "a kind that there is not": """\
challanges:  # <- kind-unknown
  doubt: {against: rig, doubt: It was cold.}
""",
    "a key written twice": """\
claims:
  top:
    statement: It is safe.
    statement: It is very safe.  # <- key-twice
""",
    "a key written twice in a nested mapping": """\
claims:
  top:
    statement: It is safe.
    argument: {because: so, because: thus}  # <- key-twice
""",
    "a kind written twice": """\
claims:
  top: {statement: It is safe.}
claims:  # <- key-twice
  more: {statement: It is safe.}
""",
    "an id written twice": """\
claims:
  top: {statement: It is safe.}
  top: {statement: It is very safe.}  # <- id-twice
""",
    "an id of another file": """\
parts:
  rig: {title: Rig}  # <- id-twice
""",
    "an id that differs in capitals only": """\
parts:
  Blade: {title: Blade}  # <- id-twice
""",
    "an id with a dot": """\
parts:
  blade.2: {title: Blade}  # <- id-wrong
""",
    "an id that starts with a digit": """\
parts:
  2nd-blade: {title: Blade}  # <- id-wrong
""",
    "an id of 65 characters": f"""\
parts:
  {"b" * 65}: {{title: Blade}}  # <- id-wrong
""",
    "an id that is a number": """\
parts:
  12: {title: Blade}  # <- key-not-text
""",
    "an id that is true": """\
parts:
  true: {title: Blade}  # <- key-not-text
""",
    "a name of a result with a blank": """\
evidence:
  drop:
    title: Drop
    kind: test
    results:
      peak load: 12 kN  # <- id-wrong
""",
    "a list as a key": """\
claims:
  top:
    statement: It is safe.
    ? [a, b]  # <- key-not-text
    : 1
""",
    "a mapping as a key": """\
claims:
  ? {a: b}  # <- key-not-text
  : {statement: It is safe.}
""",
    "a missing field": """\
evidence:
  drop:  # <- field-missing
    title: Drop
""",
    "a missing field of an item": """\
claims:
  top:
    statement: It is safe.
    argument:
      rests_on:
        - rig
        - shows: no damage  # <- field-missing
""",
    "a record without anything": """\
claims:
  top:  # <- value-wrong
""",
    "a number for text": """\
evidence:
  drop: {title: Drop, kind: test,
    revision: 3}  # <- value-wrong
""",
    "true for text": """\
claims:
  top:
    statement: true  # <- value-wrong
""",
    "a list for text": """\
claims:
  top:
    statement: [It, is, safe]  # <- value-wrong
""",
    "an empty text": """\
claims:
  top:
    statement: ""  # <- value-wrong
""",
    "a text that is longer than is read": f"""\
claims:
  top:
    statement: {"x" * 5001}  # <- value-wrong
""",
    "one text for a list": """\
claims:
  top:
    statement: It is safe.
    argument:
      rests_on: rig  # <- value-wrong
""",
    "a mapping for a list": """\
claims:
  top:
    statement: It is safe.
    argument:
      rests_on:  # <- value-wrong
        record: rig
""",
    "a list for a mapping": """\
evidence:
  drop:
    title: Drop
    kind: test
    results: [12 kN]  # <- value-wrong
""",
    "a list of records for a mapping of records": """\
claims:
  - {statement: It is safe.}  # <- value-wrong
""",
    "nothing in a list of records": """\
claims:
  top:
    statement: It is safe.
    argument:
      rests_on:
        - rig
        - ~  # <- value-wrong
""",
    "a word that is not one of the words": """\
evidence:
  drop:
    title: Drop
    kind: tst  # <- value-wrong
""",
    "a stage that this case does not have": """\
case:
  other:  # <- case-twice
    title: Other
    top_claims: {bench: rig}  # <- value-wrong
""",
    "a rating above the scale": """\
failure_modes:
  bend:
    title: Bend
    effects: [{text: It bends., severity: 11}]  # <- value-wrong
""",
    "a rating of zero": """\
failure_modes:
  bend:
    title: Bend
    effects: [{text: It bends., severity: 0}]  # <- value-wrong
""",
    "a rating with a fraction": """\
failure_modes:
  bend:
    title: Bend
    effects: [{text: It bends., severity: 2.5}]  # <- value-wrong
""",
    "true for a rating": """\
failure_modes:
  bend:
    title: Bend
    effects: [{text: It bends., severity: true}]  # <- value-wrong
""",
    "a digest that is too short": """\
evidence:
  drop:
    title: Drop
    kind: test
    files: [{file: drop.csv, sha256: abc}]  # <- value-wrong
""",
    "a decimal comma": """\
requirements:
  most:
    statement: At most this.
    value: 12,5 mm  # <- value-wrong
""",
    "a unit that is not in the list": """\
requirements:
  most:
    statement: At most this.
    value: 12.5 furlong  # <- value-wrong
""",
    "torque without its blank": """\
requirements:
  most:
    statement: At most this.
    value: 12.5 Nm  # <- value-wrong
""",
    "not a number": """\
requirements:
  most:
    statement: At most this.
    value: .nan  # <- value-wrong
""",
    "infinity": """\
requirements:
  most:
    statement: At most this.
    value: -.inf  # <- value-wrong
""",
    "a number too large for a number": """\
requirements:
  most:
    statement: At most this.
    value: 1e999  # <- value-wrong
""",
    "more digits than a number has": f"""\
requirements:
  most:
    statement: At most this.
    value: {"9" * 6000}  # <- value-wrong
""",
    "an expression for a number": """\
requirements:
  most:
    statement: At most this.
    value: 9**9**9**9  # <- value-wrong
""",
    "true for a quantity": """\
requirements:
  most:
    statement: At most this.
    value: true  # <- value-wrong
""",
    "a range from high to low": """\
conditions:
  mass:
    title: Mass
    range: 120 to 50 kg  # <- value-wrong
""",
    "a day that is not in the calendar": """\
evidence:
  drop:
    title: Drop
    kind: test
    date: 2026-02-30  # <- value-wrong
""",
    "a day in another order": """\
evidence:
  drop:
    title: Drop
    kind: test
    date: 12.03.2026  # <- value-wrong
""",
    "a unit of a column that is not in the list": """\
calculations:
  least:
    title: Least
    method: allowables
    inputs:
      values: {file: a.csv, column: strength,
        unit: Mpa}  # <- value-wrong
""",
    "an object by tag": """\
claims:
  top:
    statement: !!python/object/apply:os.system ["touch owned"]  # <- tag-not-read
""",
    "a tag on a record": """\
claims:
  top: !claim {statement: It is safe.}  # <- tag-not-read
""",
    "a tag on a key": """\
claims:
  top:
    statement: It is safe.
    !!str owner: anna  # <- tag-not-read
""",
    "a merge key": """\
claims:
  top: &top {statement: It is safe.}
  more:
    <<: *top  # <- merge-key-not-read
    statement: It is safe.
""",
    "a record that holds itself": """\
claims:
  top: &top  # <- nested-too-deep
    statement: It is safe.  # <- key-unknown
    argument: *top  # <- key-unknown
""",
    "a control character": """\
claims:
  top:
    statement: "It is safe.\\0"  # <- value-wrong
""",
    "a control character in a key": """\
rating_scales:
  ours: {title: Ours, severity: {"1\\e[31m": Bad}}  # <- value-wrong
""",
    "a control character in an id": """\
parts:
  "blade\\a": {title: Blade}  # <- value-wrong
""",
    "a claim that there is not": """\
claims:
  top:
    statement: It is safe.
    argument: {rests_on: [rigg]}  # <- reference-unknown
""",
    "an empty reference": """\
claims:
  top:
    statement: It is safe.
    argument: {rests_on: [""]}  # <- reference-unknown
""",
    "a part where a ground is expected": """\
claims:
  top:
    statement: It is safe.
    argument:
      rests_on:
        - blade  # <- reference-of-another-kind
""",
    "an assumption as support": """\
claims:
  top:
    statement: It is safe.
    argument: {rests_on: [calm]}  # <- reference-of-another-kind
""",
    "a result that the evidence does not have": """\
claims:
  top:
    statement: It is safe.
    argument:
      checks: [{result: rig.sett, at_most: 1 mm}]  # <- reference-unknown
""",
    "a result that the method does not give": """\
claims:
  top:
    statement: It is safe.
    argument:
      checks: [{result: reserve.reserve, at_least: least-reserve}]  # <- reference-unknown
""",
    "a result without its name": """\
claims:
  top:
    statement: It is safe.
    argument:
      checks: [{result: rig, at_most: 1 mm}]  # <- reference-unknown
""",
    "a result with two dots": """\
claims:
  top:
    statement: It is safe.
    argument:
      checks: [{result: rig.set.most, at_most: 1 mm}]  # <- reference-unknown
""",
    "a limit that is no requirement or factor": """\
claims:
  top:
    statement: It is safe.
    argument:
      checks: [{result: rig.set, at_most: blade}]  # <- reference-of-another-kind
""",
    "a property that the material does not have": """\
calculations:
  least:
    title: Least
    method: reserve_factors
    inputs: {allowable: {material: carbon.tension}}  # <- reference-unknown
""",
    "a part of a record where the record is meant": """\
claims:
  top:
    statement: It is safe.
    argument: {rests_on: [rig.set]}  # <- reference-unknown
""",
    "a control that the hazard does not have": """\
challenges:
  doubt: {against: fall.fence, doubt: It bends.}  # <- reference-unknown
""",
    "an argument that the claim does not have": """\
claims:
  top: {statement: It is safe., arguments: {by-test: {because: so}}}
challenges:
  doubt: {against: top.by-tests, doubt: It was cold.}  # <- reference-unknown
""",
    "a control of another hazard in a rating": """\
hazards:
  trap:
    title: Trap
    controls: {guard: {text: A guard.}}
    after: {severity: Marginal, likelihood: Remote, controls: [guard, rail]}  # <- reference-unknown
    risk_with: [{controls: [gard]}]  # <- reference-unknown
""",
    "a member of another kind than its set": """\
claims:
  top:
    statement: It is safe.
    argument: {over: {kind: hazards, members: [fall, blade]}}  # <- reference-of-another-kind
""",
    "an action that does not say which cause": """\
actions:
  polish: {what: Polish., on: crack, then: {occurrence: 2}}  # <- cause-not-named
""",
    "somebody who takes no part": """\
claims:
  top:
    statement: It is safe.
    owner: ana  # <- name-unknown
""",
    "a producer who takes no part": """\
evidence:
  drop:
    title: Drop
    kind: test
    producer: wroks  # <- name-unknown
""",
    "a quantity that is not a word of the case": """\
claims:
  top:
    statement: It is safe.
    quantity: strenght  # <- quantity-unknown
""",
    "a file outside the case": """\
evidence:
  drop:
    title: Drop
    kind: test
    files:
      - ../../../drop.csv  # <- file-outside-the-case
      - /etc/hostname  # <- file-outside-the-case
""",
    "an argument with the name of the single one": """\
claims:
  top:
    statement: It is safe.
    argument: {because: so}
    arguments:
      argument: {because: so}  # <- key-twice
""",
    "faults of several kinds in one record": """\
claims:
  top:
    statement: 5  # <- value-wrong
    statement: It is safe.  # <- key-twice
    owner: [anna]  # <- value-wrong
    hold_if: any  # <- key-unknown
""",
}


@pytest.mark.parametrize("name", FAULTY)
def test_a_fault_is_reported_at_its_line_and_nothing_else(name: str, tmp_path: Path) -> None:
    text = FAULTY[name]

    case = read_text(tmp_path, text)

    assert marked(text), "the text marks no fault"
    assert reported(case) == marked(text)
    assert all(finding.weight is Weight.BLOCKING for finding in case.findings)
    assert all(finding.message and finding.remedy for finding in case.findings)


@pytest.mark.parametrize("name", FAULTY)
def test_a_finding_names_a_record_of_the_case_or_a_whole_file(name: str, tmp_path: Path) -> None:
    case = read_text(tmp_path, FAULTY[name])

    assert {finding.record for finding in case.findings} <= {"", *case.entries}
