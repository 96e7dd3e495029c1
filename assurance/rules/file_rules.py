"""Rules about the files behind evidence and calculations."""

from collections.abc import Iterator

from assurance.model.engineering_records import Calculation, EvidenceRecord
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, living
from assurance.rules.view import View, from_causes


def file_missing(view: View) -> Iterator[Finding]:
    """A file that evidence names cannot be read.

    Why: A reader who wants to see what the claim rests on finds nothing.

    Put right: Put the file there, or correct its name; it is named from the YAML file.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            files:
              - {file: reports/rail-test.txt}  # here

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            files:
              - file: reports/step-test.txt
                sha256: eaf8196fc439746b99ff58fffccf3e8e861225471658996cba001cbdaa313f05
    """
    yield from from_causes(view, ReasonKind.FILE_MISSING)


def file_changed(view: View) -> Iterator[Finding]:
    """A file is not the one that the evidence was issued with.

    Why: What the evidence says may no longer be what the file says.

    Put right: Look at what changed, then issue the record again with the new digest.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            files:
              - file: reports/step-test.txt
                sha256: ae448ac86c4e8e4dec645729708ef41873ae79c6dff84eff73360989487f08e5  # here

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            files:
              - file: reports/step-test.txt
                sha256: eaf8196fc439746b99ff58fffccf3e8e861225471658996cba001cbdaa313f05
    """
    yield from from_causes(view, ReasonKind.FILE_CHANGED)


def file_without_digest(view: View) -> Iterator[Finding]:
    """A file of issued evidence has no digest.

    Why: Without one a swapped file would not be seen.

    Put right: Write the sha256 beside the file.

    Bad::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            files:
              - file: reports/step-test.txt  # here

    Good::

        evidence:
          rail-inspection:
            title: Inspection of the rail
            kind: inspection
            outcome: passed
            state: issued
            producer: cleo
            files:
              - file: reports/step-test.txt
                sha256: eaf8196fc439746b99ff58fffccf3e8e861225471658996cba001cbdaa313f05
    """
    yield from from_causes(view, ReasonKind.FILE_WITHOUT_DIGEST)


def data_file_of_no_evidence(view: View) -> Iterator[Seen]:
    """A calculation reads a file that no evidence record lists.

    Why: Nobody has said who measured it, when, or on what, and a swapped file would not be seen.

    Put right: List the file under `files` of the evidence that it belongs to.

    Bad::

        calculations:
          coupon-strength:
            title: Strength of the coupons
            method: allowables
            inputs:
              values: {file: data/coupons.csv, column: strength, unit: MPa}  # here
              batch: {file: data/coupons.csv, column: plate}
            author: ben
            checker: ann
        materials:
          plate:
            title: Aluminium plate
            properties:
              yield_strength: {result: coupon-strength.a_basis, basis: A, origin: plate-certificate}

    Good::

        calculations:
          coupon-strength:
            title: Strength of the coupons
            method: allowables
            inputs:
              values: {file: data/coupons.csv, column: strength, unit: MPa}
              batch: {file: data/coupons.csv, column: plate}
            author: ben
            checker: ann
        materials:
          plate:
            title: Aluminium plate
            properties:
              yield_strength: {result: coupon-strength.a_basis, basis: A, origin: plate-certificate}
        evidence:
          plate-certificate:
            title: Coupons cut from the plate
            kind: data
            state: issued
            producer: cleo
            files:
              - file: data/coupons.csv
                sha256: 897aa8b9c9d9e1c03b4f33939479b22881ec809ad581d86355d5086ba0d8e62b
    """
    facts = view.case.files
    listed = {fact.path for (id_, _), fact in facts.items() if _is_evidence(view, id_)}
    for id_, record in living(view, Calculation):
        for path, name in _files_read(record):
            fact = facts.get((id_, name))
            if fact is not None and not fact.fault and fact.path not in listed:
                yield Seen(
                    id_, path, f"`{id_}` reads `{name}`, which no evidence lists.",
                    "List it under `files` of the evidence that it belongs to.",
                )  # fmt: skip


def _is_evidence(view: View, id_: str) -> bool:
    entry = view.assessment.entries.get(id_)
    return entry is not None and isinstance(entry.record, EvidenceRecord)


def _files_read(record: Calculation) -> Iterator[tuple[tuple[str, ...], str]]:
    """Each file that a calculation reads, once, with the field that names it first."""
    seen: dict[str, tuple[str, ...]] = {}
    if record.table is not None:
        seen[record.table.file] = ("table", "file")
    for name, given in record.inputs.items():
        if given.file:
            seen.setdefault(given.file, ("inputs", name, "file"))
    yield from ((path, name) for name, path in seen.items())
