"""The verdicts and findings as JUnit XML, which build servers show as a list of tests.

There is no standard of it; the elements are those of the schema that build servers publish.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Literal
from xml.etree import ElementTree

from assurance.model.checked import Checked, ClaimVerdict
from assurance.model.verdicts import Finding, Verdict, Weight
from assurance.reports.shown import shown_text
from assurance.reports.summary import says

COUNTS_OF_ALL = ("tests", "failures", "errors")  # the schema knows no others of the whole list
WEIGHT_OF = {
    Verdict.FAILS: Weight.BLOCKING,
    Verdict.OPEN: Weight.CAUTION,
    Verdict.OUT_OF_DATE: Weight.CAUTION,
    Verdict.PROVISIONAL: Weight.NOTE,
}


@dataclass(frozen=True, slots=True)
class _Test:
    """One line of the list; `skipped` where it does not fail and nothing is shown by it."""

    classname: str
    name: str
    outcome: Literal["passed", "failure", "skipped"]
    message: str
    output: str


def junit_text(checked: Checked, *, fails: frozenset[Weight]) -> str:
    """A test for each claim, and one for each other record and rule with a finding, of one case.

    `fails` are the weights at which `check` exits with 1. A test fails where one of its findings
    has such a weight, so the list has a failure exactly where `check` exits with 1. Then a claim
    that its own verdict makes as heavy fails too. A claim that does not hold is never shown as
    passed: where it does not fail it is skipped, and says why.
    """
    on_claim, others = _sorted_out(checked)
    failing = fails if any(one.weight in fails for one in checked.findings) else frozenset()
    tests = list(
        chain(
            (_claim_test(one, on_claim.get(one.id, []), failing) for one in checked.claims),
            (_finding_test(named, found, failing) for named, found in others.items()),
        )
    )
    suite = _suite(checked, tests)
    counts = {key: suite.attrib[key] for key in COUNTS_OF_ALL}
    root = ElementTree.Element("testsuites", {"name": "Holdwater", **counts})
    root.append(suite)
    ElementTree.indent(root, " ")
    text = ElementTree.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'


def _sorted_out(
    checked: Checked,
) -> tuple[Mapping[str, list[Finding]], Mapping[tuple[str, str], list[Finding]]]:
    """The findings by the claim they lie on, and the others by file and by rule with record."""
    claims = {one.id for one in checked.claims}
    on_claim: dict[str, list[Finding]] = {}
    others: dict[tuple[str, str], list[Finding]] = {}
    for one in checked.findings:
        if one.record in claims:
            on_claim.setdefault(one.record, []).append(one)
        else:
            named = (shown_text(one.place.file or checked.case), f"{one.rule} {one.record}".strip())
            others.setdefault(named, []).append(one)
    return on_claim, others


def _claim_test(claim: ClaimVerdict, found: Sequence[Finding], fails: frozenset[Weight]) -> _Test:
    told = "\n".join(map(_told, found))
    words = f"The claim {says(claim.verdict)}."
    why = f"{words} `holdwater explain {claim.id}` tells why."
    if any(one.weight in fails for one in found):
        return _Test(claim.place.file, claim.id, "failure", f"{words} {found[0].message}", told)
    if WEIGHT_OF.get(claim.verdict) in fails:
        return _Test(claim.place.file, claim.id, "failure", why, told)
    holds = claim.verdict is Verdict.HOLDS
    return _Test(claim.place.file, claim.id, "passed" if holds else "skipped", "" if holds else why, told)


def _finding_test(named: tuple[str, str], found: Sequence[Finding], fails: frozenset[Weight]) -> _Test:
    classname, name = named
    first, told = found[0].message, "\n".join(map(_told, found))
    fail = any(one.weight in fails for one in found)
    return _Test(classname, name, "failure" if fail else "skipped", first, told)


def _told(finding: Finding) -> str:
    place = f"{finding.place}: " if finding.place.file else ""
    return f"{place}{finding.weight.value} [{finding.rule}] {finding.message} {finding.remedy}".strip()


def _suite(checked: Checked, tests: Sequence[_Test]) -> ElementTree.Element:
    counts = {
        "tests": str(len(tests)),
        "failures": str(sum(one.outcome == "failure" for one in tests)),
        "errors": "0",
        "skipped": str(sum(one.outcome == "skipped" for one in tests)),
        "time": "0",
    }
    suite = ElementTree.Element("testsuite", {"name": checked.case or "no case", **counts})
    if checked.as_of:
        properties = ElementTree.SubElement(suite, "properties")
        ElementTree.SubElement(properties, "property", name="as_of", value=checked.as_of.isoformat())
    suite.extend(_elements(tests))
    return suite


def _elements(tests: Sequence[_Test]) -> Iterator[ElementTree.Element]:
    for one in tests:
        case = ElementTree.Element(
            "testcase", classname=shown_text(one.classname), name=shown_text(one.name), time="0"
        )
        output = "\n".join(map(shown_text, one.output.splitlines()))
        if one.outcome == "failure":
            failure = ElementTree.SubElement(case, "failure", message=shown_text(one.message), type="failed")
            failure.text = output or None
        elif one.outcome == "skipped":
            ElementTree.SubElement(case, "skipped", message=shown_text(one.message))
        if output and one.outcome != "failure":
            ElementTree.SubElement(case, "system-out").text = output
        yield case
