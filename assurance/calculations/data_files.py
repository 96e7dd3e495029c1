"""Data files that calculations read and that no evidence vouches for."""

from collections.abc import Iterator

from assurance.calculations.uses import files_read
from assurance.model.assessment import Fault
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation
from assurance.model.verdicts import ReasonKind, Verdict


def of_no_evidence(id_: str, calculation: Calculation, case: CaseText) -> Iterator[Fault]:
    """A fault for each file that no evidence record lists: a swapped one would not be seen.

    The results stand and are provisional. A file that evidence lists without its digest is that
    record's own fault. While an evidence record cannot be read, it may be the one that lists the file.
    """
    evidence = case.of_kind("evidence")
    files = files_read(calculation)
    if not files or any(entry.record is None for entry in evidence.values()):
        return
    listed = {fact.path for (owner, _), fact in case.files.items() if owner in evidence}
    for name, path in files.items():
        fact = case.files.get((id_, name))
        if fact is not None and not fact.fault and fact.path not in listed:
            yield Fault(
                ReasonKind.FILE_WITHOUT_DIGEST, path,
                f"`{id_}` reads `{name}`, which no evidence lists, so a swapped file would not be seen.",
                f"List it under `files` of the evidence that it belongs to, with `sha256: {fact.sha256}`.",
                verdict=Verdict.PROVISIONAL,
            )  # fmt: skip
