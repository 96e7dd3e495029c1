"""One YAML file as it was read, with what each of its records names; and such a reading as JSON and back."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError, create_model

from assurance.model.entry import Entry
from assurance.model.fields import ID, FileName, Record, Refers, Who
from assurance.model.kinds import KINDS
from assurance.model.verdicts import Place
from assurance.reading.marks import Naming, namings
from assurance.reading.plans import Mark
from assurance.reading.record_files import Item, Spelt, read_spelt
from assurance.reading.texts import Spots

Count = Annotated[int, Field(ge=1)]


@dataclass(frozen=True, slots=True)
class FileReading:
    """The items of a file in the order of writing, and what its records name.

    `names` holds that by id, `files` those of them that name a file, `texts` all others by what may
    stand there. `spelt` holds the plain value of each record that was read whole, in the same order.
    """

    items: tuple[Item, ...]
    names: Mapping[str, tuple[Naming, ...]] = field(default_factory=dict)
    files: Mapping[str, tuple[Naming, ...]] = field(default_factory=dict)
    texts: Mapping[Refers | Who, frozenset[str]] = field(default_factory=dict)
    spelt: tuple[Any, ...] = ()
    spots: Spots = field(default_factory=dict)  # of fields that were looked up, which takes long


def read_afresh(name: str, text: str) -> FileReading:
    """The reading of a YAML text; `name` is its path from the case folder."""
    read = read_spelt(name, text)
    items = tuple(item for item in read if not isinstance(item, Spelt))
    return _reading(items, tuple(item.plain for item in read if isinstance(item, Spelt)))


def _reading(items: tuple[Item, ...], spelt: tuple[Any, ...]) -> FileReading:
    names = _names(items)
    files = {id_: tuple([one for one in every if isinstance(one.mark, FileName)])
             for id_, every in names.items()}  # fmt: skip
    return FileReading(items, names, {id_: some for id_, some in files.items() if some}, _texts(names), spelt)


def _texts(names: Mapping[str, tuple[Naming, ...]]) -> dict[Refers | Who, frozenset[str]]:
    """What is named but files, each text once, by what may stand there."""
    marks: dict[int, Mark] = {}
    by_mark: dict[int, set[str]] = {}  # by identity: a mark is told by its value in ten times the time
    for every in names.values():
        for one in every:
            marks[id(one.mark)] = one.mark
            by_mark.setdefault(id(one.mark), set()).add(one.text)
    texts: dict[Refers | Who, frozenset[str]] = {}
    for key, mark in marks.items():
        if not isinstance(mark, FileName):
            texts[mark] = texts.get(mark, frozenset()) | by_mark[key]
    return texts


def _names(items: tuple[Item, ...]) -> dict[str, tuple[Naming, ...]]:
    """What each record names; of two with one id the first counts."""
    found: dict[str, tuple[Naming, ...]] = {}
    for item in items:
        if isinstance(item, Entry) and item.record is not None and item.id not in found:
            found[item.id] = tuple(namings(item.record))
    return found


def to_plain(reading: FileReading, follows_from: str) -> dict[str, Any] | None:
    """A reading as plain values; none where anything in the file could not be read whole.

    What stands there is what the text says, not the record: the model makes the record anew.
    """
    entries = [item for item in reading.items if isinstance(item, Entry)]
    if len(entries) < len(reading.items) or len(entries) != len(reading.spelt):
        return None
    records: dict[str, list[Any]] = {}
    for entry, plain in zip(entries, reading.spelt, strict=True):
        records.setdefault(entry.kind, []).append(plain)
    written = [[entry.kind, entry.id, entry.place.line, entry.place.column] for entry in entries]
    return {"follows_from": follows_from, "written": written, "records": records}


def from_json(text: bytes, name: str, follows_from: str) -> FileReading | None:
    """The reading of the file of that name; none where JSON holds another one, or is not as it must be."""
    try:
        kept = _shape().model_validate_json(text)
    except ValidationError:
        return None
    if kept.follows_from != follows_from:
        return None
    records = {kind: iter(getattr(kept.records, kind)) for kind in KINDS}
    none: Iterator[Record] = iter(())
    items = tuple([
        Entry(id_, kind, Place(name, line, column), next(records.get(kind, none), None))
        for kind, id_, line, column in kept.written
    ])  # fmt: skip
    left = any(next(rest, None) is not None for rest in records.values())
    whole = all(item.record is not None and ID.fullmatch(item.id) for item in items)
    return _reading(items, ()) if whole and not left else None


class _Kept(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")
    follows_from: str
    written: tuple[tuple[str, str, Count, Count], ...]
    records: Any


@cache
def _shape() -> type[_Kept]:
    by_kind: dict[str, Any] = {kind: (tuple[record, ...], ()) for kind, record in KINDS.items()}  # type: ignore[valid-type]
    records = create_model("_Records", __config__=_Kept.model_config, **by_kind)
    return create_model("_KeptRecords", __base__=_Kept, records=(records, ...))
