"""Checks what records name once all of them are read: records, their parts, and people."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from assurance.model.argument_records import Case, ClaimRecord
from assurance.model.engineering_records import Calculation, EvidenceRecord, Material
from assurance.model.fields import FileName, Record, Refers, Who
from assurance.model.kinds import SINGULAR, Entry
from assurance.model.risk_records import FailureMode, Hazard
from assurance.reading.faults import did_you_mean, listed, of_kind, shown_value
from assurance.reading.marks import Naming
from assurance.reading.plans import Path

MOST_GUESSES = 100  # a guess among ten thousand ids takes a tenth of a second
PART_WORDS = {"result": "`record.result`", "property": "`material.property`"}


@dataclass(frozen=True, slots=True)
class Misnamed:
    """A name in a record that names nothing, or something of another kind."""

    rule: str
    path: Path
    message: str
    remedy: str


class Known:
    """Everything of a case that a record can name.

    Not `whole` where a file gave no text at all: whatever else is named may stand in it.
    """

    def __init__(self, entries: Mapping[str, Entry], unread: frozenset[str], *, whole: bool = True) -> None:
        self.entries = entries
        self.unread = unread
        self.whole = whole
        self._guesses: dict[tuple[str, tuple[str, ...]], str] = {}

    def excused(self, id_: str) -> bool:
        """Whether the id belongs to something that could not be read, so that naming it is no fault."""
        entry = self.entries.get(id_)
        return id_ in self.unread or not self.whole if entry is None else entry.record is None

    def nearest(self, wrong: str, kinds: tuple[str, ...], *, otherwise: str) -> str:
        """`Did you mean ...?` with the nearest id of these kinds; looked up for the first names only."""
        if (wrong, kinds) not in self._guesses:
            if len(self._guesses) >= MOST_GUESSES:
                return otherwise
            self._guesses[wrong, kinds] = did_you_mean(wrong, self._ids(kinds), otherwise="")
        return self._guesses[wrong, kinds] or otherwise

    def _ids(self, kinds: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(id_ for kind in self._by_kind for id_ in self._by_kind[kind] if _allows(kinds, kind))

    @cached_property
    def _by_kind(self) -> dict[str, list[str]]:
        sorted_in: dict[str, list[str]] = {}
        for id_ in sorted(self.entries):
            sorted_in.setdefault(self.entries[id_].kind, []).append(id_)
        return sorted_in

    @cached_property
    def names(self) -> tuple[str, ...] | None:
        """People, roles and organisations; none where no case record could be read."""
        cases = [self.entries[id_].record for id_ in self._by_kind.get("case", [])]
        if not cases or not isinstance(cases[0], Case):
            return None
        people, organisations = cases[0].people, cases[0].organisations
        roles = {role for person in people.values() for role in person.roles}
        return tuple(sorted({*people, *organisations, *roles}))


def misnamed(naming: Naming, known: Known, *, own: str = "") -> Misnamed | None:
    """What is wrong with one name that the record `own` writes."""
    mark = naming.mark
    if isinstance(mark, FileName) or names_something(naming.text, mark, known):
        return None
    return _nobody(naming, known) if isinstance(mark, Who) else _no_record(naming, mark, known, own)


def names_something(text: str, mark: Refers | Who, known: Known) -> bool:
    """Whether a text plainly names what may stand there; a text that does not may still be excused."""
    if isinstance(mark, Who):
        return known.names is not None and text in known.names
    id_, dot, part = text.partition(".")
    entry = known.entries.get(id_)
    if entry is None or entry.record is None or not _allows(mark.kinds, entry.kind):
        return False
    if not dot or mark.part == "":
        return not dot and mark.part in ("", "any")
    return part in (parts_of(entry.record, mark) or ())


def _nobody(naming: Naming, known: Known) -> Misnamed | None:
    names = known.names
    if names is None or naming.text in names:
        return None
    message = f"{shown_value(naming.text)} is no person, role or organisation of the case."
    otherwise = "Add it under `people` or `organisations` of the case."
    return Misnamed(
        "name-unknown", naming.path, message, did_you_mean(naming.text, names, otherwise=otherwise)
    )


def _no_record(naming: Naming, mark: Refers, known: Known, own: str) -> Misnamed | None:
    id_, dot, part = naming.text.partition(".")
    if known.excused(id_):
        return None
    entry = known.entries.get(id_)
    if entry is None or entry.record is None:
        return _unknown(naming, mark, id_, known, own)
    if not _allows(mark.kinds, entry.kind):
        return _other_kind(naming, mark, entry)
    if not dot and mark.part in ("", "any"):
        return None
    return _unknown_part(naming, mark, entry.kind, entry.record, part if dot else None)


def _unknown(naming: Naming, mark: Refers, id_: str, known: Known, own: str) -> Misnamed:
    message = f"{shown_value(id_)} names no record of the case."
    wanted = "any record" if "*" in mark.kinds else f"a record under {listed(mark.kinds)}"
    otherwise = f"Name {wanted}."
    remedy = known.nearest(id_, mark.kinds, otherwise=otherwise)
    if remedy == f"Did you mean `{own}`?":  # a record that names itself is no better
        remedy = otherwise
    return Misnamed("reference-unknown", naming.path, message, remedy)


def _other_kind(naming: Naming, mark: Refers, entry: Entry) -> Misnamed:
    message = f"{shown_value(entry.id)} is {of_kind(entry.kind)}, which cannot stand here."
    remedy = f"Name a record under {listed(mark.kinds)}."
    return Misnamed("reference-of-another-kind", naming.path, message, remedy)


def _unknown_part(
    naming: Naming, mark: Refers, kind: str, record: Record, part: str | None
) -> Misnamed | None:
    id_ = naming.text.partition(".")[0]
    if mark.part == "":
        message = f"{shown_value(naming.text)} names a part of a record; the record itself is meant here."
        return Misnamed("reference-unknown", naming.path, message, f"Write `{id_}`.")
    parts = parts_of(record, mark)
    if parts is None or part in parts:
        return None
    what = {"result": "result", "property": "property"}.get(mark.part, "part")
    if part is None:
        message = f"{shown_value(id_)} names the whole {SINGULAR[kind]}; one {what} of it is meant here."
        near = f"Write `{id_}.{parts[0]}`." if parts else f"Write {PART_WORDS[mark.part]}."
    else:
        message = f"{shown_value(part)} is no {what} of {SINGULAR[kind]} `{id_}`."
        none = f"Name a record that has one: this one has no {what} that can be named."
        otherwise = f"Name one that it has: {listed(parts)}." if parts else none
        near = did_you_mean(part, parts, otherwise=otherwise)
    return Misnamed("reference-unknown", naming.path, message, near)


def parts_of(record: Record, mark: Refers) -> tuple[str, ...] | None:
    """What may follow the dot after a record; none where that cannot be told."""
    if mark.part == "any":
        return _any_parts(record)
    if isinstance(record, Calculation):
        return _results_of_method(record.method)
    if isinstance(record, EvidenceRecord):
        return tuple(sorted(record.results))
    return tuple(sorted(record.properties)) if isinstance(record, Material) else ()


def _any_parts(record: Record) -> tuple[str, ...]:
    if isinstance(record, ClaimRecord):
        return tuple(sorted(record.each_argument()))
    if isinstance(record, Hazard):
        return tuple(sorted(record.controls))
    return tuple(sorted(record.causes)) if isinstance(record, FailureMode) else ()


def _results_of_method(name: str) -> tuple[str, ...] | None:
    from assurance.methods.registry import METHODS

    method = METHODS.get(name)
    return None if method is None else tuple(result.name for result in method.results)


def _allows(kinds: tuple[str, ...], kind: str) -> bool:
    return "*" in kinds or kind in kinds
