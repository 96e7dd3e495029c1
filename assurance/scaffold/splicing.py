"""Puts one more record into the text of a YAML file; every other character stays where it is."""

import re
from dataclasses import dataclass

from yaml.nodes import MappingNode, Node, ScalarNode

from assurance.reading.composing import compose
from assurance.scaffold.record_text import RecordText

LINE = re.compile(r"[^\r\n\x85\u2028\u2029]*(?:\r\n|[\r\n\x85\u2028\u2029]|$)")
END_OF_DOCUMENT = re.compile(r"\.\.\.(?:\s|$)")
STEP = 2  # blanks by which an id stands further in than its kind, where the file has no example


class NotSpliced(ValueError):  # noqa: N818 - it says what happened
    """The record cannot be put in there; the text says why and what would put it right."""


@dataclass(frozen=True, slots=True)
class Spliced:
    """A new text, and the line of the id in it."""

    text: str
    line: int


def spliced(text: str, kind: str, record: RecordText) -> Spliced:
    """The text with the record put last under its kind, which is added where the file has none.

    Raises `NotSpliced` where the text does not parse, or what stands under the kind cannot be added to.
    """
    composed = compose(text)
    if composed.fault is not None:
        raise NotSpliced(f"it cannot be read from line {composed.fault.spot.line} on. Put that right first")
    root = composed.root
    if root is None or _is_empty(root):
        return _new_section(_without(text, root), kind, record, column=0)
    if not isinstance(root, MappingNode):
        raise NotSpliced("it does not hold a mapping from kind to records. Put that right first")
    section = next((value for key, value in root.value if key.value == kind), None)
    if _is_flow(root, text):
        return _into_flow(text, root if section is None else section, kind if section is None else "", record)
    if section is None:
        return _new_section(text, kind, record, column=root.start_mark.column)
    return _into_section(text, root, kind, record)


def _into_section(text: str, root: MappingNode, kind: str, record: RecordText) -> Spliced:
    index = next(number for number, (key, _) in enumerate(root.value) if key.value == kind)
    key, section = root.value[index]
    if section.start_mark.index < key.end_mark.index:
        raise NotSpliced(
            f"`{kind}` is written as an alias there. Write its records out, or name another file"
        )
    upper = (
        root.value[index + 1][0].start_mark.line if index + 1 < len(root.value) else _last_line(text, root)
    )
    column = key.start_mark.column
    if _is_empty(section):
        text = _without(text, section)
        return _put(text, record, at=_end(text, key.end_mark.line, upper, column), column=column + STEP)
    if not isinstance(section, MappingNode):
        raise NotSpliced(f"`{kind}` does not hold a mapping from id to record. Put that right first")
    if _is_flow(section, text):
        return _into_flow(text, section, "", record)
    column_of_ids = section.value[0][0].start_mark.column
    at = _end(text, _last_content(section, text), upper, column)
    return _put(text, record, at=at, column=column_of_ids, apart=_are_apart(section, text))


def _new_section(text: str, kind: str, record: RecordText, *, column: int) -> Spliced:
    lines = _lines(text)
    at = len(lines)
    while at and (not lines[at - 1].strip() or END_OF_DOCUMENT.match(lines[at - 1])):
        at -= 1
    headed = RecordText((f"{kind}:", *(" " * STEP + line for line in record.lines)), record.one_line)
    put = _put(text, headed, at=at, column=column, apart=at > 0)
    return Spliced(put.text, put.line + 1)


def _put(text: str, record: RecordText, *, at: int, column: int, apart: bool = False) -> Spliced:
    """The text with the lines of a record before line `at`, set apart by a blank line where asked."""
    lines = _lines(text)
    end = "\r\n" if "\r\n" in text else "\n"
    before = "".join(lines[:at])
    if before and before == before.rstrip("\r\n\x85\u2028\u2029"):
        before += end
    apart = apart and at > 0 and bool(lines[at - 1].strip())
    added = end * apart + "".join(f"{' ' * column}{line}".rstrip() + end for line in record.lines)
    return Spliced(before + added + "".join(lines[at:]), at + 1 + apart)


def _into_flow(text: str, mapping: Node, kind: str, record: RecordText) -> Spliced:
    """The text with the record last in a mapping that is written as `{...}`, in one line."""
    if not isinstance(mapping, MappingNode):
        raise NotSpliced("what stands there is no mapping. Put that right first")
    close = mapping.end_mark.index - 1
    inside = text[mapping.start_mark.index + 1 : close]
    one = f"{kind}: {{{record.one_line}}}" if kind else record.one_line
    last = mapping.value[-1][1].end_mark.index if mapping.value else mapping.start_mark.index + 1
    has_comma = "," in text[last:close].partition("#")[0]
    joint = "" if not inside.strip() else (" " if has_comma else ", ")
    at = close if has_comma or not mapping.value else last
    added = text[:at] + joint + one + text[at:]
    return Spliced(added, len(_lines(added[: at + len(joint)])) or 1)


def _last_content(section: MappingNode, text: str) -> int:
    """The last line on which something of a section is written."""
    node: Node = section
    while not isinstance(node, ScalarNode) and node.value and not _is_flow(node, text):
        last = node.value[-1]
        node = last[1] if isinstance(last, tuple) else last
        if node.start_mark.index < section.start_mark.index:
            break  # an alias: what it stands for is written further up
    line, column = int(node.end_mark.line), int(node.end_mark.column)
    if isinstance(node, ScalarNode) and node.style in ("|", ">") and column == 0:
        return line - 1  # a block of text ends where the next line begins
    return max(line, int(section.value[-1][0].start_mark.line))


def _end(text: str, last: int, upper: int, column: int) -> int:
    """The line before which a record goes: behind the section and the comments that stand further in."""
    lines = _lines(text)
    end = last + 1
    for number in range(last + 1, min(upper, len(lines))):
        stripped = lines[number].strip()
        if stripped.startswith("#") and lines[number].index("#") > column:
            end = number + 1
    while end > last + 1 and not lines[end - 1].strip():
        end -= 1
    return end


def _are_apart(section: MappingNode, text: str) -> bool:
    """Whether a blank line stands before the ids of a section, or there is one record only that is long."""
    lines = _lines(text)
    starts = [int(key.start_mark.line) for key, _ in section.value]
    if len(starts) > 1:
        return any(not lines[line - 1].strip() for line in starts[1:])
    return _last_content(section, text) > starts[0]


def _last_line(text: str, root: Node) -> int:
    lines = _lines(text)
    for number in range(root.start_mark.line, len(lines)):
        if END_OF_DOCUMENT.match(lines[number]):
            return number
    return len(lines)


def _lines(text: str) -> list[str]:
    """The lines of a text as YAML counts them, each with its end."""
    return [line for line in LINE.findall(text) if line]


def _is_flow(node: Node, text: str) -> bool:
    first: str = text[node.start_mark.index : node.start_mark.index + 1]
    return first in ("{", "[")


def _is_empty(node: Node) -> bool:
    if isinstance(node, ScalarNode):
        return not node.style and node.value in ("", "~", "null", "Null", "NULL")
    return isinstance(node, MappingNode) and not node.value


def _without(text: str, node: Node | None) -> str:
    """The text without an empty value such as `{}` or `null`, so that records can stand below."""
    if node is None or node.start_mark.index == node.end_mark.index:
        return text
    return text[: node.start_mark.index].rstrip(" ") + text[node.end_mark.index :]
