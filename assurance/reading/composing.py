"""Text to YAML nodes by the C parser, with faults instead of exceptions. No tag makes an object."""

from dataclasses import dataclass
from typing import Final

import yaml
from yaml._yaml import CParser
from yaml.nodes import Node

from assurance.reading.faults import Fault, Spot

IMPLICIT: Final = "tag:implicit"  # the tag of every node whose author wrote none


class _Composer(CParser):
    """The C composer, told to leave every untagged node untyped: types are ours to decide."""

    def resolve(self, _kind: object, _text: object, _implicit: object) -> str:
        return IMPLICIT

    def descend_resolver(self, _parent: object, _index: object) -> None:
        """Nothing to follow."""

    def ascend_resolver(self) -> None:
        """Nothing to follow."""


@dataclass(frozen=True, slots=True)
class Composed:
    """The root node of a text, or the fault at which the parser stopped; both absent if empty."""

    root: Node | None
    fault: Fault | None = None


def compose(text: str) -> Composed:
    """The nodes of a YAML text that holds one document."""
    try:
        return Composed(_Composer(text).get_single_node())
    except yaml.MarkedYAMLError as stopped:
        return Composed(None, _where_it_stopped(stopped, text))
    except yaml.reader.ReaderError as stopped:
        return Composed(None, _unreadable_character(stopped, text))


def spot_of(node: Node) -> Spot:
    """Where a node starts."""
    mark = node.start_mark
    return Spot(mark.line + 1, mark.column + 1)


WORDING = {
    "expected a single document": (
        "a second document starts here",
        "Keep one document in a file: take the `---` line away or move the rest to its own file.",
    ),
    "exceeded maximum nesting": ("mappings and lists are nested too deep here", "Nest them less deep."),
    "found undefined alias": (
        "an alias names an anchor that is not written above it",
        "Write the anchor `&name` first, or write the value out.",
    ),
    "found duplicate anchor": ("an anchor is written twice", "Give each anchor its own name."),
    "mapping values are not allowed": (
        "a `:` stands where no key can be",
        "Put text that holds `: ` in quotes, and check the indentation.",
    ),
    "found unknown escape": (
        "a backslash in a text in double quotes starts no known escape",
        "Use single quotes, or double the backslash.",
    ),
}
OTHERWISE = "Check the indentation and the quotes of this line and of the one above."


def _where_it_stopped(stopped: yaml.MarkedYAMLError, text: str) -> Fault:
    mark = stopped.problem_mark or stopped.context_mark
    spot = Spot(mark.line + 1, mark.column + 1) if mark else Spot(1, 1)
    if _starts_with_tab(text, spot):
        return _fault(spot, "a tab stands in the indentation", "Indent with spaces.")
    told = f"{stopped.context or ''} {stopped.problem or ''}"
    for known, (message, remedy) in WORDING.items():
        if known in told:
            return _fault(spot, message, remedy)
    problem = (stopped.problem or "the text stops making sense").replace("invalid", "unknown")
    return _fault(spot, problem, OTHERWISE)


def _starts_with_tab(text: str, spot: Spot) -> bool:
    lines = text.split("\n", spot.line)
    line = lines[spot.line - 1] if spot.line <= len(lines) else ""
    indent = line[: len(line) - len(line.lstrip())]
    return "\t" in indent and spot.column <= len(indent) + 1


def _unreadable_character(stopped: yaml.reader.ReaderError, text: str) -> Fault:
    before = text.encode("utf-8", "replace")[: int(stopped.position)].decode("utf-8", "replace")
    line = before.count("\n") + 1
    column = len(before) - (before.rfind("\n") + 1) + 1
    message = "a control character stands here, which YAML does not allow"
    return _fault(Spot(line, column), message, "Take the character away.")


def _fault(spot: Spot, message: str, remedy: str) -> Fault:
    return Fault("yaml-not-readable", spot, f"The file cannot be read as YAML: {message}.", remedy)
