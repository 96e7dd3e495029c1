"""Every fault of reading says what puts it right, and its examples are what they are called."""

import pytest
from base_case import assessed, told

from assurance.reading.rule_examples import EXAMPLES
from assurance.reading.rules import INPUT_RULES

SHOWN = sorted(name for name, example in EXAMPLES.items() if example.bad)
# Faults of files, folders and sizes, or of the case as a whole: no few lines of YAML show them.
WITHOUT = {
    "file-not-readable", "folder-not-usable", "records-misplaced", "nested-too-deep", "too-many-values",
    "case-missing", "case-twice",
}  # fmt: skip


def test_every_fault_of_reading_is_told_and_no_other():
    assert list(EXAMPLES) == [name for name, _ in INPUT_RULES]
    assert set(EXAMPLES) - set(SHOWN) == WITHOUT


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_puts_it_right_is_a_sentence(name):
    assert EXAMPLES[name].remedy.endswith(".")
    assert bool(EXAMPLES[name].bad) is bool(EXAMPLES[name].good)


@pytest.mark.parametrize("name", SHOWN)
def test_a_bad_example_is_found_at_its_line(name, tmp_path):
    example = EXAMPLES[name].bad
    findings = assessed(tmp_path / "case", example).input_findings
    marked = [at for at, line in enumerate(example.splitlines(), 1) if line.endswith("# here")]
    found = [one.place.line for one in findings if one.rule == name]
    assert {one.rule for one in findings} == {name}, told(findings)
    assert found == marked or (not marked and len(found) == 1), told(findings)


@pytest.mark.parametrize("name", SHOWN)
def test_a_good_example_is_read_whole(name, tmp_path):
    findings = assessed(tmp_path / "case", EXAMPLES[name].good).input_findings
    assert told(findings) == []
