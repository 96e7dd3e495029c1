"""Rules: each looks for one thing in a finished assessment and is documented once, where it is written."""

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.model.verdicts import Finding, Weight
from assurance.rules.registry import RULES
from assurance.rules.view import View

_ORDER = {Weight.BLOCKING: 0, Weight.CAUTION: 1, Weight.NOTE: 2}


def run_rules(assessment: Assessment, case: CaseText) -> tuple[Finding, ...]:
    """Every finding of a case: those of the reading, then those of each rule; heaviest first."""
    view = View(assessment, case)
    found = [*assessment.input_findings, *(finding for rule in RULES for finding in rule.look(view))]
    return tuple(sorted(dict.fromkeys(found), key=_rank))


def _rank(finding: Finding) -> tuple[object, ...]:
    place = finding.place  # taken apart: tuples are compared far faster than places
    return (
        _ORDER[finding.weight], place.file, place.line, place.column,
        finding.rule, finding.record, finding.message,
    )  # fmt: skip
