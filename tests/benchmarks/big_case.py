"""Writes a generated case of any size: claims over claims, evidence with files, sums, hazards, modes."""

import hashlib
from pathlib import Path

SHARES = {"claims": 0.36, "evidence": 0.30, "calculations": 0.10, "hazards": 0.10, "failure_modes": 0.14}
FAN = 6  # claims beneath a claim


def write_big_case(folder: Path, records: int) -> None:
    """A case of about so many records, most of which hold; the top claim is `c0`."""
    counts = {kind: int(records * share) for kind, share in SHARES.items()}
    for name in ("claims", "hazards", "guide"):
        (folder / name).mkdir(parents=True, exist_ok=True)
    (folder / "mkdocs.yml").write_text("site_name: Generated\ndocs_dir: guide\n")
    (folder / "guide" / "index.md").write_text("# Guide\n\nA generated case.\n")
    (folder / "claims" / "case.yml").write_text(_case())
    _in_files(folder / "claims", "claims", [_claim(n, counts) for n in range(counts["claims"])])
    _in_files(folder / "claims", "evidence", [_evidence(folder, n) for n in range(counts["evidence"])])
    _in_files(folder / "claims", "calculations", [_sum(n) for n in range(counts["calculations"])])
    _in_files(folder / "hazards", "hazards", [_hazard(n, counts) for n in range(counts["hazards"])])
    _in_files(folder / "hazards", "failure_modes", [_mode(n) for n in range(counts["failure_modes"])])


def _in_files(folder: Path, kind: str, records: list[str], a_file: int = 200) -> None:
    for start in range(0, len(records), a_file):
        text = f"{kind}:\n" + "".join(records[start : start + a_file])
        (folder / f"{kind}-{start // a_file:03}.yml").write_text(text)


def _case() -> str:
    return """\
case:
  big:
    title: Generated case
    item: Generated item
    issue: A
    top_claims: {use: c0}
    as_of: 2026-03-12
    quantities: [strength]
    people: {lead: {name: Lead, roles: [safety lead]}}
parts:
  bracket: {title: Bracket, load_path: redundant}
materials:
  alloy:
    title: Alloy
    properties: {strength: {value: 300 MPa, basis: A, source: generated}}
requirements:
  reserve: {statement: A reserve factor of at least one., value: 1.0, source: generated}
factors:
  ultimate: {title: Ultimate, kind: safety, value: 1.5, source: generated}
load_cases:
  lc1: {title: Load case 1, value: 1 kN}
rating_scales:
  scale: {title: Scale 1 to 10}
"""


def _claim(number: int, counts: dict[str, int]) -> str:
    beneath = [f"c{child}" for child in range(FAN * number + 1, FAN * number + FAN + 1)
               if child < counts["claims"]]  # fmt: skip
    beneath += [f"e{n}" for n in range(number, counts["evidence"], counts["claims"])]
    if not beneath:
        beneath = [f"e{number % counts['evidence']}"]
    sums = [f"s{n}" for n in range(number, counts["calculations"], counts["claims"])]
    checks = "".join(f"        - {{result: {one}.least_reserve_factor, at_least: reserve}}\n" for one in sums)
    return f"""\
  c{number}:
    statement: Generated statement {number} is true within the conditions of use.
    about: [bracket, lc1]
    quantity: strength
    owner: lead
    argument:
      because: Generated reason {number}.
      rests_on: [{", ".join(beneath)}]
""" + (f"      checks:\n{checks}" if checks else "")


def _evidence(folder: Path, number: int) -> str:
    name = f"files/report-{number % 50}.txt"
    path = folder / "claims" / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(f"Generated report {number % 50}.\n")
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return f"""\
  e{number}:
    title: Generated test {number}
    kind: test
    files: [{{file: {name}, sha256: {digest}}}]
    revision: A
    date: 2026-01-12
    producer: lead
    parts: [{{part: bracket, issue: A, serial: "{number}"}}]
    quantity: strength
    outcome: passed
    results: {{load: {{value: {number % 90 + 10} kN, read_by: lead}}}}
    state: issued
"""


def _sum(number: int) -> str:
    return f"""\
  s{number}:
    title: Generated sum {number}
    method: reserve_factors
    author: lead
    inputs:
      applied: {100 + number % 80} MPa
      allowable: {{material: alloy.strength}}
      part: bracket
      load_case: lc1
      criterion: ultimate
"""


def _hazard(number: int, counts: dict[str, int]) -> str:
    leaves = [n for n in range(counts["claims"]) if FAN * n + 1 >= counts["claims"]]
    claim = leaves[number % len(leaves)]
    proof = f"e{(number * 7) % counts['evidence']}"
    mode = f"m{number % max(1, counts['failure_modes'])}"
    return f"""\
  h{number}:
    title: Generated hazard {number}
    harm: A person is hurt in way {number}.
    exposed: user
    causes: [{{record: {mode}}}]
    before: {{severity: Critical, likelihood: Occasional}}
    controls:
      guard: {{text: Guard, type: design, implemented_by: [{proof}], effective_by: [{proof}]}}
    after: {{severity: Critical, likelihood: Improbable, controls: [guard]}}
    claim: c{claim}
    owner: lead
"""


def _mode(number: int) -> str:
    return f"""\
  m{number}:
    title: Generated mode {number}
    item: bracket
    mode: Generated mode {number}
    scale: scale
    effects: [{{text: Effect, severity: {number % 10 + 1}}}]
    causes:
      wear: {{text: Wear, occurrence: {number % 7 + 1}, detection: {number % 5 + 1}}}
"""


if __name__ == "__main__":
    import sys

    write_big_case(Path(sys.argv[1]), int(sys.argv[2]))
