"""YAML nodes to plain values: text, numbers, tuples and mappings with text keys, and nothing else."""

import re
from dataclasses import dataclass
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from assurance.reading.composing import IMPLICIT, spot_of
from assurance.reading.faults import Fault, shown_value
from assurance.reading.scalars import plain_value

DEEPEST = 30  # levels of mappings and lists, counted from the top of the file
MOST_VALUES = 100_000  # of one file, unless the file itself has more characters
CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f\ufeff\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class Built:
    """A plain value and what was wrong on the way to it."""

    value: Any
    faults: tuple[Fault, ...]


class TooManyValuesError(Exception):
    """Aliases multiply a file beyond the stated count of values."""


class PlainBuilder:
    """Builds plain values of one file and keeps count of them, so that aliases cannot blow it up."""

    __slots__ = ("_faults", "_left")

    def __init__(self, text: str) -> None:
        self._left = max(MOST_VALUES, len(text))
        self._faults: list[Fault] = []

    @property
    def overfull(self) -> bool:
        """Whether aliases have multiplied the file beyond the count."""
        return self._left < 0

    def build(self, node: Node, depth: int) -> Built:
        """The plain value of a node that stands `depth` levels below the top of the file.

        Raises `TooManyValuesError` where aliases would multiply the file.
        """
        self._faults = []
        value = self._value(node, depth)
        return Built(value, tuple(self._faults))

    def _value(self, node: Node, depth: int) -> Any:
        self._left -= 1
        if self._left < 0:
            raise TooManyValuesError
        if node.tag != IMPLICIT:
            self._faults.append(tag_fault(node))
            return None
        if isinstance(node, ScalarNode):
            return self._scalar(node)
        if depth > DEEPEST:
            self._too_deep(node)
            return None
        if isinstance(node, MappingNode):
            return self._mapping(node, depth + 1)
        return self._sequence(node, depth + 1) if isinstance(node, SequenceNode) else None

    def _scalar(self, node: ScalarNode) -> Any:
        text: str = node.value
        if not node.style:
            return plain_value(text)
        fault = control_fault(node)
        if fault is not None:
            self._faults.append(fault)
        return text

    def _sequence(self, node: SequenceNode, depth: int) -> tuple[Any, ...]:
        return tuple([self._value(item, depth) for item in node.value])

    def _mapping(self, node: MappingNode, depth: int) -> dict[str, Any]:
        built: dict[str, Any] = {}
        first_lines: dict[str, int] = {}
        for key_node, value_node in node.value:
            key = self._key(key_node)
            if key is None:
                continue
            if key in built:
                first_lines = first_lines or lines_of_keys(node)
                self._faults.append(key_twice(key, key_node, first_lines[key]))
                continue
            built[key] = self._value(value_node, depth)
        return built

    def _key(self, node: Node) -> str | None:
        fault = key_fault(node)
        if fault is None:
            key: str = node.value
            return key
        self._faults.append(fault)
        return None

    def _too_deep(self, node: Node) -> None:
        if not any(fault.rule == "nested-too-deep" for fault in self._faults):
            message = f"Mappings and lists are nested more than {DEEPEST} deep."
            self._faults.append(Fault("nested-too-deep", spot_of(node), message, "Nest them less deep."))


def tag_fault(node: Node) -> Fault:
    """The fault of a node that carries a tag."""
    written = node.tag.replace("tag:yaml.org,2002:", "!!")
    message = f"The tag {shown_value(written)} is not read: a case holds plain values."
    return Fault("tag-not-read", spot_of(node), message, "Take the tag away and write the value.")


def key_fault(node: Node) -> Fault | None:
    """What is wrong with a node as a key: a tag, a merge key, or anything but text."""
    if node.tag != IMPLICIT:
        return tag_fault(node)
    if not isinstance(node, ScalarNode):
        message = "A list or mapping stands where a key is expected."
        return Fault("key-not-text", spot_of(node), message, "Use a word as the key.")
    if node.style:
        return control_fault(node)
    if node.value == "<<":
        message = "The merge key `<<` is not read."
        return Fault("merge-key-not-read", spot_of(node), message, "Write the merged keys out.")
    if isinstance(plain_value(node.value), str):
        return None
    message = f"The key {shown_value(node.value)} is not text."
    return Fault("key-not-text", spot_of(node), message, f'Put it in quotes: `"{node.value}"`.')


def control_fault(node: ScalarNode) -> Fault | None:
    """The fault of a text in double quotes that writes a control character by its escape."""
    if node.style != '"' or not CONTROL.search(node.value):
        return None
    message = f"{shown_value(node.value)} holds a control character."
    return Fault("value-wrong", spot_of(node), message, "Take away the escape that makes it.")


def lines_of_keys(mapping: MappingNode) -> dict[str, int]:
    """The line in which each key of a mapping is first written."""
    pairs = reversed(mapping.value)
    return {key.value: spot_of(key).line for key, _ in pairs if isinstance(key, ScalarNode)}


def key_twice(key: str, second: Node, first_line: int) -> Fault:
    """The fault of a key that its mapping already has, naming both places."""
    message = f"The key {shown_value(key)} is written twice; the first is in line {first_line}."
    return Fault("key-twice", spot_of(second), message, "Keep one of the two.")
