"""What a field that names something may name: any fitting id, or the ids of one case as of today."""

import re
from typing import Any, Protocol

from assurance.model.argument_records import Case, ClaimRecord
from assurance.model.case import CaseText
from assurance.model.engineering_records import EvidenceRecord
from assurance.model.fields import ID_PATTERN, Record, Refers, Who
from assurance.reading.faults import listed
from assurance.reading.plans import Mark
from assurance.reading.references import Known, parts_of

Schema = dict[str, Any]
WHO = "who"
PARTS = {"": "", "result": rf"\.{ID_PATTERN}", "property": rf"\.{ID_PATTERN}", "any": rf"(\.{ID_PATTERN})?"}
SAID = {
    "": "The id of",
    "result": "A result of",
    "property": "A property of",
    "any": "The id, or one part, of",
}


class Names(Protocol):
    """Gives each kind of naming a definition, which the schema then refers to."""

    definitions: dict[str, Schema]

    def name_for(self, mark: Mark) -> str:
        """The name of the definition for fields with this mark; nothing where there is none."""

    def words(self, record: type[Record]) -> dict[str, list[str]]:
        """The words that the case allows in other fields of this class of record."""


class AnyNames:
    """Without a case: whatever has the form of a name."""

    def __init__(self) -> None:
        self.definitions: dict[str, Schema] = {}

    def name_for(self, mark: Mark) -> str:
        """The name of the definition for fields with this mark."""
        if isinstance(mark, Refers):
            pattern = f"^{ID_PATTERN}{PARTS[mark.part]}$"
            self.definitions[_key(mark)] = {"type": "string", "pattern": pattern} | _said(mark)
            return _key(mark)
        if isinstance(mark, Who):
            self.definitions[WHO] = {"type": "string", "minLength": 1} | _said(mark)
            return WHO
        return ""

    def words(self, record: type[Record]) -> dict[str, list[str]]:  # noqa: ARG002 - there is no case to ask
        """None: every word is allowed."""
        return {}


class CaseNames:
    """With a case: the ids, results, people and words that it has. What could not be read is let pass."""

    def __init__(self, case: CaseText) -> None:
        self.definitions: dict[str, Schema] = {}
        self._entries = case.entries
        self._known = Known(case.entries, frozenset())
        records = (entry.record for entry in case.of_kind("case").values())
        self._case = next((record for record in records if isinstance(record, Case)), None)

    def name_for(self, mark: Mark) -> str:
        """The name of the definition for fields with this mark."""
        if isinstance(mark, Refers):
            if _key(mark) not in self.definitions:
                self.definitions[_key(mark)] = self._ids(mark) | _said(mark)
            return _key(mark)
        if not isinstance(mark, Who):
            return ""
        names = self._known.names
        self.definitions[WHO] = ({"type": "string"} if names is None else _one_of(names)) | _said(mark)
        return WHO

    def words(self, record: type[Record]) -> dict[str, list[str]]:
        """The quantities of the case, where the record is of one of them."""
        if self._case is None or record not in (ClaimRecord, EvidenceRecord):
            return {}
        return {"quantity": list(self._case.quantities)}

    def _ids(self, mark: Refers) -> Schema:
        names: list[str] = []
        unread: list[str] = []
        for id_, entry in sorted(self._entries.items()):
            if entry.record is None:
                unread.append(id_)
            elif "*" in mark.kinds or entry.kind in mark.kinds:
                parts = parts_of(entry.record, mark) if mark.part else ()
                unread += [id_] if parts is None else []
                names += [id_] if mark.part in ("", "any") else []
                names += [f"{id_}.{part}" for part in parts or ()]
        if not unread:
            return _one_of(tuple(names))
        let_pass = {"pattern": rf"^({'|'.join(map(re.escape, unread))})(\..+)?$"}
        return {"type": "string", "anyOf": [{"enum": names}, let_pass] if names else [let_pass]}


def _one_of(names: tuple[str, ...]) -> Schema:
    return {"type": "string", "enum": list(names)} if names else {"not": {}}


def _key(mark: Refers) -> str:
    kinds = "record" if "*" in mark.kinds else "-".join(mark.kinds)
    return f"{mark.part or 'id'}-of-{kinds}"


def _said(mark: Mark) -> Schema:
    if not isinstance(mark, Refers):
        return {"description": "A person, role or organisation of the case."}
    kinds = "any record" if "*" in mark.kinds else f"a record under {listed(mark.kinds)}"
    return {"description": f"{SAID[mark.part]} {kinds}."}
