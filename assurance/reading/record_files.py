"""One YAML file: its records in the order of writing, and what in it cannot be read."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode

from assurance.model.fields import ID, ID_PATTERN
from assurance.model.kinds import KINDS, SINGULAR, Entry
from assurance.model.names import nearest_name
from assurance.model.verdicts import Finding, Place
from assurance.reading.composing import IMPLICIT, compose, spot_of
from assurance.reading.faults import Fault, as_finding, did_you_mean, listed, of_kind, shown_value
from assurance.reading.glance import seen_ids
from assurance.reading.places import Written
from assurance.reading.plain_values import MOST_VALUES, PlainBuilder, TooManyValuesError, key_fault, tag_fault
from assurance.reading.scalars import plain_value
from assurance.reading.validating import read_record
from assurance.reading.wording import id_words


@dataclass(frozen=True, slots=True)
class Unread:
    """An id that was seen where its kind is not known, so that naming it brings no finding."""

    id: str


@dataclass(frozen=True, slots=True)
class Glimpsed:
    """A stub for an id seen in a text that does not parse; a record that was read goes before it."""

    stub: Entry


@dataclass(frozen=True, slots=True)
class Spelt:
    """The plain value that the record before it was made from, short forms spelt out."""

    plain: Any


Item = Entry | Finding | Unread | Glimpsed


def read_file(name: str, text: str) -> tuple[Item, ...]:
    """The records and findings of a YAML text; `name` is its path from the case folder."""
    return tuple(item for item in read_spelt(name, text) if not isinstance(item, Spelt))


def read_spelt(name: str, text: str) -> tuple[Item | Spelt, ...]:
    """The same, each record that was read whole followed by the plain value that it was made from."""
    composed = compose(text)
    if composed.fault is not None:
        return (as_finding(composed.fault, file=name), *_glimpsed(name, text))
    if composed.root is None:
        return ()
    return tuple(_sections(name, composed.root, PlainBuilder(text)))


def _sections(name: str, root: Node, builder: PlainBuilder) -> Iterator[Item | Spelt]:
    write = "each kind of record as a key, such as `claims:`"
    fault = _mapping_fault(root, f"`{name}`", "kinds of record", write)
    if fault is not None or not isinstance(root, MappingNode):
        yield from [as_finding(fault, file=name)] if fault else []
        return
    seen: dict[str, int] = {}
    for key_node, section in root.value:
        fault = key_fault(key_node) or _kind_fault(key_node, seen)
        if fault is not None:
            yield as_finding(fault, file=name)
        if fault is None or fault.rule == "key-twice":
            seen.setdefault(key_node.value, spot_of(key_node).line)
            yield from _records(name, key_node.value, section, builder)
        elif fault.rule == "kind-unknown":
            yield from _of_unknown_kind(name, key_node.value, section)


def _mapping_fault(node: Node, what: str, wanted: str, write: str) -> Fault | None:
    """What is wrong with a node that should be a mapping; nothing where it is empty."""
    if node.tag != IMPLICIT:
        return tag_fault(node)
    empty = isinstance(node, ScalarNode) and not node.style and plain_value(node.value) is None
    if empty or isinstance(node, MappingNode):
        return None
    held = shown_value(node.value) if isinstance(node, ScalarNode) else "a list"
    message = f"{what} holds {held} where {wanted} are expected."
    return Fault("value-wrong", spot_of(node), message, f"Write {write}.")


def _kind_fault(key_node: ScalarNode, seen: dict[str, int]) -> Fault | None:
    kind = key_node.value
    if kind in seen:
        message = f"`{kind}` is written twice in this file; the first is in line {seen[kind]}."
        return Fault("key-twice", spot_of(key_node), message, "Bring the records under one of them.")
    if kind in KINDS:
        return None
    kinds = tuple(KINDS)
    near = did_you_mean(kind, kinds, otherwise=f"Write one of the kinds: {listed(kinds)}.")
    return Fault("kind-unknown", spot_of(key_node), f"{shown_value(kind)} is not a kind of record.", near)


def _of_unknown_kind(name: str, kind: str, section: Node) -> Iterator[Glimpsed | Unread]:
    """A stub of the kind that is most likely meant for each id, so that naming it brings no finding."""
    meant = nearest_name(kind, KINDS)
    for id_node, _ in section.value if isinstance(section, MappingNode) else ():
        if isinstance(id_node, ScalarNode):
            spot = spot_of(id_node)
            stub = meant is not None and ID.fullmatch(id_node.value) is not None
            place = Place(name, spot.line, spot.column)
            yield Glimpsed(Entry(id_node.value, str(meant), place, None)) if stub else Unread(id_node.value)


def _records(name: str, kind: str, section: Node, builder: PlainBuilder) -> Iterator[Item | Spelt]:
    below = "each record below its id, and its keys below that, indented"
    fault = _mapping_fault(section, f"`{kind}`", "records by id", below)
    if fault is not None:
        yield as_finding(fault, file=name)
    if not isinstance(section, MappingNode):
        return
    for id_node, value in section.value:
        fault = key_fault(id_node) or _id_fault(id_node, kind)
        if fault is None:
            yield from _record(name, kind, Written(id_node, value), builder)
            continue
        yield as_finding(fault, file=name)
        if isinstance(id_node, ScalarNode):
            yield Unread(id_node.value)


def _id_fault(id_node: ScalarNode, kind: str) -> Fault | None:
    if ID.fullmatch(id_node.value):
        return None
    rule, message, remedy = id_words(id_node.value, f"the id of {of_kind(kind)}")
    return Fault(rule, spot_of(id_node), message, remedy)


def _record(name: str, kind: str, written: Written, builder: PlainBuilder) -> Iterator[Item | Spelt]:
    id_, spot = written.id_node.value, spot_of(written.id_node)
    place = Place(name, spot.line, spot.column)
    already_told = builder.overfull
    try:
        read = read_record(KINDS[kind], written, builder, name=f"{SINGULAR[kind]} `{id_}`")
    except TooManyValuesError:
        yield Entry(id_, kind, place, None)
        if not already_told:
            yield as_finding(_too_many(written), file=name, record=id_)
        return
    yield Entry(id_, kind, place, read.record)
    if read.record is not None:
        yield Spelt(read.plain)
    for fault in read.faults:
        yield as_finding(fault, file=name, record=id_)


def _too_many(written: Written) -> Fault:
    message = f"The aliases of this file multiply it to more than {MOST_VALUES:,} values."
    return Fault("too-many-values", spot_of(written.id_node), message, "Write the values out.")


def _glimpsed(name: str, text: str) -> Iterator[Glimpsed | Unread]:
    """A stub for each id that can be seen in a text that does not parse; any other word may be one too."""
    for seen in seen_ids(text):
        place = Place(name, seen.line, seen.column)
        known = seen.kind in KINDS
        yield Glimpsed(Entry(seen.id, seen.kind, place, None)) if known else Unread(seen.id)
    yield from map(Unread, sorted(set(re.findall(ID_PATTERN, text))))
