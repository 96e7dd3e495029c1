"""Whether a piece of evidence stands: its state, its files, its outcome, and what it leaves out."""

from collections.abc import Iterator

from assurance.graph.formula import All, Formula, Laid
from assurance.model.engineering_records import EvidenceRecord
from assurance.model.verdicts import Cause, ReasonKind, Verdict
from assurance.standing.facts import Facts, cause, common

NEEDS_OUTCOME = ("test", "inspection", "review")


def evidence_formula(facts: Facts, id_: str) -> Formula:
    """The formula of an evidence record. Evidence is never `fails`."""
    record = facts.record(id_)
    own: tuple[Formula, ...] = ()
    if isinstance(record, EvidenceRecord):
        causes = [*_state(facts, id_, record), *_outcome(facts, id_, record)]
        causes += [*_left_out(facts, id_, record), *_files(facts, id_, record), *_not_yet(facts, id_, record)]
        own = tuple(Laid(one) for one in causes)
    return All((*common(facts, id_), *(Laid(one) for one in facts.adverse.get(id_, ())), *own))


def _state(facts: Facts, id_: str, record: EvidenceRecord) -> Iterator[Cause]:
    if record.state == "withdrawn":
        yield cause(
            facts, id_, ReasonKind.EVIDENCE_WITHDRAWN, Verdict.OPEN,
            f"`{id_}` has been withdrawn.",
            "Name other evidence in its place, or issue it again.", path=("state",),
        )  # fmt: skip
    elif record.state == "superseded" or record.superseded_by:
        newer = f" by `{record.superseded_by}`" if record.superseded_by else ""
        yield cause(
            facts, id_, ReasonKind.EVIDENCE_SUPERSEDED, Verdict.OUT_OF_DATE,
            f"`{id_}` has been superseded{newer}.",
            "Rest on the newer record instead.",
            path=("superseded_by",) if record.superseded_by else ("state",),
        )  # fmt: skip
    elif record.state == "draft":
        yield cause(
            facts, id_, ReasonKind.EVIDENCE_DRAFT, Verdict.PROVISIONAL,
            f"`{id_}` is a draft.", "Issue it: `state: issued`.", path=("state",),
        )  # fmt: skip
    elif not record.files and not record.results:
        yield cause(
            facts, id_, ReasonKind.EVIDENCE_DRAFT, Verdict.PROVISIONAL,
            f"`{id_}` is called issued, but has neither a file nor a result.",
            "Name the report under `files`, or a value under `results`.", path=("state",),
        )  # fmt: skip


def _outcome(facts: Facts, id_: str, record: EvidenceRecord) -> Iterator[Cause]:
    if record.outcome == "inconclusive":
        yield cause(
            facts, id_, ReasonKind.EVIDENCE_INCONCLUSIVE, Verdict.OPEN,
            f"`{id_}` was inconclusive.", "Repeat it, or rest on other evidence.", path=("outcome",),
        )  # fmt: skip


def _not_yet(facts: Facts, id_: str, record: EvidenceRecord) -> Iterator[Cause]:
    if record.date and facts.as_of and record.date > facts.as_of:
        yield cause(
            facts, id_, ReasonKind.EVIDENCE_DATED_AFTER_THE_CASE, Verdict.OPEN,
            f"`{id_}` is dated {record.date.isoformat()}, after the day that is judged, "
            f"{facts.as_of.isoformat()}: it was not there yet.",
            "Correct the date, or judge a later day.", path=("date",),
        )  # fmt: skip


def _left_out(facts: Facts, id_: str, record: EvidenceRecord) -> Iterator[Cause]:
    if record.kind != "test":
        return
    missing = [word for word in ("part", "issue", "serial", "date") if not _says(record, word)]
    if missing:
        named = " and ".join(missing)
        yield cause(
            facts, id_, ReasonKind.EVIDENCE_INCOMPLETE, Verdict.OPEN,
            f"The test `{id_}` does not say which {named} it was.",
            f"Give the {named}, or a reason for each under `not_applicable`.",
        )  # fmt: skip


def _says(record: EvidenceRecord, word: str) -> bool:
    if word in record.not_applicable:
        return True
    if word == "date":
        return record.date is not None
    if not record.parts:
        return word != "part" and "part" in record.not_applicable
    return word == "part" or all(getattr(part, word) for part in record.parts)


def _files(facts: Facts, id_: str, record: EvidenceRecord) -> Iterator[Cause]:
    for index, named in enumerate(record.files):
        fact = facts.case.files.get((id_, named.file))
        at = ("files", index, "file")
        if fact is None or fact.fault:
            why = fact.fault if fact else "cannot be found"
            yield cause(
                facts, id_, ReasonKind.FILE_MISSING, Verdict.OPEN,
                f"The file `{named.file}` of `{id_}` {why}.",
                "Put the file there, or correct its name.", path=at,
            )  # fmt: skip
        elif named.sha256 is None:
            yield cause(
                facts, id_, ReasonKind.FILE_WITHOUT_DIGEST, Verdict.PROVISIONAL,
                f"The file `{named.file}` of `{id_}` has no digest, so a swapped file would not be seen.",
                f"Write `sha256: {fact.sha256}` beside it.", path=at,
            )  # fmt: skip
        elif named.sha256 != fact.sha256:
            yield cause(
                facts, id_, ReasonKind.FILE_CHANGED, Verdict.OUT_OF_DATE,
                f"The file `{named.file}` changed after `{id_}` was issued: its sha256 is now "
                f"`{fact.sha256[:12]}`, the record says `{named.sha256[:12]}`.",
                "Look at what changed, then issue the record again with the new digest.",
                path=("files", index, "sha256"),
            )  # fmt: skip


def adverse_causes(facts: Facts, id_: str) -> tuple[Cause, ...]:
    """Why a record speaks against what it is about, whatever its state: nothing where it does not.

    A disposition of an anomaly counts once it has been accepted.
    """
    record = facts.record(id_)
    if not isinstance(record, EvidenceRecord):
        return ()
    found = []
    if record.outcome in ("failed", "stopped early"):
        found.append(_adverse(facts, id_, f"`{id_}` {_happened(record.outcome)}.", ("outcome",)))
    if record.kind in NEEDS_OUTCOME and record.outcome is None:
        found.append(_adverse(facts, id_, f"The {record.kind} `{id_}` does not state its outcome.", ()))
    for index, anomaly in enumerate(record.anomalies):
        text = f"`{id_}` has an anomaly without an accepted disposition: {anomaly.what}"
        found.append(_adverse(facts, id_, _sentence(text), ("anomalies", index)))
    return tuple(found)


def _happened(outcome: str) -> str:
    return "failed" if outcome == "failed" else "was stopped early"


def _sentence(text: str) -> str:
    return text if text.endswith(".") else text + "."


def _adverse(facts: Facts, id_: str, text: str, path: tuple[str | int, ...]) -> Cause:
    remedy = "Put right what it shows and test again."
    if not path:
        remedy = "State the outcome under `outcome`."
    return cause(facts, id_, ReasonKind.EVIDENCE_ADVERSE, Verdict.OPEN, text, remedy, path=path)
