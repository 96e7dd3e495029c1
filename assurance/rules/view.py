"""What a rule looks at, and the findings that causes give."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.model.verdicts import Finding, Place, Reason, ReasonKind, Verdict, Weight


@dataclass(frozen=True)
class View:
    """A finished assessment and the text it was read from."""

    assessment: Assessment
    case: CaseText

    @cached_property
    def causes(self) -> dict[ReasonKind, list[Reason]]:
        """Every cause of the case by kind, each once, in order of place."""
        once: dict[str, Reason] = {}
        for reasons in self.assessment.reasons.values():
            for reason in reasons:
                if reason.kind is not ReasonKind.NEEDS:
                    once.setdefault(reason.key, reason)
        found: dict[ReasonKind, list[Reason]] = {}
        for reason in sorted(once.values(), key=lambda one: (one.place, one.text)):
            found.setdefault(reason.kind, []).append(reason)
        return found

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
