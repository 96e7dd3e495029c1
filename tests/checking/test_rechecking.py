"""In a running process only what an edit touches is read and worked out again."""

import pytest
from kept_case import CASE, EVIDENCE, ROWS, rewrite_in_place, write_case

from assurance.assess import assess
from assurance.checking.rechecking import Rechecker
from assurance.reading import read_case


@pytest.fixture
def case(tmp_path):
    return write_case(tmp_path / "case")


def fresh(case):
    read = read_case(case)
    return read.entries, read.findings, assess(read)


def told(rechecker):
    read, assessment = rechecker.again()
    return read.entries, read.findings, assessment


EDITS = {
    "a claim": ("claims/case.yml", CASE.replace("It is strong", "It is very strong")),
    "a person": ("claims/case.yml", CASE.replace("{anna: Anna}", "{ben: Ben}")),
    "evidence": ("claims/evidence.yml", EVIDENCE.replace("state: issued", "state: draft")),
    "data": ("claims/data/rig.csv", ROWS.replace("500", "700")),
    "a broken file": ("claims/evidence.yml", "evidence: ["),
    "an empty file": ("claims/evidence.yml", ""),
    "the day": ("claims/case.yml", CASE.replace("2026-03-12", "2020-01-01")),
}


@pytest.mark.parametrize("name", EDITS)
def test_after_an_edit_and_after_taking_it_back_all_is_as_in_a_new_process(case, name):
    file, text = EDITS[name]
    rechecker, was = Rechecker(case), (case / file).read_text("utf-8")
    first = told(rechecker)
    assert first == fresh(case)
    (case / file).write_text(text, "utf-8")
    edited = told(rechecker)
    assert edited == fresh(case) != first
    (case / file).write_text(was, "utf-8")
    assert told(rechecker) == first


def test_an_edit_that_keeps_size_and_time_is_seen(case):
    rechecker = Rechecker(case)
    rechecker.again()
    rewrite_in_place(case / "claims/data/rig.csv", "500", "900")
    assert told(rechecker) == fresh(case)


def test_records_of_other_files_and_results_stay_the_same_objects(case):
    rechecker = Rechecker(case)
    read, before = rechecker.again()
    (case / "claims/case.yml").write_text(CASE.replace("It is strong", "It is very strong"), "utf-8")
    again, after = rechecker.again()
    assert again.entries["rig"] is read.entries["rig"]
    assert again.entries["strong"] is not read.entries["strong"]
    assert after.worked is before.worked


def test_a_folder_that_goes_and_comes_back_is_told(case, tmp_path):
    rechecker = Rechecker(case)
    first = told(rechecker)
    case.rename(tmp_path / "away")
    assert [one.rule for one in rechecker.again()[0].findings] == ["case-missing"]
    (tmp_path / "away").rename(case)
    assert told(rechecker) == first
