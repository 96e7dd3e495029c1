"""The Gaps page: what stands between today and the use, and what else `check` reports."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.verdicts import Finding, Verdict, Weight
from assurance.site import marks, wording
from assurance.site.gap_rows import OwnerRows, by_owner
from assurance.site.links import Link
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View


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
    empty: str
    findings: tuple[FindingGroup, ...]
    finding_counts: str


def gaps_page(view: View) -> GapsPage:
    """The Gaps page of a case."""
    missing = view.assessment.missing
    said = {(one.record, one.kind.value) for one in missing}
    others = [one for one in view.assessment.findings if (one.record, one.rule) not in said]
    groups = tuple(_group(view, weight, [one for one in others if one.weight == weight]) for weight in Weight)
    return GapsPage(
        count=wording.counted(len(missing), "gap"),
        counts=tuple(
            VerdictCount(f"{count:,}", marks.verdict_word(verdict))
            for verdict in reversed(Verdict)
            if (count := sum(one.verdict is verdict for one in missing))
        ),
        owners=by_owner(view, missing[:MOST_ROWS]),
        more=more_rows(len(missing)),
        empty=_empty(view),
        findings=tuple(group for group in groups if group.rows),
        finding_counts=", ".join(
            f"{sum(one.weight == weight for one in view.assessment.findings)} {weight.value}"
            for weight in Weight
        ),
    )


def _empty(view: View) -> str:
    day = wording.day(view.assessment.as_of)
    return f"No gap. Every claim holds as of {day}." if day else "No gap."


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
        message=view.links.say(wording.sentence(finding.message)),
        remedy=view.links.say(wording.sentence(finding.remedy)),
        place=view.links.place(finding.place, finding.record),
    )
