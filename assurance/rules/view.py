"""What a rule looks at, and the findings that causes give."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.model.fields import ID_PATTERN, Record
from assurance.model.verdicts import Finding, Place, Reason, ReasonKind, Verdict, Weight
from assurance.standing.facts import retired_records

UNREAD_LOOKED_AT = 200  # records not read whole; with more, anything may be named in one of them


@dataclass(frozen=True)
class View:
    """A finished assessment and the text it was read from."""

    assessment: Assessment
    case: CaseText

    @cached_property
    def causes(self) -> dict[ReasonKind, list[Reason]]:
        """Every cause of the case by kind, each once, in order of place.

        A retired record that nothing needs no longer counts, so its causes do not either.
        """
        once: dict[str, Reason] = {}
        for id_, reasons in self.assessment.reasons.items():
            if self._no_longer_counts(id_, reasons):
                continue
            for reason in reasons:
                if reason.kind is not ReasonKind.NEEDS:
                    once.setdefault(reason.key, reason)
        found: dict[ReasonKind, list[Reason]] = {}
        for reason in sorted(once.values(), key=_in_order):
            found.setdefault(reason.kind, []).append(reason)
        return found

    def _no_longer_counts(self, id_: str, reasons: Iterable[Reason]) -> bool:
        if id_ not in self.retired or id_ in self.assessment.top_claims.values():
            return False
        return all(reason.kind is not ReasonKind.RETIRED_BUT_NEEDED for reason in reasons)

    @cached_property
    def argued_is_unknown(self) -> bool:
        """Whether something that argues, or a file that may hold it, was not read whole."""
        entries = self.assessment.entries
        kinds = {entries[one.record].kind for one in self.assessment.input_findings if one.record in entries}
        anywhere = any(not one.record for one in self.assessment.input_findings)
        return anywhere or bool(kinds & {"claims", "hazards", "calculations"})

    def may_be_named(self, id_: str) -> bool:
        """Whether a record or file that was not read whole may name this record.

        What such a record would have named is not to be reported as named by nobody.
        """
        return self._unread is None or id_ in self._unread

    @cached_property
    def _unread(self) -> frozenset[str] | None:
        """The words of what was not read whole, and of what its findings guess; none for too many."""
        findings = self.assessment.input_findings
        stubs = [id_ for id_, entry in self.assessment.entries.items() if entry.record is None]
        if len(stubs) > UNREAD_LOOKED_AT or any(not one.record for one in findings):
            return None
        texts = [*(self.case.as_written(id_)[1] for id_ in stubs), *(one.remedy for one in findings)]
        return frozenset(word for text in texts for word in re.findall(ID_PATTERN, text))

    @cached_property
    def retired(self) -> frozenset[str]:
        """The records that say, as they must, that they no longer count."""
        return retired_records(self.case, self.assessment.as_of)

    @cached_property
    def living(self) -> Mapping[str, tuple[tuple[str, Record], ...]]:
        """By kind: the records that were read whole and are not retired, by id in order."""
        found: dict[str, list[tuple[str, Record]]] = {}
        for id_ in self.case.in_order:
            entry = self.case.entries[id_]
            if entry.record is not None and id_ not in self.retired:
                found.setdefault(entry.kind, []).append((id_, entry.record))
        return {kind: tuple(records) for kind, records in found.items()}

    def place(self, record: str, *path: str | int) -> Place:
        """Where a field of a record stands."""
        return self.case.locate(record, path)


def _in_order(reason: Reason) -> tuple[str, int, int, str]:
    """By place, taken apart: tuples are compared far faster than places."""
    return (reason.place.file, reason.place.line, reason.place.column, reason.text)


@dataclass(frozen=True, slots=True)
class Rule:
    """One thing looked for: a name in plain words, how much it weighs, and the function that looks."""

    name: str
    weight: Weight
    look: Callable[["View"], Iterable[Finding]]

    @property
    def doc(self) -> str:
        """What, why, and examples, as written at the function."""
        return self.look.__doc__ or ""


def weight_of(reason: Reason) -> Weight:
    """How much a cause weighs: what fails, is adverse or broken blocks; what is provisional is a note."""
    if reason.verdict == Verdict.FAILS:
        return Weight.BLOCKING
    if reason.kind in (ReasonKind.EVIDENCE_ADVERSE, ReasonKind.INPUT_BROKEN):
        return Weight.BLOCKING
    return Weight.NOTE if reason.verdict == Verdict.PROVISIONAL else Weight.CAUTION


def from_causes(view: View, kind: ReasonKind) -> Iterator[Finding]:
    """One finding for each cause of a kind; what is only inherited gives none."""
    told = {finding.place for finding in view.assessment.input_findings}
    for reason in view.causes.get(kind, ()):
        if reason.place in told:
            continue  # the reading has said what is wrong there
        yield Finding(kind.value, weight_of(reason), reason.record, reason.place, reason.text, reason.remedy)
