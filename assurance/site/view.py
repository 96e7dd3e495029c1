"""What every page sees: the finished assessment with its links, people, causes and the text as written."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup
from pydantic import BaseModel

from assurance.model.argument_records import Action, Challenge
from assurance.model.assessment import Assessment, ResultValue
from assurance.model.case import CaseText
from assurance.model.verdicts import Finding, Missing, Place, Reason, ReasonKind, Verdict
from assurance.site import marks, wording
from assurance.site.chains import Traced, traced_causes
from assurance.site.links import Link, Links
from assurance.site.pieces import anchor, span
from assurance.site.written import Span, Written, written

MOST_CAUSES = 6  # causes shown under one verdict
MOST_WAYS = 2  # other ways to a cause that are named; of more, the number


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause: what is wrong, where, by which way it comes, and what puts it right."""

    mark: Markup
    text: Markup
    place: Link
    chain: Markup  # the records between, the nearest first
    remedy: Markup
    terms: str  # owner, due, what it frees


@dataclass(frozen=True, slots=True)
class Fact:
    """A label and what stands behind it."""

    label: str
    values: tuple[Markup, ...]


def as_said(text: str | None) -> tuple[Markup, ...]:
    """A text that a person wrote, as the value of a fact; nothing for no text."""
    return (span("said", text),) if text else ()


def _typed_in(record: object) -> tuple[str, ...]:
    """The sentences of a record that a reason quotes: a doubt, a task, an anomaly, a wait."""
    undeveloped = getattr(record, "undeveloped", None)
    said = [
        getattr(record, "doubt", None),
        getattr(record, "what", None),
        getattr(undeveloped, "because", None),
    ]
    said += [one.what for one in getattr(record, "anomalies", ())]
    return tuple(one.rstrip(".") for one in said if one)


def more_causes(causes: Sequence[Reason]) -> str:
    """What is said where more causes were found than are shown."""
    return "More causes lie beneath; each is on Gaps." if len(causes) > MOST_CAUSES else ""


