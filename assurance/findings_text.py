"""Findings, reasons and the summary of a build as text for a terminal."""

from collections.abc import Iterator

from assurance.model.assessment import Assessment
from assurance.model.verdicts import Finding, Reason, ReasonKind, Verdict, Weight
from assurance.reading.rules import INPUT_RULES
from assurance.rules.docs import document
from assurance.rules.registry import RULES


def finding_lines(findings: tuple[Finding, ...]) -> Iterator[str]:
    """Each finding with its place, its rule and what puts it right."""
    for one in findings:
        place = f"{one.place}: " if one.place.file else ""
        yield f"{place}{one.weight.value} [{one.rule}] {one.message}"
        if one.remedy:
            yield f"    {one.remedy}"


def count_line(findings: tuple[Finding, ...]) -> str:
    """How many findings there are of each weight."""
    counts = [(weight, sum(one.weight is weight for one in findings)) for weight in Weight]
    return ", ".join(_counted(count, weight.value) for weight, count in counts)


def _counted(count: int, word: str) -> str:
    plain = {"blocking": "blocking finding", "caution": "caution", "note": "note"}[word]
    return f"{count} {plain}" if count == 1 else f"{count} {plain}s"


def top_lines(assessment: Assessment) -> Iterator[str]:
    """The verdict of each top claim."""
    if not assessment.top_claims:
        yield "No top claim: name one under `top_claims` of the case."
    for stage, claim in sorted(assessment.top_claims.items()):
        verdict = assessment.verdicts[claim]
        yield f"{stage}: the top claim {claim} {_says(verdict)}."


def _says(verdict: Verdict) -> str:
    return verdict.word if verdict in (Verdict.HOLDS, Verdict.FAILS) else f"is {verdict.word}"


def tally_line(assessment: Assessment) -> str:
    """How many claims have each verdict."""
    claims = assessment.of_kind("claims")
    counts = [(word, sum(assessment.verdicts[one] == word for one in claims)) for word in Verdict]
    return f"{len(claims)} claims: " + ", ".join(f"{count} {word.word}" for word, count in counts)


def reason_tree(assessment: Assessment, record: str) -> Iterator[str]:
    """The reasons behind a verdict as a tree, each record told once."""
    yield f"{record}: {assessment.verdicts[record].word}"
    yield from _branches(assessment, record, "  ", {record})


def _branches(assessment: Assessment, record: str, indent: str, told: set[str]) -> Iterator[str]:
    for reason in assessment.reasons.get(record, ()):
        if reason.kind is not ReasonKind.NEEDS:
            yield from _cause_lines(reason, indent)
            continue
        again = reason.record in told or reason.record == record
        yield f"{indent}needs {reason.record}: {reason.verdict.word}  {reason.place}{_told(again)}"
        if not again:
            told.add(reason.record)
            yield from _branches(assessment, reason.record, indent + "  ", told)


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
            yield f"{input_rule} ({Weight.BLOCKING.value})"
            yield ""
            yield what
