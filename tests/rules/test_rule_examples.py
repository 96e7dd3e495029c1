"""The examples of every rule, laid over a whole case: the bad one is found at its line, the good one is not."""

import pytest
from base_case import FILES, assessed, digest, told

from assurance.model.verdicts import ReasonKind
from assurance.rules.docs import document
from assurance.rules.registry import RULES

# What a bad example shows besides its own rule, because one thing follows from the other.
ALSO = {
    "undeveloped": {},
}
WEIGHTS = {rule.name: rule.weight for rule in RULES}


def filled(example):
    """An example with the digests of the files beside it in place of their names."""
    for name, file in {
        "COUPON_DIGEST": "data/coupons.csv",
        "TWELVE_DIGEST": "data/twelve-coupons.csv",
        "FIVE_DIGEST": "data/five-coupons.csv",
        "BRACKET_DIGEST": "data/bracket.csv",
        "HOLE_DIGEST": "data/hole.csv",
        "DIGEST": "reports/step-test.txt",
    }.items():
        example = example.replace(name, digest(FILES[file]))
    return example


def test_the_whole_case_gives_no_finding(tmp_path):
    assert told(assessed(tmp_path / "case").findings) == []


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_bad_example_is_found_at_its_line_and_nothing_else_is(rule, tmp_path):
    example = filled(document(rule).bad)
    marked = [number for number, line in enumerate(example.splitlines(), 1) if line.endswith("# here")]
    findings = assessed(tmp_path / "case", example).findings
    own = [one for one in findings if one.rule == rule.name]
    print("ALLX", rule.name, sorted({one.rule for one in findings} - {rule.name}), told(findings), marked)
    assert [one.place.line for one in own] == marked, told(findings)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_good_example_is_silent(rule, tmp_path):
    findings = assessed(tmp_path / "case", filled(document(rule).good)).findings
    print("GOODX", rule.name, told(findings))
    assert rule.name not in {one.rule for one in findings}
