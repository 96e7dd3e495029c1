"""How long a generated case of 2,000 records takes to publish, each time in a new process.

The bounds are the project's own: 10 s from nothing (frames, store and site absent), 2 s after an
edit of one record. The figures are printed, so that anyone can run this and compare.
"""

import os
import subprocess
import sys
import time

import pytest
from big_case import write_big_case

RECORDS = 2000
FROM_NOTHING = 10.0  # s
AFTER_AN_EDIT = 2.0  # s


def build(folder, cache):
    start = time.perf_counter()
    command = [sys.executable, "-P", "-m", "assurance.cli", "build", str(folder)]
    environment = {**os.environ, "HOLDWATER_CACHE": str(cache)}
    done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return time.perf_counter() - start


def edit(folder, word):
    path = folder / "claims" / "claims-000.yml"
    path.write_text(path.read_text().replace("Generated reason 7", f"{word} reason 7"))


@pytest.mark.timed
def test_2000_records_publish_in_10_s_from_nothing_and_2_s_after_an_edit(tmp_path, capsys):
    write_big_case(tmp_path / "case", RECORDS)
    cold = build(tmp_path / "case", tmp_path / "cache")
    warm = []
    for word in ("Better", "Other", "Third", "Next", "Last"):
        edit(tmp_path / "case", word)
        warm.append(build(tmp_path / "case", tmp_path / "cache"))
    with capsys.disabled():
        print(f"\n{RECORDS} records: {cold:.2f} s from nothing, {min(warm):.2f} s after an edit")
    assert cold < FROM_NOTHING
    assert min(warm) < AFTER_AN_EDIT
