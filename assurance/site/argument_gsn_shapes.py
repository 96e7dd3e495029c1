"""The shapes of the goal structuring notation as published: outline in black, nothing filled, no colour.

GSN Community Standard, version 3 (2021), part 1, core notation; shapes and letters are from memory.
"""

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import escape

from assurance.site.argument_gsn import Node, NodeKind
from assurance.site.drawing import BUILT_WIDTH, coordinate, wrapped

LETTER = 12  # px; no text is smaller
BOLD_WIDTH = BUILT_WIDTH + 0.6  # of a character of a name
LINE = 15.0
PAD = 10.0
SLANT = 18.0  # of the sides of a strategy
DIAMOND = 9.0  # half the width of the mark under an undeveloped goal
FOOT = 22.0  # of an away goal, where its drawing is named
_TEXT_WIDTH: dict[NodeKind, float] = {
    "goal": 220, "away goal": 220, "strategy": 210, "context": 190, "assumption": 150, "justification": 150,
}  # fmt: skip
_CIRCLE_WIDTHS = range(84, 200, 8)
MOST_LINES = 200


@dataclass(frozen=True, slots=True)
class Shape:
    """An element with its lines of text and its size."""

    node: Node
    name: tuple[str, ...]
    lines: tuple[str, ...]
    width: float
    height: float

    @property
    def tall(self) -> float:
        """The height of all its lines."""
        return LINE * (len(self.name) + len(self.lines))


@lru_cache(maxsize=8192)
def shape_of(node: Node) -> Shape:
    """An element with its text broken into lines and its size."""
    if node.kind == "solution":
        return min((_circle(node, width) for width in _CIRCLE_WIDTHS), key=lambda one: one.width)
    name, lines = _broken(node, _TEXT_WIDTH[node.kind])
    width, height = _TEXT_WIDTH[node.kind] + 2 * PAD, LINE * (len(name) + len(lines)) + 2 * PAD - 4
    if node.kind == "strategy":
        width += 2 * SLANT
    elif node.kind == "context":
        width += 0.5 * height  # room for its round ends
    elif node.kind in ("assumption", "justification"):
        width, height = width * math.sqrt(2), height * math.sqrt(2)  # the oval around the text
    if node.kind == "away goal":
        height += FOOT
    return Shape(node, name, lines, width, height + (2 * DIAMOND if node.undeveloped else 0))


def _broken(node: Node, width: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    text = wrapped(node.text, width=width, per_character=BUILT_WIDTH, lines=MOST_LINES)
    return _broken_name(node.name, int(width / BOLD_WIDTH)), text


def _broken_name(name: str, room: int) -> tuple[str, ...]:
    """An id in lines that end behind a hyphen, dot or comma, and inside a word only where there is none."""
    lines: list[str] = [""]
    for piece in re.findall(r"[^-_., ]+[-_., ]*|[-_., ]+", name):
        if lines[-1] and len(lines[-1]) + len(piece.rstrip()) > room:
            lines.append("")
        lines[-1] += piece
        while len(lines[-1]) > room + 1:
            lines[-1:] = [lines[-1][:room], lines[-1][room:]]
    return tuple(one.rstrip() for one in lines if one.strip())


def _circle(node: Node, width: float) -> Shape:
    name, lines = _broken(node, width)
    across = math.hypot(width, LINE * (len(name) + len(lines))) + PAD
    return Shape(node, name, lines, across, across)


def drawn(shape: Shape, x: float, y: float) -> str:
    """An element around its middle."""
    left, top = x - shape.width / 2, y - shape.height / 2
    kind = shape.node.kind
    outline = _OUTLINES[kind](shape, left, top)
    middle = y - (DIAMOND if shape.node.undeveloped else 0) - (FOOT / 2 if kind == "away goal" else 0)
    return outline + _words(shape, x, left, middle)


def _rectangle(shape: Shape, left: float, top: float) -> str:
    height = shape.height - (2 * DIAMOND if shape.node.undeveloped else 0)
    drawn = _rect(left, top, shape.width, height)
    if not shape.node.undeveloped:
        return drawn
    c, x, y, d = coordinate, left + shape.width / 2, top + height, f"{DIAMOND:g}"
    return drawn + f'<path d="M{c(x)} {c(y)}l{d} {d}l-{d} {d}l-{d} -{d}z"/>'


def _away(shape: Shape, left: float, top: float) -> str:
    """A goal that is drawn elsewhere: a foot with the sign of a module and the name of that drawing."""
    c, line = coordinate, top + shape.height - FOOT
    sign = f"M{c(left + 8)} {c(line + 6)}h6v3h8v9h-14z"
    named = _text(left + 28, line + 15, shape.node.module, anchor="start")
    return (
        _rect(left, top, shape.width, shape.height)
        + f'<path d="M{c(left)} {c(line)}h{c(shape.width)}"/><path d="{sign}"/>{named}'
    )


def _parallelogram(shape: Shape, left: float, top: float) -> str:
    c, right, bottom = coordinate, left + shape.width, top + shape.height
    return f'<path d="M{c(left + SLANT)} {c(top)}H{c(right)}L{c(right - SLANT)} {c(bottom)}H{c(left)}z"/>'


def _stadium(shape: Shape, left: float, top: float) -> str:
    return _rect(left, top, shape.width, shape.height, round_by=shape.height / 2)


def _round(shape: Shape, left: float, top: float) -> str:
    c, radius = coordinate, shape.width / 2
    return f'<circle cx="{c(left + radius)}" cy="{c(top + radius)}" r="{c(radius)}"/>'


def _oval(shape: Shape, left: float, top: float) -> str:
    """An oval with the letter of its kind beside its lower right."""
    c, rx, ry = coordinate, shape.width / 2, shape.height / 2
    letter = "A" if shape.node.kind == "assumption" else "J"
    beside = _text(left + 0.9 * shape.width, top + 0.95 * shape.height, letter, bold=True)
    return f'<ellipse cx="{c(left + rx)}" cy="{c(top + ry)}" rx="{c(rx)}" ry="{c(ry)}"/>{beside}'


def _rect(left: float, top: float, width: float, height: float, *, round_by: float = 0.0) -> str:
    c = coordinate
    corner = f' rx="{c(round_by)}"' if round_by else ""
    return f'<rect x="{c(left)}" y="{c(top)}" width="{c(width)}" height="{c(height)}"{corner}/>'


_OUTLINES = {
    "goal": _rectangle,
    "away goal": _away,
    "strategy": _parallelogram,
    "solution": _round,
    "context": _stadium,
    "assumption": _oval,
    "justification": _oval,
}


def _words(shape: Shape, x: float, left: float, middle: float) -> str:
    """The name and the text: from the left in a goal, from the middle in all that is round."""
    inset = {"goal": PAD, "away goal": PAD, "strategy": PAD + SLANT}.get(shape.node.kind)
    anchor, at = ("middle", x) if inset is None else ("start", left + inset)
    y = middle - shape.tall / 2 + LINE - 4
    said = []
    for order, line in enumerate((*shape.name, *shape.lines)):
        said.append(_text(at, y + LINE * order, line, anchor=anchor, bold=order < len(shape.name)))
    return "".join(said)


def _text(x: float, y: float, words: str, *, anchor: str = "start", bold: bool = False) -> str:
    c = coordinate
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{c(x)}" y="{c(y)}" text-anchor="{anchor}"{weight} fill="#000" stroke="none">'
        f"{escape(words)}</text>"
    )
