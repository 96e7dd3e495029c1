"""A drawing in goal structuring notation: sizes out as a graph to lay out, places in, SVG text out.

Only sizes and links go to the layout, so that an edit of a word that keeps its lines lays out nothing.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from assurance.model.assessment import Assessment
from assurance.site.argument_gsn import Link
from assurance.site.argument_gsn_modules import Module, Modules, modules
from assurance.site.argument_gsn_shapes import LETTER, drawn, shape_of
from assurance.site.argument_tree import first_top, tree
from assurance.site.drawing import coordinate

PER_INCH = 72.0  # points of the layout; one is drawn as one px
MARGIN = 16.0
ARROW, HALF_ARROW = 11.0, 4.5
NAME = "argument-gsn"
_GRAPH_HEAD = (
    "digraph g{",
    "graph[rankdir=TB nodesep=.25 ranksep=.6]",
    'node[fixedsize=true label=""]',
    "edge[dir=none]",
)
LayOut = Callable[[Sequence[str]], Sequence[str]]  # graphs as DOT text to places as `plain` text
_HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{w}" height="{h}" viewBox="0 0 {w} {h}" role="img" '
    'aria-label="{says}" font-family="Liberation Sans, Arial, Helvetica, sans-serif" font-size="{letter}" '
    'fill="none" stroke="#000" stroke-width="1"><rect width="{w}" height="{h}" fill="#fff" stroke="none"/>'
)


@dataclass(frozen=True, slots=True)
class GsnFile:
    """One drawing: where it lies on the site, and the goal at its head."""

    address: str
    root: str


@dataclass(frozen=True, slots=True)
class _Curve:
    source: int
    target: int
    points: list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class _Places:
    """Where a layout puts the middle of each element, by position, and the curve of each link; in px."""

    width: float
    height: float
    points: dict[int, tuple[float, float]]
    curves: list[_Curve]


def gsn_modules(assessment: Assessment) -> Modules:
    """The drawings of a case; none where no claim concludes."""
    top = first_top(assessment)
    return modules(assessment, tree(assessment, top)) if top else Modules((), 0)


def gsn_files(found: Modules) -> tuple[GsnFile, ...]:
    """Where each drawing lies: that of the conclusion under the short name."""
    return tuple(
        GsnFile(f"{NAME}-{one.root}.svg" if order else f"{NAME}.svg", one.root)
        for order, one in enumerate(found.drawn)
    )


def gsn_texts(assessment: Assessment, lay_out: LayOut) -> Iterator[tuple[str, str]]:
    """Each drawing as SVG text by its address, all laid out in one go."""
    found = gsn_modules(assessment)
    places = lay_out([_dot(one) for one in found.drawn])
    for file, module, laid in zip(gsn_files(found), found.drawn, places, strict=True):
        yield file.address, _svg(module, laid)


def _dot(module: Module) -> str:
    """The sizes and links alone, by position; what limits a goal stands beside it."""
    at = {node.key: order for order, node in enumerate(module.nodes)}
    lines = [*_GRAPH_HEAD]
    forms = {"solution": "circle", "assumption": "ellipse", "justification": "ellipse"}
    for order, node in enumerate(module.nodes):
        shape = shape_of(node)
        size = f"width={shape.width / PER_INCH:.3f} height={shape.height / PER_INCH:.3f}"
        lines.append(f"n{order}[shape={forms.get(node.kind, 'box')} {size}]")
    beside = _beside(module)
    lines += [f"n{at[one.source]}->n{at[one.target]}{_how(one, beside)}" for one in module.links]
    for goal, limits in beside.items():
        row = " ".join(f"n{at[one]}" for one in (goal, *limits))
        lines.append(f"subgraph cluster{at[goal]}{{{{rank=same {row}}}}}")
    return "\n".join([*lines, "}"]) + "\n"


def _beside(module: Module) -> dict[str, list[str]]:
    """What limits a goal stands at its side: each goal with its own, what limits several at the first."""
    found: dict[str, list[str]] = {}
    taken: set[str] = set()
    for link in module.links:
        if link.kind == "in context of" and link.target not in taken:
            taken.add(link.target)
            found.setdefault(link.source, []).append(link.target)
    return found


def _how(link: Link, beside: dict[str, list[str]]) -> str:
    if link.kind == "supported by":
        return "[tailport=s headport=n]"
    return "[weight=4]" if link.target in beside.get(link.source, ()) else "[constraint=false]"


def _svg(module: Module, laid: str) -> str:
    places = _read(laid)
    order_of = {node.key: order for order, node in enumerate(module.nodes)}
    links = {(order_of[link.source], order_of[link.target]): link for link in module.links}
    if places is None or not _whole(places, elements=len(module.nodes), links=links):
        return _not_drawn(module)
    flip = _Flip(places.height)
    strokes = [
        _line(links[one.source, one.target], [flip(point) for point in one.points]) for one in places.curves
    ]
    sheets = [drawn(shape_of(node), *flip(places.points[order])) for order, node in enumerate(module.nodes)]
    size = {"w": coordinate(places.width + 2 * MARGIN), "h": coordinate(places.height + 2 * MARGIN)}
    says = f"The argument for {module.root} in goal structuring notation"
    return _HEAD.format(**size, says=says, letter=LETTER) + "".join((*strokes, *sheets)) + "</svg>\n"


def _whole(places: _Places, *, elements: int, links: Mapping[tuple[int, int], Link]) -> bool:
    """Whether every element and every link has its place."""
    ends = {(one.source, one.target) for one in places.curves if len(one.points) > 1}
    return set(places.points) == set(range(elements)) and ends == set(links)


@dataclass(frozen=True, slots=True)
class _Flip:
    """From the layout, whose heights grow upward, to the drawing."""

    height: float

    def __call__(self, point: tuple[float, float]) -> tuple[float, float]:
        return point[0] + MARGIN, self.height - point[1] + MARGIN


def _read(text: str) -> _Places | None:
    """The places; None where the text is not what a layout gives."""
    lines = [line.split() for line in text.splitlines()]
    try:
        size = next(line for line in lines if line[:1] == ["graph"])
        points = {int(line[1][1:]): (_px(line[2]), _px(line[3])) for line in lines if line[:1] == ["node"]}
        curves = [_curve(line) for line in lines if line[:1] == ["edge"]]
        return _Places(_px(size[2]), _px(size[3]), points, curves)
    except (StopIteration, ValueError, IndexError):
        return None


def _curve(words: Sequence[str]) -> _Curve:
    flat = [_px(one) for one in words[4 : 4 + 2 * int(words[3])]]
    points = list(zip(flat[::2], flat[1::2], strict=True))
    return _Curve(int(words[1][1:]), int(words[2][1:]), points)


def _px(inches: str) -> float:
    return float(inches) * PER_INCH


def _line(link: Link, curve: list[tuple[float, float]]) -> str:
    """A curve with its head: solid where it supports, hollow where it limits."""
    c = coordinate
    (x, y), (fx, fy) = curve[-1], curve[-2]
    away = math.hypot(x - fx, y - fy) or 1.0
    ux, uy = (x - fx) / away, (y - fy) / away
    bx, by = x - ARROW * ux, y - ARROW * uy
    curve = [*curve[:-1], (bx, by)]
    d = f"M{c(curve[0][0])} {c(curve[0][1])}C" + " ".join(f"{c(px)} {c(py)}" for px, py in curve[1:])
    sides = (bx - HALF_ARROW * uy, by + HALF_ARROW * ux, bx + HALF_ARROW * uy, by - HALF_ARROW * ux)
    head = f"M{c(x)} {c(y)}L{c(sides[0])} {c(sides[1])}L{c(sides[2])} {c(sides[3])}z"
    fill = "#000" if link.kind == "supported by" else "#fff"
    return f'<path d="{d}"/><path d="{head}" fill="{fill}"/>'


def _not_drawn(module: Module) -> str:
    """What stands in place of a drawing that could not be laid out."""
    says = f"The argument for {module.root} could not be laid out here; argument.dot holds it as text."
    head = _HEAD.format(w="900", h="60", says=says, letter=LETTER)
    return f'{head}<text x="16" y="34" fill="#000" stroke="none">{says}</text></svg>\n'
