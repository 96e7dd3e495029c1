"""The demonstration case with bytes of its files changed, left out or put in: findings, never a traceback."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from case_copy import copy_demo
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from assurance.checking import check_case
from assurance.store import Store

MOST = int(os.environ.get("HOLDWATER_MUTATIONS", "30"))
LIKELY = (
    b"\t", b"\x00", b"\r", b"\n", b": ", b"- ", b"{", b"[", b'"', b"'", b"&a ", b"*a", b"!!str ", b"<<: ",
    b"#", b"---\n", b",", b";", b"nan", b"1e999", b"-", b"\xff\xfe", "\u200b".encode(), "\u2212".encode(),
    b"../../", b"safe", b"2026-13-40", b" MPa", b"claims:\n", b"hazards:\n  x:\n",
)  # fmt: skip
PUT = st.sampled_from(LIKELY) | st.binary(max_size=6)
CHANGE = st.tuples(st.integers(0, 1_000_000), st.integers(0, 40), PUT)


@contextmanager
def changed(path: Path, changes: list[tuple[int, int, bytes]]) -> Iterator[None]:
    """The file with bytes cut out and put in; as it was afterwards."""
    before = path.read_bytes()
    content = before
    for at, cut, put in changes:
        spot = at % (len(content) + 1)
        content = content[:spot] + put + content[spot + cut :]
    path.write_bytes(content)
    try:
        yield
    finally:
        path.write_bytes(before)


@pytest.mark.slow
def test_no_change_of_bytes_gives_a_traceback(tmp_path: Path) -> None:
    folder, store = copy_demo(tmp_path), Store(tmp_path / "store")
    files = sorted(path for path in folder.rglob("*") if path.is_file() and path.suffix != ".txt")

    @settings(max_examples=MOST, database=None, deadline=None, suppress_health_check=list(HealthCheck))
    @given(st.sampled_from(files), st.lists(CHANGE, min_size=1, max_size=3))
    def run(path: Path, changes: list[tuple[int, int, bytes]]) -> None:
        with changed(path, changes):
            answer = check_case(folder, store=store)
        assert all(one.message and one.remedy for one in answer.findings)
        assert all(one.place.file and one.place.line > 0 for one in answer.findings)

    run()
