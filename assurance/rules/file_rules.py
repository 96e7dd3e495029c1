"""Rules about the files behind evidence and calculations."""

from collections.abc import Iterator

from assurance.model.verdicts import Finding, ReasonKind
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
    """A file of issued evidence has no digest, or a calculation reads a file that no evidence lists.

    Why: Without a digest a swapped file would not be seen, and of a file that no evidence lists nobody
    has said who measured it, when, or on what.

    Put right: List the file under `files` of the evidence that it belongs to, with its sha256.

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
