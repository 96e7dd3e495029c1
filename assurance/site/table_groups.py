"""Rows of a table under lines of their own: which row belongs to which group, and what each line says."""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from markupsafe import escape

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Grouping(Generic[T]):
    """A way to put rows together under lines of their own."""

    word: str
    of: Callable[[T], str]  # which group a row belongs to
    line: Callable[[str, Sequence[T]], str]  # what stands on the line of a group
    order: Callable[[str], Any] | None = None  # else the group of the first row comes first
    folded: Callable[[str], bool] = lambda _: False  # what a script folds to begin with


class Groups(Generic[T]):
    """The groups of one grouping, in their order, with the rows of each."""

    def __init__(self, grouping: Grouping[T], records: Sequence[T]) -> None:
        self._records = records
        self.grouping = grouping
        found: dict[str, list[int]] = {}
        for position, record in enumerate(records):
            found.setdefault(grouping.of(record), []).append(position)
        keys = list(found) if grouping.order is None else sorted(found, key=grouping.order)
        self.members = {key: found[key] for key in keys}
        self.anchors = _told_apart(keys)

    def order(self) -> list[int]:
        """The places of all rows, group after group."""
        return [position for members in self.members.values() for position in members]

    def line(self, key: str) -> str:
        """What stands on the line of a group."""
        return str(escape(self.grouping.line(key, [self._records[i] for i in self.members[key]])))

    def data(self, order: Sequence[int]) -> dict[str, Any]:
        """The grouping for the script: which group each row belongs to, in the order of the page."""
        number = {i: n for n, members in enumerate(self.members.values()) for i in members}
        return {
            "word": anchor(self.grouping.word),
            "keys": [self.anchors[key] for key in self.members],
            "lines": [self.line(key) for key in self.members],
            "folded": [self.grouping.folded(key) for key in self.members],
            "of": [number[i] for i in order],
        }


def _told_apart(keys: Iterable[str]) -> dict[str, str]:
    """An anchor for each group; of those that would read the same, the later ones get a number."""
    taken: dict[str, int] = {}
    anchors = {}
    for key in keys:
        name = anchor(key)
        number = taken.get(name, 0) + 1
        while number > 1 and f"{name}-{number}" in taken:
            number += 1
        taken[name] = number
        anchors[key] = name if number == 1 else f"{name}-{number}"
        taken.setdefault(anchors[key], 1)
    return anchors


def anchor(text: str) -> str:
    """A name as it can stand in an address."""
    return re.sub(r"\W+", "-", text.casefold()).strip("-") or "none"
