"""The Gaps page: what stands between today and the use, and what else `check` reports."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.verdicts import Finding, ReasonKind, Verdict, Weight
from assurance.site import marks, wording
from assurance.site.block import use_verdict
from assurance.site.gap_rows import OwnerRows, by_owner
from assurance.site.links import Link
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View

_NOUNS = {Weight.BLOCKING: "blocking finding", Weight.CAUTION: "caution", Weight.NOTE: "note"}


@dataclass(frozen=True, slots=True)
class FindingRow:
    """One finding of `check`."""

    rule: str
    message: Markup
    remedy: Markup
    place: Link


@dataclass(frozen=True, slots=True)
class FindingGroup:
    """The findings of one weight."""

    weight: Markup
    count: str
    rows: tuple[FindingRow, ...]
    more: str
    open: bool


@dataclass(frozen=True, slots=True)
class VerdictCount:
    """How many things to put right keep a claim at a verdict."""

    count: str
    word: Markup


@dataclass(frozen=True, slots=True)
class GapsPage:
    """What `gaps.html` shows."""

    count: str
    counts: tuple[VerdictCount, ...]
    owners: tuple[OwnerRows, ...]
    more: str
    empty: Markup
    findings: tuple[FindingGroup, ...]
    finding_counts: str


def gaps_page(view: View) -> GapsPage:
    """The Gaps page of a case."""
    missing = view.assessment.missing
    others = _others(view)
    groups = tuple(_group(view, weight, [one for one in others if one.weight == weight]) for weight in Weight)
    return GapsPage(
        count=wording.counted(len(missing), "gap") if missing else "Gaps",
        counts=tuple(
            VerdictCount(f"{count:,}", marks.verdict_word(verdict))
            for verdict in reversed(Verdict)
            if (count := sum(one.verdict is verdict for one in missing))
        ),
        owners=by_owner(view, missing[:MOST_ROWS]),
        more=more_rows(len(missing)),
        empty=_empty(view),
        findings=tuple(group for group in groups if group.rows),
        finding_counts=_finding_counts(others, of=len(view.assessment.findings)),
    )


def _finding_counts(others: list[Finding], *, of: int) -> str:
    """What stands in the lists beneath, and how much of what `check` reports is a gap already."""
    counts = [(weight, sum(one.weight == weight for one in others)) for weight in Weight]
    said = ", ".join(wording.counted(count, _NOUNS[weight]) for weight, count in counts if count)
    above = of - len(others)
    if not above:
        return said
    gaps = f"{above:,} {'more ' if said else ''}{'is a gap' if above == 1 else 'are gaps'} above"
    return f"{said}; {gaps}" if said else gaps


def _others(view: View) -> list[Finding]:
    """The findings that do not stand among the gaps already."""
    missing = view.assessment.missing
    gaps = {(one.record, one.kind.value) for one in missing}
    unread = {one.place for one in missing if one.kind is ReasonKind.INPUT_BROKEN}
    return [
        one
        for one in view.assessment.findings
        if (one.record, one.rule) not in gaps and one.place not in unread
    ]


def _empty(view: View) -> Markup:
    """That there is no gap, where that is so."""
    verdict, top = use_verdict(view.assessment), view.assessment.top_claims.get("use", "")
    if verdict is not Verdict.HOLDS:
        concluding = top in view.assessment.entries
        return view.links.say(wording.none_missing(verdict, concluding=concluding))
    day = wording.day(view.assessment.as_of)
    return view.links.say(
        f"No gap. Everything that the conclusion needs holds as of {day}." if day else "No gap."
    )


def _group(view: View, weight: Weight, findings: list[Finding]) -> FindingGroup:
    return FindingGroup(
        weight=marks.weight_word(weight),
        count=wording.counted(len(findings), "finding"),
        rows=tuple(_row(view, one) for one in findings[:MOST_ROWS]),
        more=more_rows(len(findings)),
        open=weight is not Weight.NOTE,
    )


def _row(view: View, finding: Finding) -> FindingRow:
    return FindingRow(
        rule=finding.rule,
        message=view.about(finding.record, wording.sentence(finding.message)),
        remedy=view.links.say(wording.sentence(finding.remedy)),
        place=view.links.place(finding.place, finding.record),
    )
