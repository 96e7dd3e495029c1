"""Text of a case made safe to show: nothing that a file holds moves the cursor or hides a character."""

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

REACH = 4  # widths of a line to either side of a value that are looked at
TAB = 4  # columns from one stop to the next
HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})  # Unicode general categories
PICTURES = 0x2400  # the control pictures stand for U+0000 to U+001F in order
DELETE, PICTURE_OF_DELETE = 0x7F, "␡"
ELLIPSIS = "…"


@dataclass(frozen=True, slots=True)
class Excerpt:
    """A line cut to a width, and the line of carets to print under it."""

    line: str
    carets: str


def shown_text(text: str) -> str:
    """A text on one line in which no character acts on a terminal: such ones are shown as signs."""
    return text if text.isprintable() else "".join(_sign(one) for one in text)


def shown_width(text: str) -> int:
    """How many columns of a terminal a text takes that `shown_text` gave."""
    return sum(_width(one) for one in text)


def excerpt(line: str, start: int, end: int, *, width: int) -> Excerpt:
    """A line cut around the columns from `start` up to `end`, with carets under what is left of them.

    Columns count characters from 1; `width` counts columns of the terminal.
    """
    skipped = max(start - 1 - REACH * width, 0)  # of a very long line only the part around is looked at
    part = line[skipped : start + REACH * width]
    cells = list(_cells(part))
    first = min(max(start - 1 - skipped, 0), len(cells))
    last = min(max(end - 1 - skipped, first), len(cells))
    left, right = _window([shown_width(cell) for cell in cells], first, last, width)
    before = (ELLIPSIS if skipped + left else "") + "".join(cells[left:first])
    marked = "".join(cells[first : min(last, right)])
    after = "".join(cells[min(last, right) : right])
    cut = ELLIPSIS if skipped + right < len(line) else ""
    return Excerpt((before + marked + after).rstrip() + cut, _under(before, marked))


def _under(before: str, marked: str) -> str:
    return " " * shown_width(before) + "^" * max(shown_width(marked), 1)


def _window(sizes: list[int], first: int, last: int, width: int) -> tuple[int, int]:
    """From which cell up to which to show: all if they fit, else the marked ones with what is around."""
    if sum(sizes) <= width:
        return 0, len(sizes)
    room = width - 2  # an ellipsis at either side
    marked = min(sum(sizes[first:last]), room)
    lead = max((room - marked) // 2, room - sum(sizes[first:]))
    left = first
    while left and (lead := lead - sizes[left - 1]) >= 0:
        left -= 1
    right = left
    while right < len(sizes) and (room := room - sizes[right]) >= 0:
        right += 1
    return left, right


def _cells(line: str) -> Iterator[str]:
    """What is shown for each character of a line."""
    column = 0
    for one in line:
        cell = " " * (TAB - column % TAB) if one == "\t" else _sign(one)
        column += shown_width(cell)
        yield cell


def _sign(one: str) -> str:
    if unicodedata.category(one) not in HIDDEN:
        return one
    code = ord(one)
    if code < 0x20:
        return chr(PICTURES + code)
    return PICTURE_OF_DELETE if code == DELETE else f"<U+{code:04X}>"


def _width(one: str) -> int:
    """Columns of one character: two for the wide ones of East Asian Width (Unicode annex 11)."""
    if unicodedata.category(one) in ("Mn", "Me"):
        return 0  # drawn over the character before it
    return 2 if unicodedata.east_asian_width(one) in "WF" else 1
