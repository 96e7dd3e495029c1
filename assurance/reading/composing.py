"""Text to YAML nodes by the C parser, with faults instead of exceptions. No tag makes an object."""

from dataclasses import dataclass
from typing import Final

import yaml
from yaml._yaml import CParser
from yaml.nodes import Node

from assurance.reading.faults import Fault, Spot, shown_value
from assurance.reading.folders import LINE_END

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


NOT_CLOSED = ("quoted scalar", "flow sequence", "flow mapping", "flow node")
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
    "did not find expected key": (
        "no key stands where one is expected",
        "Check the indentation and the quotes of this line and of the one above.",
    ),
    "could not find expected ':'": (
        "the line above has no `:` after its key",
        "Write `key: value`, with a blank after the colon.",
    ),
    "expected ',' or ']'": (
        "a list in `[...]` is not closed, or lacks a comma",
        "Close it with `]`, and part its items by commas.",
    ),
    "expected ',' or '}'": (
        "a mapping in `{...}` is not closed, or lacks a comma",
        "Close it with `}`, and part its items by commas.",
    ),
    "did not find expected node content": (
        "a value is missing, or a `[` or `{` is not closed",
        "Write the value, or close the bracket.",
    ),
    "did not find expected '-' indicator": (
        "the list ends here, or an item lacks its `- `",
        "Indent the items of a list alike, each after `- `.",
    ),
    "found unexpected end of stream": ("a text in quotes is not closed", "Close the quotes."),
    "found unexpected document indicator": ("a text in quotes is not closed", "Close the quotes."),
    "cannot start any token": (
        "this character cannot start a value",
        "Put the value in quotes.",
    ),
    "block sequence entries are not allowed": (
        "a `- ` stands where no item of a list can be",
        "Write the items on lines of their own below the key.",
    ),
    "found unknown escape": (
        "a backslash in a text in double quotes starts no known escape",
        "Use single quotes, or double the backslash.",
    ),
}
OTHERWISE = "Check the indentation and the quotes of this line and of the one above."


def _where_it_stopped(stopped: yaml.MarkedYAMLError, text: str) -> Fault:
    spot = _spot(stopped, text)
    if _starts_with_tab(text, spot):
        return _fault(spot, "a tab stands in the indentation", "Indent with spaces.", text)
    told = f"{stopped.context or ''} {stopped.problem or ''}"
    for known, (message, remedy) in WORDING.items():
        if known in told:
            return _fault(spot, message, remedy, text)
    problem = (stopped.problem or "the text stops making sense").replace("invalid", "unknown")
    return _fault(spot, problem, OTHERWISE, text)


def _spot(stopped: yaml.MarkedYAMLError, text: str) -> Spot:
    """Where the parser stopped; where a text in quotes or a bracket begins that is not closed in its line."""
    begun, stopped_at = stopped.context_mark, stopped.problem_mark
    unclosed = any(word in (stopped.context or "") for word in NOT_CLOSED)
    if begun and stopped_at and unclosed and stopped_at.line > begun.line:
        return Spot(begun.line + 1, begun.column + 1)
    mark = stopped_at or begun
    if mark is None:
        return Spot(1, 1)
    lines = text.splitlines()
    if mark.line < len(lines) or not lines:
        return Spot(mark.line + 1, mark.column + 1)
    return Spot(len(lines), len(lines[-1]) + 1)  # the parser stopped at the end


def spot_after(before: str) -> Spot:
    """The spot that follows a text, in lines as YAML counts them."""
    lines = LINE_END.split(before)
    return Spot(len(lines), len(lines[-1]) + 1)


def _line(text: str, spot: Spot) -> str:
    lines = LINE_END.split(text, spot.line)
    return lines[spot.line - 1] if spot.line <= len(lines) else ""


def _starts_with_tab(text: str, spot: Spot) -> bool:
    line = _line(text, spot)
    indent = line[: len(line) - len(line.lstrip())]
    return "\t" in indent and spot.column <= len(indent) + 1


def _unreadable_character(stopped: yaml.reader.ReaderError, text: str) -> Fault:
    before = text.encode("utf-8", "replace")[: int(stopped.position)].decode("utf-8", "replace")
    spot = spot_after(before)
    message = "a control character stands here, which YAML does not allow"
    return _fault(spot, message, "Take the character away.", text)


def _fault(spot: Spot, message: str, remedy: str, text: str) -> Fault:
    """The fault with what is written from there to the end of the line, or in the whole line."""
    line = _line(text, spot)
    written = line[spot.column - 1 :].strip() or line.strip()
    at = f" at {shown_value(written)}" if written else ""
    return Fault("yaml-not-readable", spot, f"The file cannot be read as YAML{at}: {message}.", remedy)
