"""Every broken case of the corpus gives the findings that it marks, at their place, and no other."""

from pathlib import Path

import pytest
from corpus_files import CorpusFile, Expected, corpus

from assurance.checking import check_case
from assurance.model.verdicts import Finding
from assurance.reading.rules import INPUT_RULES
from assurance.store import Store

CASES = corpus()
EACH_CASE = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


def findings_of(folder: Path) -> tuple[Finding, ...]:
    """What `check` reports of a folder."""
    return check_case(folder).findings


def as_expected(finding: Finding, marks: list[Expected]) -> Expected:
    """A finding as it would be marked, with the words of its mark where it tells them."""
    place = finding.place
    bare = Expected(place.file, place.line, place.column, finding.rule, finding.weight.value)
    said = f"{finding.message} {finding.remedy}"
    for mark in marks:
        told = Expected(bare.file, bare.line, bare.column, bare.rule, bare.weight, mark.told)
        if told == mark and mark.told in said:
            return told
    return Expected(bare.file, bare.line, bare.column, bare.rule, bare.weight, said)


@EACH_CASE
def test_a_broken_case_gives_what_it_marks_and_nothing_else(case: CorpusFile, tmp_path: Path) -> None:
    findings = findings_of(case.write(tmp_path))

    assert sorted(as_expected(one, case.expected) for one in findings) == case.expected


@pytest.mark.slow
@EACH_CASE
def test_a_broken_case_gives_the_same_findings_again_from_a_warm_store(
    case: CorpusFile, tmp_path: Path
) -> None:
    folder, store = case.write(tmp_path), Store(tmp_path / "store")

    assert check_case(folder, store=store) == check_case(folder, store=store)


@EACH_CASE
def test_a_corpus_file_says_in_a_sentence_what_is_wrong(case: CorpusFile) -> None:
    assert case.sentence.endswith("."), case.sentence
    assert case.expected or case.sentence.endswith("a sound case.") or "are read." in case.sentence


def test_the_corpus_holds_enough_broken_cases() -> None:
    broken = [case for case in CASES if case.expected]
    assert len(broken) >= 130


def test_every_rule_of_the_reading_is_marked_somewhere() -> None:
    marked = {mark.rule for case in CASES for mark in case.expected}

    assert {name for name, _ in INPUT_RULES} - marked == set()


@pytest.mark.parametrize("name", ["a folder that is not there", "a file in its place"])
def test_what_is_no_case_folder_is_one_finding(name: str, tmp_path: Path) -> None:
    folder = tmp_path / "case"
    if name == "a file in its place":
        folder.write_text("claims:\n")

    (finding,) = findings_of(folder)

    assert (finding.rule, finding.weight.value) == ("case-missing", "blocking")
    assert "`case`" in finding.message