class View:
    """The assessment as seen from a page at one depth of the site."""

    def __init__(self, case: CaseText, assessment: Assessment, root: str) -> None:
        self.case = case
        self.assessment = assessment
        self.who = wording.People(assessment)
        self._spans: dict[str, Span] = {}
        self._traced: dict[str, tuple[Traced, ...]] = {}
        self.links = Links(assessment, root, span=self._span)

    def written(self, id_: str) -> Written:
        """The record as written, with the lines that its causes and findings point at."""
        span = self._span(id_)
        at = {one.place.line: "" for one in self.findings_about(id_) if one.place.file == span.file}
        own = [one for one in self.assessment.reasons.get(id_, ()) if one.kind is not ReasonKind.NEEDS]
        for reason in sorted(own, key=lambda one: one.verdict):
            if reason.place.file == span.file:
                at[reason.place.line] = marks.css_class(reason.verdict)
        return written(span, at)

    def _span(self, id_: str) -> Span:
        found = self._spans.get(id_)
        if found is None:
            line, text = self.case.as_written(id_)
            place = self.assessment.entries[id_].place
            found = self._spans[id_] = Span(place.file, line or place.line, text.rstrip("\n"))
        return found

    def tag(self, result: ResultValue) -> str:
        """Whether a result was computed, or who judged it."""
        if result.tag == "computed":
            return "computed"
        return f"judged by {self.who(result.by)}" if result.by else "judged"

    def causes(self, id_: str) -> tuple[Reason, ...]:
        """The causes of a verdict, the worst first and the nearest first among equals."""
        return tuple(one.reason for one in self._causes(id_))

    def _causes(self, id_: str) -> tuple[Traced, ...]:
        found = self._traced.get(id_)
        if found is None:
            found = self._traced[id_] = traced_causes(self.assessment.reasons, id_, most=MOST_CAUSES)
        return found

    def cause_rows(self, id_: str) -> tuple[CauseRow, ...]:
        """The causes of a verdict as rows, as many as are shown under one verdict."""
        return tuple(self._cause_row(one) for one in self._causes(id_)[:MOST_CAUSES])

    def _cause_row(self, traced: Traced) -> CauseRow:
        reason = traced.reason
        missing = self._missing.get((reason.record, reason.kind, reason.text))
        return CauseRow(
            mark=marks.mark(reason.verdict),
            text=self.fault(reason.record, reason.text, reason.place),
            place=self.links.place(reason.place, reason.record),
            chain=self._chain(traced),
            remedy=self.links.say(wording.sentence(reason.remedy)),
            terms=self.terms(missing) if missing else "",
        )

    def _chain(self, traced: Traced) -> Markup:
        """The way from the record to a cause, each step a link, and where else it comes from."""
        if not traced.chain:
            return Markup("")
        steps = Markup(" ").join(self._step(one) for one in traced.chain)
        others = traced.others
        if not others:
            return steps
        few = len(others) <= MOST_WAYS
        named = " and ".join(f"`{one}`" for one in others) if few else f"{len(others)} other records"
        return steps + self.links.say(f", also by {named}")

    def _step(self, id_: str) -> Markup:
        named = self.links.named(id_)
        return Markup('<span class="step">') + named.mark + anchor(named.href, id_, "id") + Markup("</span>")

    def fault(self, record: str, text: str, place: Place) -> Markup:
        """What is wrong, with the record or the file in front where the text does not name it."""
        about = record if record in self.assessment.entries else place.file
        named = not about or about in text
        return self.about(record, wording.sentence(text if named else f"`{about}`: {text}"))

    def about(self, record: str, text: str) -> Markup:
        """A built text about a record; what a person wrote in that record keeps its own face."""
        entry = self.assessment.entries.get(record)
        typed = _typed_in(None if entry is None else entry.record)
        quoted = next((one for one in typed if one in text), "")
        if not quoted:
            return self.links.say(text)
        head, found, tail = text.partition(quoted)
        return self.links.say(head) + span("said", found) + self.links.say(tail)

    def terms(self, missing: Missing) -> str:
        """Whose it is, by when, and what it would free."""
        owner = f"Owner: {self.who(missing.owner) if missing.owner else 'nobody named'}"
        due = f"due {wording.day(missing.due)}" if missing.due else ""
        late = wording.late(missing.due, as_of=self.assessment.as_of)
        said = wording.sentence(", ".join(part for part in (owner, due, late) if part))
        return f"{said} Frees {wording.counted(missing.frees, 'claim')}." if missing.frees else said

    def findings_about(self, id_: str) -> Sequence[Finding]:
        """What `check` reports about a record."""
        return self._findings.get(id_, ())

    @cached_property
    def _findings(self) -> dict[str, list[Finding]]:
        found: dict[str, list[Finding]] = {}
        for one in self.assessment.findings:
            found.setdefault(one.record, []).append(one)
        return found

    def naming(self, id_: str) -> Sequence[tuple[str, BaseModel]]:
        """The challenges and actions that name a record, or a part of it."""
        return self._naming.get(id_, ())

    @cached_property
    def _naming(self) -> dict[str, list[tuple[str, BaseModel]]]:
        found: dict[str, list[tuple[str, BaseModel]]] = {}
        for kind in ("challenges", "actions"):
            for one, entry in self.assessment.of_kind(kind).items():
                if isinstance(entry.record, (Challenge, Action)):
                    named = entry.record.against if isinstance(entry.record, Challenge) else entry.record.on
                    found.setdefault(named.partition(".")[0], []).append((one, entry.record))
        return found

    @cached_property
    def _missing(self) -> dict[tuple[str, ReasonKind, str], Missing]:
        return {(one.record, one.kind, one.text): one for one in self.assessment.missing}

    def holds(self, id_: str) -> bool:
        """Whether a record holds; one without a verdict has nothing against it."""
        return self.assessment.verdicts.get(id_, Verdict.HOLDS) is Verdict.HOLDS
