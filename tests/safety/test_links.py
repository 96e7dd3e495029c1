"""Links that a case brings lead nowhere, and a build writes through none."""

import hashlib
import os

import pytest
from click.testing import CliRunner
from hostile_case import site_texts, write_case

from assurance.cli import main

pytestmark = pytest.mark.slow  # each test publishes

SECRET = "SECRET-51c0"
RECORD = f"contexts:\n  secret: {{statement: {SECRET}}}\n"
DATA = "evidence:\n  e: {title: E, kind: test, files: [{file: NAME}]}\n"


@pytest.fixture
def case(tmp_path, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path / "cache"))
    outside = tmp_path / "outside"
    outside.mkdir()
    for name, text in (("secret.yml", RECORD), ("index.md", f"# {SECRET}\n"), ("data.csv", f"{SECRET}\n1\n")):
        (outside / name).write_text(text)
    (outside / "mkdocs.yml").write_text(f"site_name: {SECRET}\n")
    return write_case(tmp_path / "case")


def build(case, *more):
    return CliRunner().invoke(main, ["build", str(case), *more], catch_exceptions=False)


def content(folder):
    return {path: path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


@pytest.mark.parametrize(
    ("link", "target"),
    [
        ("claims/secret.yml", "secret.yml"),
        ("hazards/secret.yml", "secret.yml"),
        ("claims/all", ""),
        ("hazards", ""),
        ("guide/secret.md", "index.md"),
        ("guide/all", ""),
        ("claims/data.csv", "data.csv"),
        ("mkdocs.yml", "mkdocs.yml"),
    ],
)
@pytest.mark.parametrize("hops", [1, 2])
def test_a_link_out_of_the_case_is_not_followed(case, tmp_path, link, target, hops):
    (case / "claims" / "evidence.yml").write_text(DATA.replace("NAME", "data.csv"))
    outside = tmp_path / "outside" / target
    if hops == 2:
        (case / "hop").symlink_to(outside)
        outside = case / "hop"
    (case / link).parent.mkdir(exist_ok=True)
    (case / link).symlink_to(outside)
    assert build(case).exit_code == 0
    shown = site_texts(case / "site").values()
    digests = [hashlib.sha256(text).hexdigest() for text in content(tmp_path / "outside").values()]
    assert not any(word in text for text in shown for word in (SECRET, *digests))


def test_pages_behind_a_folder_that_is_a_link_are_not_read(case, tmp_path):
    (case / "guide" / "index.md").unlink()
    (case / "guide").rmdir()
    (case / "guide").symlink_to(tmp_path / "outside")
    assert build(case).exit_code == 0
    assert not any(SECRET in text for text in site_texts(case / "site").values())


@pytest.mark.parametrize("name", ["loop.md", "claims/loop.yml", "claims/loop"])
def test_a_link_to_itself_is_no_traceback(case, name):
    path = case / ("guide/loop.md" if name == "loop.md" else name)
    path.symlink_to(path.name)
    assert build(case).exit_code == 0


def test_a_link_in_the_place_of_the_site_is_refused(case, tmp_path):
    before = content(tmp_path / "outside")
    (case / "site").symlink_to(tmp_path / "outside")
    (case / "loop").symlink_to("loop")
    for more in ((), ("--site-dir", str(case / "loop")), ("--site-dir", str(case / "loop" / "site"))):
        done = build(case, *more)
        assert done.exit_code == 2
        assert "The site was not written" in done.output
    assert content(tmp_path / "outside") == before


def test_a_link_in_the_place_of_the_staging_folder_is_taken_away_and_not_followed(case, tmp_path):
    before = content(tmp_path / "outside")
    for process in (os.getpid(), 2**22 + 1):  # the second is more than a process of Linux can have
        (case / f".site-staging-{process}").symlink_to(tmp_path / "outside")
    assert build(case).exit_code == 0
    assert content(tmp_path / "outside") == before
    assert not list(case.glob(".site-staging-*"))


@pytest.mark.parametrize("kind", ["symlink_to", "hardlink_to"])
@pytest.mark.parametrize("same", [True, False])
def test_a_page_that_became_a_link_is_never_written_through(case, tmp_path, kind, same):
    build(case)
    page, victim = case / "site" / "claims" / "top.html", tmp_path / "victim"
    wanted = page.read_bytes()
    victim.write_bytes(wanted if same else b"keep")
    page.unlink()
    getattr(page, kind)(victim)
    (case / "claims" / "more.yml").write_text("contexts:\n  word: {statement: A word.}\n")
    for _ in range(2):
        assert build(case).exit_code == 0
    assert victim.read_bytes() == (wanted if same else b"keep")
    assert not page.is_symlink()
    assert page.read_bytes().startswith(b"<!doctype html>")


def test_a_folder_of_the_site_that_became_a_link_is_replaced_and_its_target_kept(case, tmp_path):
    build(case)
    target = tmp_path / "moved"
    (case / "site" / "claims").rename(target)
    (case / "site" / "claims").symlink_to(target)
    before = content(target)
    assert build(case).exit_code == 0
    assert content(target) == before
    assert not (case / "site" / "claims").is_symlink()
