"""Findings, reasons and the summary of a build as text for a terminal."""

from collections.abc import Iterator

from assurance.model.assessment import Assessment
from assurance.model.verdicts import Finding, Reason, ReasonKind, Weight
from assurance.reading.rule_examples import EXAMPLES, WHY
from assurance.reading.rules import INPUT_RULES
from assurance.reports import summary
from assurance.reports.shown import shown_text
from assurance.reports.summary import count_line
from assurance.rules.docs import RuleDoc, document
from assurance.rules.registry import RULES

__all__ = [
    "count_line", "finding_lines", "reason_tree", "rule_lines", "rule_names", "tally_line", "top_lines",
]  # fmt: skip
DEEPEST = 40  # levels of a tree that are indented


def finding_lines(findings: tuple[Finding, ...]) -> Iterator[str]:
    """Each finding with its place, its rule and what puts it right."""
    for one in findings:
        place = f"{one.place}: " if one.place.file else ""
        yield shown_text(f"{place}{one.weight.value} [{one.rule}] {one.message}")
        if one.remedy:
            yield shown_text(f"    {one.remedy}")


def top_lines(assessment: Assessment) -> Iterator[str]:
    """The verdict of each top claim."""
    yield from summary.top_lines(assessment.top_claims, assessment.verdicts)


def tally_line(assessment: Assessment) -> str:
    """How many claims have each verdict."""
    return summary.tally_line(assessment.verdicts[one] for one in assessment.of_kind("claims"))


def reason_tree(assessment: Assessment, record: str) -> Iterator[str]:
    """The reasons behind a verdict as a tree, each record told once."""
    yield f"{record}: {assessment.verdicts[record].word}"
    told = {record}
    waiting = [(reason, 1) for reason in reversed(assessment.reasons.get(record, ()))]
    while waiting:  # a chain may be deeper than calls may be nested
        reason, depth = waiting.pop()
        again = reason.record in told
        yield from map(shown_text, _reason_lines(reason, "  " * min(depth, DEEPEST), again))
        if reason.kind is ReasonKind.NEEDS and not again:
            told.add(reason.record)
            below = assessment.reasons.get(reason.record, ())
            waiting += [(one, depth + 1) for one in reversed(below)]


def _reason_lines(reason: Reason, indent: str, again: bool) -> Iterator[str]:
    if reason.kind is not ReasonKind.NEEDS:
        yield from _cause_lines(reason, indent)
        return
    yield f"{indent}needs {reason.record}: {reason.verdict.word}  {reason.place}{_told(again)}"


def _told(again: bool) -> str:
    return " (told above)" if again else ""


def _cause_lines(reason: Reason, indent: str) -> Iterator[str]:
    yield f"{indent}{reason.text}  [{reason.kind.value}]  {reason.place}"
    if reason.remedy:
        yield f"{indent}  To put right: {reason.remedy}"


def rule_names() -> tuple[str, ...]:
    """The names of all rules, those of the reading included."""
    return (*(rule.name for rule in RULES), *(name for name, _ in INPUT_RULES))


def rule_lines(name: str) -> Iterator[str]:
    """What a rule looks for, why, and an example of each kind; nothing where there is no such rule."""
    for rule in RULES:
        if rule.name == name:
            yield from document(rule).text.splitlines()
    if name == ReasonKind.INPUT_BROKEN.value:
        yield "A record or a file cannot be read whole; while that is so the top claim is open. Rules:"
        yield from (f"  {input_rule}: {what}" for input_rule, what in INPUT_RULES)
    for input_rule, what in INPUT_RULES:
        if input_rule == name:
            one = EXAMPLES[name]
            doc = RuleDoc(name, Weight.BLOCKING, what, WHY, one.remedy, one.bad, one.good)
            yield from doc.text.splitlines()
