"""How long reading takes: 10,000 records in about a second on two cores."""

import time
from pathlib import Path

import pytest

from assurance.reading import read_case

RECORDS = 10_000
IN_A_FILE = 250  # claims, and as many evidence records
MOST_SECONDS = 3.0  # about four times what two cores took when this was written
CASE = """\
case:
  large:
    title: A large case (generated)
    top_claims: {use: claim-0}
    as_of: 2026-03-12
    quantities: [strength]
    people: {anna: Anna}
requirements:
  least: {statement: Keep a reserve., value: 1.0}
"""
CLAIM = """\
  claim-{n}:
    statement: Part {n} keeps a reserve factor of at least 1.0 in every load case.
    quantity: strength
    argument:
      because: Ply-by-ply analysis with A-basis strengths, confirmed by a rig test.
      checks:
        - {{result: test-{n}.reserve, at_least: least}}
        - {{result: test-{n}.set, at_most: 0.10 mm, because: twice the resolution of the gauge}}
      rests_on: [test-{n}, {{record: claim-{below}, shows: no damage, where: "section 4, photo 7"}}]
    owner: anna
"""
TEST = """\
  test-{n}:
    title: Rig test {n}
    kind: test
    revision: A
    date: 2026-02-03
    producer: anna
    quantity: strength
    outcome: passed
    results:
      set: {{value: 0.02 +/- 0.01 mm, where: table 3, read_by: anna}}
      reserve: 1.2
    state: issued
"""


def write_large_case(folder: Path, records: int) -> None:
    """A case of that many records: half claims that rest on each other, half evidence."""
    claims = folder / "claims"
    claims.mkdir()
    (claims / "case.yml").write_text(CASE)
    last = records // 2 - 1
    for first in range(0, records // 2, IN_A_FILE):
        rows = range(first, first + IN_A_FILE)
        claim_text = "".join(CLAIM.format(n=n, below=min(2 * n + 1, last)) for n in rows)
        test_text = "".join(TEST.format(n=n) for n in rows)
        (claims / f"from-{first}.yml").write_text(f"claims:\n{claim_text}evidence:\n{test_text}")


@pytest.mark.timed
def test_ten_thousand_records_are_read_in_about_a_second(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write_large_case(tmp_path, RECORDS)

    started = time.perf_counter()
    case = read_case(tmp_path)
    taken = time.perf_counter() - started

    with capsys.disabled():
        print(f"\n{RECORDS:,} records read in {taken:.2f} s")
    assert len(case.entries) == RECORDS + 2
    assert case.findings == ()
    assert taken < MOST_SECONDS
