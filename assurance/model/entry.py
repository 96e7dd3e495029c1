"""One record as it was read, and how its kind is spoken of."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assurance.model.verdicts import Place

if TYPE_CHECKING:
    from assurance.model.fields import Record

SINGULAR = {
    "case": "case",
    "conditions": "condition",
    "requirements": "requirement",
    "claims": "claim",
    "assumptions": "assumption",
    "contexts": "context",
    "challenges": "challenge",
    "evidence": "evidence",
    "calculations": "calculation",
    "parts": "part",
    "materials": "material",
    "factors": "factor",
    "load_cases": "load case",
    "hazards": "hazard",
    "failure_modes": "failure mode",
    "rating_scales": "rating scale",
    "risk_scheme": "risk scheme",
    "actions": "action",
}


@dataclass(frozen=True, slots=True)
class Entry:
    """One record as read: its kind, its place, and the record itself unless it is a stub.

    A stub stands for an id whose record could not be read whole, so that what names it does not
    bring a flood of follow-on findings.
    """

    id: str
    kind: str
    place: Place
    record: "Record | None"


def by_kind(entries: Mapping[str, Entry]) -> dict[str, dict[str, Entry]]:
    """The records of each kind, by id in order."""
    found: dict[str, dict[str, Entry]] = {}
    for id_ in sorted(entries):
        found.setdefault(entries[id_].kind, {})[id_] = entries[id_]
    return found
