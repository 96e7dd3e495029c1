"""The lines of a case's files as they are written, and how far a value reaches on its line."""

import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from assurance.model.verdicts import Place
from assurance.reading.real_paths import leads_out

LARGEST = 5_000_000  # bytes; of a larger file no line is shown
LONGEST = 2_000  # characters to either side of a column that are looked at
LINE_END = re.compile(r"\r\n|[\r\n\x85\u2028\u2029]")  # YAML 1.1, 5.4: what the parser counts as a line end
PLAIN_END = re.compile(r"\s+#|:(?=\s|$)")  # where a plain word ends anywhere
FLOW_END = re.compile(r"\s+#|:(?=[\s,\]}]|$)|[,\]}]")  # and inside brackets
WORD = re.compile(r"[&*!][^\s,\]}]*|[|>][-+0-9]*")
QUOTED = {'"': re.compile(r'"(?:\\.|[^"\\])*"?'), "'": re.compile(r"'(?:''|[^'])*'?")}
CLOSING = {"{": "}", "[": "]"}


class SourceLines:
    """Hands out lines of the files of one case; a file is opened when its first line is asked for."""

    def __init__(self, folder: Path) -> None:
        self._root = folder.resolve()
        self._lines = cache(self._read)

    def at(self, place: Place) -> str | None:
        """The line of a place without its line end; None where there is no such line to be read."""
        lines = self._lines(place.file) if place.file else ()
        return lines[place.line - 1] if 1 <= place.line <= len(lines) else None

    def _read(self, file: str) -> Sequence[str]:
        path = self._root / file
        try:
            if leads_out(path, self._root) or not path.is_file() or path.stat().st_size > LARGEST:
                return ()
            content = path.read_bytes()
        except (OSError, ValueError):
            return ()
        return LINE_END.split(content.decode("utf-8-sig", errors="replace"))


def value_end(line: str, column: int) -> int:
    """The column after the key or value that starts at a column, as far as this line tells.

    Columns count characters from 1. A value that goes on in the next line ends with its line.
    """
    start = min(max(column, 1) - 1, len(line))
    before, rest = line[max(start - LONGEST, 0) : start], line[start : start + LONGEST]
    return start + max(len(_value(rest, inside_brackets(before))), 1) + 1


def _value(rest: str, in_brackets: bool) -> str:
    first = rest[:1]
    if first in CLOSING:
        return _bracketed(rest)
    pattern = QUOTED.get(first, WORD)
    found = pattern.match(rest)
    if found is not None:
        return found[0].rstrip()
    ended = (FLOW_END if in_brackets else PLAIN_END).search(rest)
    return (rest[: ended.start()] if ended else rest).rstrip()


def _bracketed(rest: str) -> str:
    waiting: list[str] = []
    position = 0
    while position < len(rest):
        one = rest[position]
        if one in CLOSING:
            waiting.append(CLOSING[one])
        elif waiting and one == waiting[-1]:
            waiting.pop()
            if not waiting:
                return rest[: position + 1]
        position += _step(rest, position)
    return rest.rstrip()


def inside_brackets(before: str) -> bool:
    """Whether a bracket that opened on the line is still open where the text ends."""
    depth = position = 0
    while position < len(before):
        one = before[position]
        depth += (one in "{[") - (one in "}]" and depth > 0)
        position += _step(before, position)
    return depth > 0


def _step(text: str, position: int) -> int:
    """How many characters to go on by: a whole quoted text where one starts, else one."""
    pattern = QUOTED.get(text[position])
    starts = pattern is not None and (position == 0 or text[position - 1] in " {[,:-\t")
    found = pattern.match(text, position) if pattern is not None and starts else None
    return len(found[0]) if found else 1
