"""Every change of a file that the case follows from is seen, and once."""

import os
import shutil

import pytest

from assurance.reading import read_case
from assurance.scaffold import new_case
from assurance.serving import Watch


@pytest.fixture
def case(tmp_path):
    new_case(tmp_path / "mine")
    return tmp_path / "mine"


@pytest.fixture
def watch(case):
    watch = Watch(case)
    watch.changed()
    watch.follow(read_case(case))
    return watch


def touch_later(path, text):
    before = path.stat()
    path.write_text(text)
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns + 1))


def same_size(path):
    touch_later(path, "x" * path.stat().st_size)


def in_a_new_folder(path):
    path.parent.mkdir()
    path.write_text("")


CHANGES = {
    "an edit of the same size": ("claims/case.yml", same_size),
    "a new file": ("hazards/more.yaml", lambda path: path.write_text("")),
    "a new file in a new folder": ("claims/deep/x.yml", in_a_new_folder),
    "a file that is gone": ("hazards/hazards.yml", lambda path: path.unlink()),
    "a data file": ("claims/data/bars.csv", lambda path: path.write_text("x")),
    "a data file that is gone": ("claims/data/bars.csv", lambda path: path.unlink()),
    "a report": ("claims/reports/bars.txt", lambda path: path.write_text("x")),
    "a page of the case": ("guide/index.md", lambda path: path.write_text("x")),
    "the settings": ("mkdocs.yml", lambda path: path.write_text("site_name: X")),
}


@pytest.mark.parametrize(("file", "change"), CHANGES.values(), ids=CHANGES)
def test_a_change_is_seen_once(case, watch, file, change):
    assert watch.changed() == ()
    change(case / file)
    assert watch.changed() == (file,)
    assert watch.changed() == ()


def test_a_file_put_in_the_place_of_another_with_its_time_and_size_is_seen(case, watch):
    path = case / "claims" / "case.yml"
    shutil.copy2(path, case / "claims" / "case.new")
    (case / "claims" / "case.new").replace(path)
    assert watch.changed() == ("claims/case.yml",)


@pytest.mark.parametrize("name", ["claims/.case.yml.swp", "claims/case.yml~", "site/index.html", "notes.txt"])
def test_what_the_case_does_not_follow_from_is_not_looked_at(case, watch, name):
    (case / name).parent.mkdir(exist_ok=True)
    (case / name).write_text("x")
    assert watch.changed() == ()


def test_an_edit_made_while_the_case_was_read_is_still_seen(case, watch):
    read = read_case(case)
    (case / "claims" / "case.yml").write_text("case: {}\n")
    watch.follow(read)
    assert watch.changed() == ("claims/case.yml",)


def test_a_file_that_is_named_from_now_on_is_looked_at_and_is_no_change_itself(case, watch):
    (case / "claims" / "reports" / "new.txt").write_text("x")
    path = case / "claims" / "bracket.yml"
    path.write_text(path.read_text().replace("files:\n", "files:\n      - reports/new.txt\n", 1))
    watch.changed()
    watch.follow(read_case(case))
    assert watch.changed() == ()
    (case / "claims" / "reports" / "new.txt").write_text("changed")
    assert watch.changed() == ("claims/reports/new.txt",)


def test_a_file_that_is_no_longer_named_is_no_change(case, watch):
    path = case / "claims" / "bracket.yml"
    path.write_text(path.read_text().replace("reports/bars.txt", "reports/stress.txt"))
    watch.changed()
    watch.follow(read_case(case))
    assert watch.changed() == ()
