"""What a rule looks at, and the findings that causes give."""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.model.fields import ID_PATTERN
from assurance.model.verdicts import Finding, Place, Reason, ReasonKind, Verdict, Weight
from assurance.standing.facts import is_retired

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
        for reason in sorted(once.values(), key=lambda one: (one.place, one.text)):
            found.setdefault(reason.kind, []).append(reason)
        return found

    def _no_longer_counts(self, id_: str, reasons: Iterable[Reason]) -> bool:
        entry = self.assessment.entries.get(id_)
        if (
            entry is None
            or not is_retired(entry.record, self.assessment.as_of)
            or id_ in self.assessment.top_claims.values()
        ):
            return False
        return all(reason.kind is not ReasonKind.RETIRED_BUT_NEEDED for reason in reasons)

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

    def place(self, record: str, *path: str | int) -> Place:
        """Where a field of a record stands."""
        return self.case.locate(record, path)


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
    for reason in view.causes.get(kind, ()):
        yield Finding(kind.value, weight_of(reason), reason.record, reason.place, reason.text, reason.remedy)
