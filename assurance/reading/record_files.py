"""One YAML file: its records in the order of writing, and what in it cannot be read."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from yaml.nodes import MappingNode, Node, ScalarNode

from assurance.model.fields import ID
from assurance.model.kinds import KINDS, SINGULAR, Entry
from assurance.model.verdicts import Finding, Place
from assurance.reading.composing import IMPLICIT, compose, spot_of
from assurance.reading.faults import Fault, as_finding, did_you_mean, listed, of_kind, shown_value
from assurance.reading.places import Written
from assurance.reading.plain_values import MOST_VALUES, PlainBuilder, TooManyValuesError, key_fault, tag_fault
from assurance.reading.scalars import plain_value
from assurance.reading.validating import read_record
from assurance.reading.wording import id_words

SECTION = re.compile(r"[\"']?([A-Za-z_]\w*)[\"']?\s*:")
SLIP = 1  # blanks by which the id at fault may be indented more than the others
BELOW = re.compile(r"( +)[\"']?([A-Za-z][A-Za-z0-9_-]{0,63})[\"']?\s*:")


@dataclass(frozen=True, slots=True)
class Unread:
    """An id that was seen where its kind is not known, so that naming it brings no finding."""

    id: str


@dataclass(frozen=True, slots=True)
class Glimpsed:
    """A stub for an id seen in a text that does not parse; a record that was read goes before it."""

    stub: Entry


Item = Entry | Finding | Unread | Glimpsed


def read_file(name: str, text: str) -> tuple[Item, ...]:
    """The records and findings of a YAML text; `name` is its path from the case folder."""
    composed = compose(text)
    if composed.fault is not None:
        return (as_finding(composed.fault, file=name), *_glimpsed(name, text))
    if composed.root is None:
        return ()
    return tuple(_sections(name, composed.root, PlainBuilder(text)))


def _sections(name: str, root: Node, builder: PlainBuilder) -> Iterator[Item]:
    fault = _mapping_fault(root, "The file", "from kind to records, such as `claims:`")
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
            yield from _of_unknown_kind(section)


def _mapping_fault(node: Node, what: str, wanted: str) -> Fault | None:
    """What is wrong with a node that should be a mapping; nothing where it is empty."""
    if node.tag != IMPLICIT:
        return tag_fault(node)
    empty = isinstance(node, ScalarNode) and not node.style and plain_value(node.value) is None
    if empty or isinstance(node, MappingNode):
        return None
    message = f"{what} does not hold a mapping {wanted}."
    return Fault("value-wrong", spot_of(node), message, f"Write a mapping {wanted}.")


def _kind_fault(key_node: ScalarNode, seen: dict[str, int]) -> Fault | None:
    kind = key_node.value
    if kind in seen:
        message = f"`{kind}` is written twice in this file; the first is in line {seen[kind]}."
        return Fault("key-twice", spot_of(key_node), message, "Bring the records under one of them.")
    if kind in KINDS:
        return None
    kinds = tuple(KINDS)
    near = did_you_mean(kind, kinds, otherwise=f"The kinds are {listed(kinds)}.")
    return Fault("kind-unknown", spot_of(key_node), f"{shown_value(kind)} is not a kind of record.", near)


def _of_unknown_kind(section: Node) -> Iterator[Unread]:
    if isinstance(section, MappingNode):
        for key_node, _ in section.value:
            if isinstance(key_node, ScalarNode):
                yield Unread(key_node.value)


def _records(name: str, kind: str, section: Node, builder: PlainBuilder) -> Iterator[Item]:
    fault = _mapping_fault(section, f"`{kind}`", "from id to record")
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


def _record(name: str, kind: str, written: Written, builder: PlainBuilder) -> Iterator[Item]:
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
    for fault in read.faults:
        yield as_finding(fault, file=name, record=id_)


def _too_many(written: Written) -> Fault:
    message = f"The aliases of this file multiply it to more than {MOST_VALUES:,} values."
    return Fault("too-many-values", spot_of(written.id_node), message, "Write the values out.")


def _glimpsed(name: str, text: str) -> Iterator[Glimpsed | Unread]:
    """A stub for each id that can be seen in a text that does not parse."""
    seen = list(_indented_keys(text))
    ids_at_most = min((indent for _, _, indent, _ in seen), default=0) + SLIP
    for number, kind, indent, id_ in seen:
        if indent > ids_at_most:
            continue
        place = Place(name, number, indent + 1)
        yield Glimpsed(Entry(id_, kind, place, None)) if kind in KINDS else Unread(id_)


def _indented_keys(text: str) -> Iterator[tuple[int, str, int, str]]:
    """Line, top-level key above, indentation and word of each line that starts with an indented key."""
    kind = ""
    for number, line in enumerate(text.splitlines(), start=1):
        section = SECTION.match(line)
        if section is not None:
            kind = section[1]
        found = BELOW.match(line)
        if found is not None:
            yield number, kind, len(found[1]), found[2]
