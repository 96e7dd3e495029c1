import os
import subprocess
import sys
from pathlib import Path

import pytest
from publishing_case import content, plain_frames, publish_case, write_case

from assurance.publish import SiteFolderRefused
from assurance.publish import exchange as exchange_module
from assurance.publish.exchange import exchange
from assurance.publish.site_folder import MARKER
from assurance.publish.staging import Staging


@pytest.fixture
def case(tmp_path):
    return write_case(tmp_path / "case")


def test_a_site_has_its_pages_its_data_and_its_schema(case):
    summary = publish_case(case)
    files = content(case / "site")
    assert {
        "index.html",
        "claims/top.html",
        "assessment.json",
        "assessment.schema.json",
        "assets/site.css",
    } <= set(files)
    assert summary.pages == sum(name.endswith(".html") for name in files)


def test_the_same_case_gives_the_same_bytes(case, tmp_path):
    publish_case(case)
    publish_case(case, site=tmp_path / "other")
    assert content(case / "site") == content(tmp_path / "other")


def test_a_page_that_did_not_change_is_the_same_file(case):
    publish_case(case)
    before = (case / "site" / "claims" / "top.html").stat().st_ino
    again = publish_case(case)
    assert again.written == 0
    assert (case / "site" / "claims" / "top.html").stat().st_ino == before


def test_a_page_that_changed_is_written_anew_and_a_page_that_is_gone_goes(case):
    publish_case(case)
    file = case / "claims" / "case.yml"
    file.write_text(file.read_text() + "contexts:\n  word: {statement: A word.}\n")
    publish_case(case)
    assert (case / "site" / "contexts" / "word.html").is_file()
    file.write_text(file.read_text().replace("word:", "other:"))
    publish_case(case)
    assert not (case / "site" / "contexts" / "word.html").exists()
    assert (case / "site" / "contexts" / "other.html").is_file()


def test_nothing_is_left_beside_the_site(case):
    publish_case(case)
    publish_case(case)
    assert sorted(one.name for one in case.iterdir()) == ["claims", "site"]


def test_a_folder_that_holds_something_else_is_refused_and_left_alone(case):
    (case / "site").mkdir()
    (case / "site" / "thesis.txt").write_text("keep")
    with pytest.raises(SiteFolderRefused, match="not published by holdwater"):
        publish_case(case)
    assert content(case / "site") == {"thesis.txt": b"keep"}


def test_an_empty_folder_is_taken(case):
    (case / "site").mkdir()
    publish_case(case)
    assert (case / "site" / MARKER).is_file()


@pytest.mark.parametrize("name", [".", "..", "claims", "claims/site"])
def test_the_case_itself_is_never_replaced(case, name):
    with pytest.raises(SiteFolderRefused):
        publish_case(case, site=case / name)
    assert (case / "claims" / "case.yml").is_file()


def test_a_link_in_the_place_of_the_site_is_refused(case, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (case / "site").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(SiteFolderRefused, match="not a folder"):
        publish_case(case)


def test_a_build_that_stops_half_way_leaves_the_last_good_site(case):
    publish_case(case)
    before = content(case / "site")

    def stops(request):
        return {**plain_frames(request), "index": "<!--slot:no-such-slot-->"}

    file = case / "claims" / "case.yml"
    file.write_text(file.read_text().replace("is safe", "is sound"))
    (case / "guide").mkdir()
    (case / "guide" / "index.md").write_text("# New text, so that frames are rendered again\n")
    with pytest.raises(KeyError):
        publish_case(case, render_frames=stops)
    assert content(case / "site") == before
    assert not list(case.glob(".site-staging-*"))


def test_what_a_killed_build_left_is_cleared_and_what_a_living_one_builds_is_not(case):
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    stale, alive = case / f".site-staging-{ended.pid}", case / f".site-staging-{os.getppid()}"
    stale.mkdir()
    alive.mkdir()
    publish_case(case)
    assert not stale.exists()
    assert alive.exists()


def test_the_last_site_comes_back_where_a_build_was_killed_between_two_renames(case):
    publish_case(case)
    before = content(case / "site")
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    (case / "site").rename(case / f".site-staging-{ended.pid}-old")
    with pytest.raises(RuntimeError), Staging(case / "site"):
        raise RuntimeError("this build stops too")
    assert content(case / "site") == before
    assert not list(case.glob(".site-staging-*"))


def test_an_address_is_put_once(tmp_path):
    with Staging(tmp_path / "site") as stage:
        stage.put("a/b.html", b"1")
        with pytest.raises(FileExistsError):
            stage.put("a/b.html", b"2")


def two_folders(tmp_path):
    new, old = tmp_path / "new", tmp_path / "old"
    for folder, text in ((new, "new"), (old, "old")):
        folder.mkdir()
        (folder / "file").write_text(text)
    return new, old


@pytest.mark.parametrize("at_once", [True, False])
def test_an_exchange_puts_each_folder_in_the_place_of_the_other(tmp_path, monkeypatch, at_once):
    new, old = two_folders(tmp_path)
    if not at_once:
        monkeypatch.setattr(exchange_module.sys, "platform", "another")
    exchange(new, old)
    assert (old / "file").read_text() == "new"
    assert (new / "file").read_text() == "old"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["new", "old"]


def test_an_exchange_in_steps_that_cannot_finish_puts_the_old_folder_back(tmp_path, monkeypatch):
    new, old = two_folders(tmp_path)
    monkeypatch.setattr(exchange_module.sys, "platform", "another")
    (new / "file").unlink()
    new.rmdir()
    with pytest.raises(FileNotFoundError):
        exchange(new, old)
    assert (old / "file").read_text() == "old"


KILLED = """\
import dataclasses, os, pathlib, signal, sys
from publishing_case import plain_frames
from assurance.assess import assess
from assurance.publish import publish
from assurance.reading import read_case

case = read_case(pathlib.Path(sys.argv[1]))
assessment = assess(case)
dying = dataclasses.replace(case, as_written=lambda id_: os.kill(os.getpid(), signal.SIGKILL))
cache = case.folder.parent / "cache"
publish(dying, assessment, case.folder / "site", render_frames=plain_frames, cache_dir=cache)
"""


@pytest.mark.skipif(os.name != "posix", reason="needs a signal that cannot be caught")
def test_a_build_that_is_killed_leaves_the_last_good_site_and_the_next_one_clears_up(case):
    publish_case(case)
    before = content(case / "site")
    here = Path(__file__).parent
    done = subprocess.run([sys.executable, "-c", KILLED, str(case)], cwd=here, check=False)
    assert done.returncode == -9
    assert content(case / "site") == before
    assert list(case.glob(".site-staging-*"))
    publish_case(case)
    assert not list(case.glob(".site-staging-*"))
