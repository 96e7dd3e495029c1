"""Where a field or a record stands in a text: a path inside a record to a line and column."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from assurance.reading.composing import spot_of
from assurance.reading.faults import Spot
from assurance.reading.plans import Path


@dataclass(frozen=True, slots=True)
class Written:
    """A record as written: the node of its id and the node of what stands under it."""

    id_node: Node
    value: Node


def spot_at(written: Written, path: Path) -> Spot:
    """Where the deepest part of a path that exists is written; the id for the empty path."""
    spot, node = spot_of(written.id_node), written.value
    for step in path:
        found = _step(node, step)
        if found is None:
            break
        spot, node = found
    return spot


def path_written(written: Written, path: Path) -> Path:
    """The part of a path that the author wrote: a short form has no keys below it."""
    node = written.value
    for depth, step in enumerate(path):
        if isinstance(node, ScalarNode) and depth:
            return path[:depth]
        found = _step(node, step)
        if found is None:
            break
        node = found[1]
    return path


def scalar_at(written: Written, path: Path) -> str | None:
    """The plain scalar at a path, word for word as it is written; none where anything else stands there."""
    node = written.value
    for step in path:
        found = _step(node, step)
        if found is None:
            return None
        node = found[1]
    return str(node.value) if isinstance(node, ScalarNode) and not node.style else None


def key_spot(written: Written, path: Path) -> Spot:
    """Where the key at the end of a path is written."""
    node = written.value
    for step in path[:-1]:
        found = _step(node, step)
        if found is None:
            return spot_at(written, path)
        node = found[1]
    key = next((key for key, _ in _pairs(node) if key.value == path[-1]), None)
    return spot_of(key) if key is not None else spot_at(written, path)


def _step(node: Node, step: str | int) -> tuple[Spot, Node] | None:
    if isinstance(step, int):
        if isinstance(node, SequenceNode) and step < len(node.value):
            return spot_of(node.value[step]), node.value[step]
        return None
    for key, value in _pairs(node):
        if key.value == step:
            return _spot_of_field(key, value), value
    return None


def _spot_of_field(key: Node, value: Node) -> Spot:
    """The value where it starts on the line of its key, else the key."""
    same_line = key.start_mark.line == value.start_mark.line
    return spot_of(value) if same_line else spot_of(key)


def _pairs(node: Node) -> Iterator[tuple[ScalarNode, Node]]:
    if isinstance(node, MappingNode):
        yield from ((key, value) for key, value in node.value if isinstance(key, ScalarNode))


def text_of_record(lines: Sequence[str], spot: Spot) -> str:
    """The lines of a record from its id to its end, without the blank lines and comments after it."""
    first = spot.line - 1
    last = first
    for index in range(first + 1, len(lines)):
        content = lines[index].strip()
        if not content or content.startswith("#"):
            continue
        if not _belongs(lines[index], content, spot.column - 1):
            break
        last = index
    return "\n".join(lines[first : last + 1])


def _belongs(line: str, content: str, id_indent: int) -> bool:
    indent = len(line) - len(line.lstrip())
    return indent > id_indent or (indent == id_indent and content[0] in "]}")
