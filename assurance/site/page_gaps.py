"""The Gaps page: what stands between today and the use, and what else `check` reports."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.verdicts import Finding, ReasonKind, Verdict, Weight
from assurance.site import marks, wording
from assurance.site.block import use_verdict
from assurance.site.finding_rows import findings_table
from assurance.site.gap_rows import gaps_table
from assurance.site.tables import Table, table
from assurance.site.view import View

_NOUNS = {Weight.BLOCKING: "blocking finding", Weight.CAUTION: "caution", Weight.NOTE: "note"}


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
    gaps: Table | None
    empty: Markup
    findings: Table | None
    finding_counts: str


def gaps_page(view: View) -> GapsPage:
    """The Gaps page of a case."""
    missing = view.assessment.missing
    others = _others(view)
    return GapsPage(
        count=wording.counted(len(missing), "gap") if missing else "Gaps",
        counts=tuple(
            VerdictCount(f"{count:,}", marks.verdict_word(verdict))
            for verdict in reversed(Verdict)
            if (count := sum(one.verdict is verdict for one in missing))
        ),
        gaps=table("gaps", gaps_table(view), missing, root=view.links.root),
        empty=_empty(view),
        findings=table("findings", findings_table(view), others, root=view.links.root),
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
    claims = (view.links.verdict(id_) for id_ in view.assessment.of_kind("claims"))
    who = (
        "Every claim"
        if all(one is Verdict.HOLDS for one in claims)
        else "Everything that the conclusion needs"
    )
    return view.links.say(f"No gap. {who} holds as of {day}." if day else "No gap.")
