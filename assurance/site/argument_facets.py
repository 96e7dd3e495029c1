"""By what the argument can be filtered: whose a record is, which parts and which hazards it is about."""

from collections.abc import Iterable
from dataclasses import dataclass

from pydantic import BaseModel

from assurance.model.argument_records import ClaimRecord
from assurance.model.assessment import Assessment
from assurance.model.engineering_records import Calculation, EvidenceRecord
from assurance.model.risk_records import Hazard


@dataclass(frozen=True, slots=True)
class Facets:
    """Whose records are, and which of them are about which parts and hazards, by id."""

    owners: dict[str, str]
    parts: dict[str, tuple[str, ...]]
    hazards: dict[str, tuple[str, ...]]


def facets(assessment: Assessment, ids: Iterable[str]) -> Facets:
    """What each of these records can be filtered by."""
    shown = set(ids)
    owners: dict[str, str] = {}
    parts: dict[str, tuple[str, ...]] = {}
    hazards: dict[str, dict[str, None]] = {}
    for id_ in sorted(shown):
        record = assessment.entries[id_].record
        owners[id_] = _owner(record)
        about = _parts(assessment, id_, record)
        if about:
            parts[id_] = about
    for hazard, id_ in _about_hazards(assessment):
        if id_ in shown:
            hazards.setdefault(id_, {})[hazard] = None
    return Facets(owners, parts, {id_: tuple(found) for id_, found in hazards.items()})


def _owner(record: BaseModel | None) -> str:
    """The owner; the producer of evidence and the author of a calculation count as such."""
    for field in ("owner", "producer", "author"):
        found = getattr(record, field, None)
        if found:
            return str(found)
    return ""


def _parts(assessment: Assessment, id_: str, record: BaseModel | None) -> tuple[str, ...]:
    if isinstance(record, ClaimRecord):
        return _of_kind(assessment, record.about, "parts")
    if isinstance(record, EvidenceRecord):
        return tuple(dict.fromkeys(one.part for one in record.parts if one.part))
    if isinstance(record, Calculation) and id_ in assessment.worked:
        return tuple(dict.fromkeys(assessment.worked[id_].parts))
    return ()


def _of_kind(assessment: Assessment, ids: Iterable[str], kind: str) -> tuple[str, ...]:
    return tuple(one for one in ids if one in assessment.entries and assessment.entries[one].kind == kind)


def _about_hazards(assessment: Assessment) -> Iterable[tuple[str, str]]:
    """Each hazard with itself, its claim, what shows its controls, and the claims that are about it."""
    for hazard, entry in assessment.of_kind("hazards").items():
        yield hazard, hazard
        if isinstance(entry.record, Hazard):
            yield hazard, entry.record.claim or ""
            for control in entry.record.controls.values():
                yield from ((hazard, one) for one in (*control.implemented_by, *control.effective_by))
    for id_, entry in assessment.of_kind("claims").items():
        if isinstance(entry.record, ClaimRecord):
            yield from ((one, id_) for one in _of_kind(assessment, entry.record.about, "hazards"))
