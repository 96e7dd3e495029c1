"""A small whole case that gives no finding, and the means to lay the example of a rule over it."""

import hashlib
from pathlib import Path
from typing import Any

import yaml

from assurance.assess import assess
from assurance.model.assessment import Assessment
from assurance.model.verdicts import Finding
from assurance.reading import read_case

REPORT = "Step loaded to 1.5 times limit load. Invented.\n"
COUPONS = (
    268, 271, 263, 275, 266, 270, 259, 273, 267, 264, 272, 269, 261, 276, 265, 270, 268, 262, 274, 266,
)  # fmt: skip
PLATES = "abcd"  # each plate that coupons are cut from is a batch


def _coupons(values: tuple[int, ...]) -> str:
    """A data file of coupons, cut from the plates in turn."""
    rows = (f"c{at},{PLATES[at % len(PLATES)]},{strength}" for at, strength in enumerate(values))
    return "\n".join(["coupon,plate,strength", *rows]) + "\n"


FILES = {
    "reports/step-test.txt": REPORT,
    "data/coupons.csv": _coupons(COUPONS),
    "data/twelve-coupons.csv": _coupons(COUPONS[:12]),
    "data/five-coupons.csv": _coupons(COUPONS[:5]),
    "data/bracket.csv": (
        "part,case,svm\nstep,landing,120\nstep,sideways,60\nrail,landing,90\nrail,sideways,110\n"
    ),
    "data/hole.csv": "part,case,svm\nstep,landing,120\nstep,sideways,60\nrail,landing,90\n",
}
BASE = """
case:
  step-case:
    title: Box step
    top_claims: {use: safe}
    as_of: 2026-03-01
    quantities: [strength]
    organisations: {works: The works}
    people:
      ann: {name: Ann, organisation: works, roles: [safety-lead]}
      ben: {name: Ben, organisation: works, roles: [stress-lead]}
      cleo: {name: Cleo, organisation: works, roles: [tester]}
conditions:
  mass:
    title: Mass of the user
    range: 50 to 120 kg
    kept_by: the supervisor
    measured_by: a scale
    fails_outside: The step may yield.
requirements:
  reserve-policy:
    statement: Every reserve factor is at least 1.0.
    value: 1.0
    source: Design policy of the works
claims:
  safe:
    statement: The step is safe to stand on.
    argument:
      because: The step is strong, and the one hazard is held back.
      rests_on: [step-strong, fall-held-back]
    owner: ann
  step-strong:
    statement: The step keeps a reserve factor of at least 1.0 on landing.
    about: [step, landing]
    argument:
      because: Stress by hand against the A-basis yield strength, confirmed by a test.
      checks:
        - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
      rests_on: [step-test]
    owner: ben
  fall-held-back:
    statement: A person on the step cannot fall off it.
    argument: {because: The rail was inspected and pulled., rests_on: [rail-inspection, rail-pull-test]}
    owner: ann
evidence:
  step-test:
    title: Step loaded to 1.5 times limit load
    kind: test
    outcome: passed
    state: issued
    date: 2026-01-20
    producer: cleo
    parts: [{part: step, issue: B, serial: S-001}]
    results: {permanent_set: {value: 0.02 mm, where: section 4, read_by: cleo}}
  rail-inspection:
    title: Inspection of the rail
    kind: inspection
    outcome: passed
    state: issued
    date: 2026-01-21
    producer: cleo
    results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}
  rail-pull-test:
    title: Rail pulled sideways
    kind: test
    outcome: passed
    state: issued
    date: 2026-01-22
    producer: cleo
    parts: [{part: rail, issue: A, serial: R-001}]
    results: {set: {value: 0.1 mm, where: line 8, read_by: cleo}}
  plate-certificate:
    title: Certificate of the plate
    kind: certificate
    state: issued
    date: 2025-11-03
    producer: works
    results: {yield_strength: {value: 250 MPa, where: line 2, read_by: ben}}
parts:
  step: {title: Step, load_path: single}
  rail: {title: Rail, load_path: single}
materials:
  plate:
    title: Aluminium plate
    properties:
      yield_strength: {value: 250 MPa, basis: A, origin: plate-certificate}
factors:
  ultimate: {title: Factor of safety, kind: safety, value: 1.5, source: Design policy of the works}
load_cases:
  landing: {title: A person lands on the step, value: 3 kN}
calculations:
  step-strength:
    title: Reserve factor of the step by hand
    method: reserve_factors
    inputs:
      applied: 100 MPa
      allowable: {material: plate.yield_strength}
      criterion: yield
      part: step
      load_case: landing
    author: ben
    checker: ann
hazards:
  fall:
    title: A fall from the step
    harm: Broken bones
    exposed: the person on the step
    life_phase: use
    causes: [{record: step-breaks}]
    before: {severity: Critical, likelihood: Probable}
    controls:
      rail:
        text: A rail on three sides
        type: design
        reduces: [likelihood]
        implemented_by: [rail-inspection]
        effective_by: [rail-pull-test]
    after: {severity: Critical, likelihood: Remote, controls: [rail]}
    claim: fall-held-back
    owner: ann
failure_modes:
  step-breaks:
    title: The step breaks
    item: step
    scale: team-scale
    effects: [{text: The person falls, severity: 9}]
    causes: {overload: {text: A load above the limit, occurrence: 3, detection: 4}}
    owner: ben
rating_scales:
  team-scale: {title: Scale of the team, source: Agreed at the first review}
"""
Records = dict[str, dict[str, Any]]


def base_records() -> Records:
    """The records of the whole case, by kind and id."""
    records: Records = yaml.safe_load(BASE)
    return records


def write_over_base(folder: Path, example: str = "") -> Path:
    """The whole case with an example laid over it: a record of the example takes the place of its id.

    The example is a file of its own, word for word, so that its lines are those of the findings.
    """
    (folder / "hazards").mkdir(parents=True)
    for name, text in FILES.items():
        path = folder / "claims" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    (folder / "mkdocs.yml").write_text("site_name: Box step\n")
    records = base_records()
    for kind, id_ in _named(example):
        records.get(kind, {}).pop(id_, None)
    kept = {kind: named for kind, named in records.items() if named}
    (folder / "claims" / "whole.yml").write_text(yaml.safe_dump(kept, sort_keys=False))
    (folder / "claims" / "example.yml").write_text(example)
    return folder


def _named(example: str) -> list[tuple[str, str]]:
    """The kinds and ids of an example; none where it is no YAML."""
    try:
        read = yaml.load(example, Loader=yaml.BaseLoader) or {}
    except yaml.YAMLError:
        return []
    return [(kind, id_) for kind, named in read.items() for id_ in named or {}]


def assessed(folder: Path, example: str = "") -> Assessment:
    """The whole case with an example laid over it, assessed."""
    return assess(read_case(write_over_base(folder, example)))


def digest(text: str) -> str:
    """The sha256 of a text, in hex."""
    return hashlib.sha256(text.encode()).hexdigest()


def told(findings: tuple[Finding, ...]) -> list[str]:
    """Findings as lines that can be read."""
    return [f"{one.rule} {one.place} {one.message}" for one in findings]
