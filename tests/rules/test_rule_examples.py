"""The examples of every rule, laid over a whole case: the bad one is found at its line."""

import pytest
from base_case import assessed, told

from assurance.model.verdicts import ReasonKind
from assurance.rules.docs import document
from assurance.rules.registry import RULES

# Where an example cannot but show another fault as well: a doubt about a plan needs a plan.
ALSO = {
    "undeveloped-without-plan": {"undeveloped"},
    "undeveloped-with-argument": {"undeveloped"},
    "weaker-alternative": {"evidence-draft"},
    "assumption-without-review-date": {"assumption-unconfirmed"},
    "assumption-refuted": {"record-retired"},
    "case-without-hazards": {"record-retired", "failure-mode-not-reached"},
    "hazard-not-reached": {"record-retired"},
    "retired-but-needed": {"record-retired"},
    "retired-without-reason": {"record-retired"},
    "control-without-type": {"rating-may-not-fall"},  # without a type it lowers nothing
    "factor-put-on-nowhere": {"result-not-worked-out"},  # of the calculation that it is kept off
    "risk-not-stated-for-these-controls": {"control-not-shown"},
}
KINDS_OF_CAUSE = {kind.value for kind in ReasonKind}
OWN_RULES = [rule for rule in RULES if rule.name not in KINDS_OF_CAUSE]
EACH_RULE = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)


def test_the_whole_case_gives_no_finding(tmp_path):
    assert told(assessed(tmp_path / "case").findings) == []


@EACH_RULE
def test_a_bad_example_is_found_at_its_line_and_nothing_else_is(rule, tmp_path):
    example = document(rule).bad
    marked = [number for number, line in enumerate(example.splitlines(), 1) if line.endswith("# here")]
    findings = assessed(tmp_path / "case", example).findings
    own = [one for one in findings if one.rule == rule.name]
    assert [(one.place.file, one.place.line) for one in own] == [
        ("claims/example.yml", line) for line in marked
    ], told(findings)
    assert {one.rule for one in findings} - {rule.name} <= ALSO.get(rule.name, set()), told(findings)


@EACH_RULE
def test_a_good_example_is_silent(rule, tmp_path):
    findings = assessed(tmp_path / "case", document(rule).good).findings
    assert {one.rule for one in findings} <= ALSO.get(rule.name, set()), told(findings)


@pytest.mark.parametrize("rule", OWN_RULES, ids=lambda rule: rule.name)
def test_a_message_says_what_and_what_puts_it_right_in_our_words(rule, tmp_path):
    findings = assessed(tmp_path / "case", document(rule).bad).findings
    for one in [one for one in findings if one.rule == rule.name]:
        assert one.message.endswith((".", "?", "!")), one.message
        assert one.remedy.endswith("."), one.remedy
        words = {word.strip(".,:;`").lower() for word in f"{one.message} {one.remedy}".split()}
        assert not words & {"error", "invalid", "please", "successfully"}, one.message
