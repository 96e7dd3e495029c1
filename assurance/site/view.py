"""What every page sees: the finished assessment with its links, people, causes and the text as written."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from assurance.model.assessment import Assessment, ResultValue
from assurance.model.case import CaseText
from assurance.model.verdicts import Missing, Place, Reason, ReasonKind, Verdict
from assurance.site import marks, wording
from assurance.site.links import Link, Links
from assurance.site.pieces import span

MOST_CAUSES = 6  # causes shown under one verdict


@dataclass(frozen=True, slots=True)
class Written:
    """A record as it stands in its file."""

    place: str
    lines: str
    text: str


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause: what is wrong, where, and what puts it right."""

    mark: Markup
    text: Markup
    place: Link
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
        self.links = Links(assessment, root)
        self.who = wording.People(assessment)

    def written(self, id_: str) -> Written:
        """The record as written; an empty text where it cannot be found again."""
        line, text = self.case.as_written(id_)
        lines = text.rstrip("\n")
        count = lines.count("\n") + 1 if lines else 0
        place = self.assessment.entries[id_].place
        return Written(f"{place.file}:{line or place.line}", wording.counted(count, "line"), lines)

    def tag(self, result: ResultValue) -> str:
        """Whether a result was computed, or who judged it."""
        if result.tag == "computed":
            return "computed"
        return f"judged by {self.who(result.by)}" if result.by else "judged"

    def causes(self, id_: str) -> tuple[Reason, ...]:
        """The causes of a verdict, nearest first: its own, then those of what it needs."""
        found: dict[str, Reason] = {}
        waiting, seen = [id_], {id_}
        while waiting and len(found) <= MOST_CAUSES:
            nearer: list[str] = []
            for one in waiting:
                for reason in self.assessment.reasons.get(one, ()):
                    if reason.kind is not ReasonKind.NEEDS:
                        found.setdefault(reason.key or f"{reason.record} {reason.text}", reason)
                    elif reason.record not in seen:
                        seen.add(reason.record)
                        nearer.append(reason.record)
            waiting = nearer
        return tuple(sorted(found.values(), key=lambda one: -one.verdict))

    def cause_rows(self, causes: tuple[Reason, ...]) -> tuple[CauseRow, ...]:
        """Causes as rows, as many as are shown under one verdict."""
        return tuple(self._cause_row(one) for one in causes[:MOST_CAUSES])

    def _cause_row(self, reason: Reason) -> CauseRow:
        missing = self._missing.get((reason.record, reason.kind, reason.text))
        return CauseRow(
            mark=marks.mark(reason.verdict),
            text=self.fault(reason.record, reason.text, reason.place),
            place=self.links.place(reason.place, reason.record),
            remedy=self.links.say(wording.sentence(reason.remedy)),
            terms=self.terms(missing) if missing else "",
        )

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

    @cached_property
    def _missing(self) -> dict[tuple[str, ReasonKind, str], Missing]:
        return {(one.record, one.kind, one.text): one for one in self.assessment.missing}

    def holds(self, id_: str) -> bool:
        """Whether a record holds; one without a verdict has nothing against it."""
        return self.assessment.verdicts.get(id_, Verdict.HOLDS) is Verdict.HOLDS
