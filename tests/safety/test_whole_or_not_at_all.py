"""A site that cannot be written leaves the last one and says why; folders of others are left alone."""

import os
import resource
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner
from hostile_case import BIN, write_case

from assurance.cli import main

pytestmark = pytest.mark.slow

HOLDWATER = str(BIN / "holdwater")


@pytest.fixture
def case(tmp_path, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path / "cache"))
    return write_case(tmp_path / "case")


def build(case, *more):
    return CliRunner().invoke(main, ["build", str(case), *more], catch_exceptions=False)


def content(folder):
    return {path: path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def small_files(most):
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))


@pytest.mark.slow
@pytest.mark.parametrize("most", [0, 1000, 20_000])
@pytest.mark.parametrize("frames", ["kept", "not kept"])
def test_a_full_disk_ends_with_a_word_and_the_last_site_stays(case, most, frames):
    """A bound on the size of files stands in for a full disk: a write is refused half way."""
    build(case)
    before = content(case / "site")
    (case / "claims" / "more.yml").write_text("contexts:\n  word: {statement: A word.}\n")
    (case / "guide" / "index.md").write_text("# Other notes\n" if frames == "not kept" else "# Notes\n")
    command = [HOLDWATER, "build", str(case)]
    limit = small_files(most)
    done = subprocess.run(command, preexec_fn=limit, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "The site was not written" in done.stderr
    assert "Traceback" not in done.stderr
    assert content(case / "site") == before
    assert not list(case.glob(".site-staging-*"))


@pytest.mark.parametrize("place", ["file/site", "file", "missing/../file/site", "/proc/site", "/dev/null"])
def test_a_place_that_cannot_hold_a_site_ends_with_a_word(case, tmp_path, place):
    (tmp_path / "file").write_text("keep")
    done = build(case, "--site-dir", str(tmp_path / place))
    assert done.exit_code == 2
    assert "Traceback" not in done.output
    assert (tmp_path / "file").read_text() == "keep"


@pytest.mark.slow
@pytest.mark.parametrize("command", [["check"], ["build"], ["explain", "top", "--case"], ["schema"]])
def test_an_output_that_is_full_or_that_nobody_reads_is_no_traceback(case, command):
    words = [HOLDWATER, *command, *([] if command == ["schema"] else [str(case)])]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(words, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run(words, stdout=write, stderr=subprocess.PIPE, text=True, check=False)
    os.close(write)
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr


@pytest.fixture
def other(tmp_path):
    """Another case, with a published site."""
    other = write_case(tmp_path / "all" / "other")
    (other / "mkdocs.yml").write_text("site_name: Other\n")
    return other


@pytest.mark.parametrize(
    "place", [".", "..", "../..", "claims", "claims/site", "claims/a/b", "hazards", "guide"]
)
def test_another_case_its_records_and_what_holds_it_are_never_replaced(case, other, place):
    before = content(other)
    done = build(case, "--site-dir", str(other / place))
    assert done.exit_code == 2, done.output
    assert "The site was not written" in done.output
    assert content(other) == before


@pytest.mark.parametrize("name", ["claims/case.yml", "mkdocs.yml", "a/b/records.YAML", ".git/HEAD", "a/.git"])
def test_records_or_a_repository_inside_a_published_site_are_never_taken_away(case, name):
    build(case)
    (case / "site" / name).parent.mkdir(parents=True, exist_ok=True)
    (case / "site" / name).write_text("keep")
    done = build(case)
    assert done.exit_code == 2
    assert "no build has put it there" in done.output
    assert (case / "site" / name).read_text() == "keep"


def test_the_marker_of_a_site_does_not_make_a_case_one(case, other):
    (other / ".holdwater-site").write_text("Published by holdwater.\n")
    before = content(other)
    assert build(case, "--site-dir", str(other)).exit_code == 2
    assert build(case, "--site-dir", str(other.parent)).exit_code == 2
    assert content(other) == before


def test_the_folder_one_stands_in_can_be_the_site(case, tmp_path, monkeypatch):
    here = tmp_path / "here"
    here.mkdir()
    monkeypatch.chdir(here)
    done = build(case, "--site-dir", ".")
    monkeypatch.chdir(tmp_path)
    assert done.exit_code == 0
    assert (here / "index.html").is_file()
