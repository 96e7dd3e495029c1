"""A build that is killed at any moment leaves the old site or the new one, whole."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

KILLS = int(os.environ.get("HOLDWATER_KILLS", "100"))
SEED = int(os.environ.get("HOLDWATER_KILLS_SEED", "1"))
CASE = """\
case:
  tiny: {title: Tiny, item: Thing, issue: A, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: Lead}}
claims:
  top:
    statement: The thing is safe.
    owner: lead
    argument: {because: By parts., rests_on: [a, b, c]}
"""
PART = "  {id}: {{statement: Part {id} is safe., owner: lead, undeveloped: {{because: later}}}}\n"


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes that can be forked and killed")
def test_a_build_killed_at_a_random_moment_leaves_one_whole_site(tmp_path):
    (tmp_path / "case" / "claims").mkdir(parents=True)
    text = CASE + "".join(PART.format(id=id_) for id_ in "abc")
    (tmp_path / "case" / "claims" / "case.yml").write_text(text)
    program = [sys.executable, str(Path(__file__).with_name("killed_builds.py"))]
    done = subprocess.run(
        [*program, str(tmp_path / "case"), str(KILLS), str(SEED)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert told["wrong"] == [], done.stderr
    assert told["kills"] == KILLS
    assert 0 < told["after_exchange"] < KILLS  # some before the exchange, some between it and the end
    assert told["left"] == []
    assert told["last"]
