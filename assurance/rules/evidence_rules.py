"""Rules about evidence: its state, its outcome, its files, and what it leaves out."""

from collections.abc import Iterator

from assurance.model.engineering_records import EvidenceRecord, PartRecord
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, listed, living
from assurance.rules.view import View, from_causes

NO_LONGER_USED = ("withdrawn", "superseded")


def evidence_draft(view: View) -> Iterator[Finding]:
    """Evidence is a draft, or is called issued and has neither a file nor a result.

    Why: A draft can still change. What rests on it is provisional until it is issued.

    Put right: Issue it, with its file under `files` or a value under `results`.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: draft  # here
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}
    """
    yield from from_causes(view, ReasonKind.EVIDENCE_DRAFT)


def evidence_superseded(view: View) -> Iterator[Finding]:
    """Evidence that something rests on has been superseded.

    Why: There is a newer record, and what it says has not been looked at here.

    Put right: Rest on the newer record.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: superseded
            superseded_by: rail-inspection-2  # here
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}
          rail-inspection-2:
            title: Second inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            results: {play: {value: 0.2 mm, where: line 3, read_by: cleo}}

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            results: {play: {value: 0.2 mm, where: line 3, read_by: cleo}}
    """
    yield from from_causes(view, ReasonKind.EVIDENCE_SUPERSEDED)


def evidence_withdrawn(view: View) -> Iterator[Finding]:
    """Evidence has been withdrawn.

    Why: Whoever made it no longer stands by it, so nothing can rest on it.

    Put right: Name other evidence in its place, or issue it again.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: withdrawn  # here
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}
    """
    yield from from_causes(view, ReasonKind.EVIDENCE_WITHDRAWN)


def evidence_adverse(view: View) -> Iterator[Finding]:
    """Evidence failed, was stopped early, has an anomaly, or does not state its outcome.

    Why: What speaks against a claim counts whoever rests on it, whatever its state or its age.

    Put right: Put right what it shows and test again; state the outcome where it is left out.

    Bad::

        evidence:
          rail-pull-test:
            title: Rail pulled sideways
            kind: test
            outcome: failed  # here
            state: issued
            date: 2026-01-22
            producer: cleo
            parts: [{part: rail, issue: A, serial: R-001}]
            results: {set: {value: 3.1 mm, where: line 8, read_by: cleo}}

    Good::

        evidence:
          rail-pull-test:
            title: Rail pulled sideways
            kind: test
            outcome: passed
            state: issued
            date: 2026-01-22
            producer: cleo
            parts: [{part: rail, issue: A, serial: R-001}]
            results: {set: {value: 0.1 mm, where: line 8, read_by: cleo}}
    """
    yield from from_causes(view, ReasonKind.EVIDENCE_ADVERSE)


def evidence_inconclusive(view: View) -> Iterator[Finding]:
    """Evidence that something rests on was inconclusive.

    Why: It neither shows the claim nor speaks against it.

    Put right: Repeat it, or rest on other evidence.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: inconclusive  # here
            state: issued
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}
    """
    yield from from_causes(view, ReasonKind.EVIDENCE_INCONCLUSIVE)


def evidence_incomplete(view: View) -> Iterator[Finding]:
    """A test does not say which part, issue or serial it was about, or when it was done.

    Why: A test of another issue, or of nobody knows what, shows nothing about the one that is used.

    Put right: Give part, issue, serial and date, or a reason for each under `not_applicable`.

    Bad::

        evidence:
          rail-pull-test:  # here
            title: Rail pulled sideways
            kind: test
            outcome: passed
            state: issued
            date: 2026-01-22
            producer: cleo
            parts: [{part: rail, issue: A}]
            results: {set: {value: 0.1 mm, where: line 8, read_by: cleo}}

    Good::

        evidence:
          rail-pull-test:
            title: Rail pulled sideways
            kind: test
            outcome: passed
            state: issued
            date: 2026-01-22
            producer: cleo
            parts: [{part: rail, issue: A}]
            not_applicable: {serial: the rail is a bought part without serials}
            results: {set: {value: 0.1 mm, where: line 8, read_by: cleo}}
    """
    yield from from_causes(view, ReasonKind.EVIDENCE_INCOMPLETE)


def evidence_without_producer(view: View) -> Iterator[Seen]:
    """Evidence does not say who made it.

    Why: Nobody can be asked, and nobody can tell whether it is independent.

    Put right: Name a person, a role or an organisation under `producer`.

    Bad::

        evidence:
          rail-inspection:  # here
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: works
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}
    """
    for id_, record in living(view, EvidenceRecord):
        if not record.producer and record.state not in NO_LONGER_USED:
            yield Seen(
                id_, (), f"`{id_}` does not say who made it.",
                "Name a person, a role or an organisation under `producer`.",
            )  # fmt: skip


def evidence_dated_after_the_case(view: View) -> Iterator[Finding]:
    """Evidence bears a date after the day of the case.

    Why: It was not there on the day that is judged, so nothing can rest on it that day.

    Put right: Correct the date of the evidence, or `as_of` of the case.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            date: 2026-03-02  # here
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            date: 2026-03-01
            producer: cleo
            results: {play: {value: 0.1 mm, where: line 3, read_by: cleo}}
    """
    yield from from_causes(view, ReasonKind.EVIDENCE_DATED_AFTER_THE_CASE)


def evidence_of_an_unknown_issue(view: View) -> Iterator[Seen]:
    """Evidence names an issue of a part that the part does not list.

    Why: Evidence about another issue may say nothing about the part as it is now; a slip of the pen
    hides which one was tested.

    Put right: Name an issue that stands under `issues` of the part, or add it there.

    Bad::

        parts:
          step: {title: Step, load_path: single, issues: [{issue: A}, {issue: B}]}
        evidence:
          step-test:
            title: Step loaded to 1.5 times limit load
            kind: test
            outcome: passed
            state: issued
            date: 2026-01-20
            producer: cleo
            parts:
              - {part: step, issue: Z, serial: S-001}  # here
            results: {permanent_set: {value: 0.02 mm, where: section 4, read_by: cleo}}

    Good::

        parts:
          step: {title: Step, load_path: single, issues: [{issue: A}, {issue: B}]}
    """
    for id_, record in living(view, EvidenceRecord):
        for index, tested in enumerate(record.parts):
            entry = view.assessment.entries.get(tested.part)
            part = entry.record if entry else None
            known = [one.issue for one in part.issues] if isinstance(part, PartRecord) else []
            if tested.issue and known and tested.issue not in known:
                yield Seen(
                    id_, ("parts", index, "issue"), f"`{id_}` is about issue `{tested.issue}` of "
                    f"`{tested.part}`, which lists {listed(known)}.",
                    "Name an issue of the part, or add it under its `issues`.",
                )  # fmt: skip
