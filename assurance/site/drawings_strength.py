"""Reserve factors drawn on one log axis, in two widths: a wall at what is needed, a dot at the least."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import numbers
from assurance.model.verdicts import Verdict
from assurance.site import drawing

AXIS = (0.5, 5.0)  # the same on every page
MOST_TICKS = 60  # of one part, the nearest to the wall; the table has them all
TICKS = (0.5, 0.7, 1.0, 1.5, 2.0, 3.0, 5.0)


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part with its reserve factors, the least of them, and what governs it."""

    name: str
    href: str
    governed_by: str
    verdict: Verdict
    least: float
    others: tuple[float, ...]
    needed: float


@dataclass(frozen=True, slots=True)
class _Axis:
    start: float
    end: float

    def x(self, factor: float) -> float:
        share = math.log(factor / AXIS[0]) / math.log(AXIS[1] / AXIS[0])
        return self.start + share * (self.end - self.start)

    def reaches(self, factor: float) -> bool:
        return AXIS[0] <= factor <= AXIS[1]


def reserve_chart(rows: Sequence[PartRow], *, says: str) -> Markup:
    """The chart for a page."""
    axis, step = _Axis(362, 640), 34
    bottom = 30.0 + step * len(rows)
    drawn = [
        drawing.text(22, 14, "Part", css="b"),
        drawing.text(204, 14, "Governed by", css="b"),
        drawing.text(712, 14, "Least", css="b", anchor="end"),
        *_ticks(axis, bottom),
    ]
    for position, row in enumerate(rows):
        y = 30 + step * position + step / 2
        name = drawing.cut(row.name, width=176, per_character=drawing.BUILT_WIDTH)
        governed = drawing.cut(row.governed_by, width=148, per_character=drawing.BUILT_WIDTH)
        drawn += [
            drawing.verdict_mark(2, y - 6, row.verdict, titled=True),
            drawing.linked(row.href, drawing.text(22, y + 4, name, css="said s b")),
            drawing.text(204, y + 4, governed, css="said s"),
            *_row(row, axis, y, step),
            drawing.text(712, y + 4, numbers.reserve(row.least), css=_value_css(row), anchor="end"),
            drawing.path(f"M0 {drawing.coordinate(y + step / 2)}H712", "d-hair"),
        ]
    return drawing.picture(712, bottom + 6, drawn, says=says)


def narrow_reserve_chart(rows: Sequence[PartRow], *, says: str) -> Markup:
    """The chart for a phone: each part on a line, its axis beneath."""
    axis, step = _Axis(8, 318), 64
    bottom = 26.0 + step * len(rows)
    drawn = _ticks(axis, bottom)
    for position, row in enumerate(rows):
        y = 26 + step * position
        name = drawing.cut(row.name, width=230, per_character=drawing.BUILT_WIDTH)
        governed = drawing.cut(row.governed_by, width=290, per_character=drawing.BUILT_WIDTH)
        drawn += [
            drawing.verdict_mark(0, y + 6, row.verdict, titled=True),
            drawing.linked(row.href, drawing.text(18, y + 16, name, css="said s b halo")),
            drawing.text(
                326, y + 16, numbers.reserve(row.least), css=f"halo {_value_css(row)}", anchor="end"
            ),
            drawing.text(18, y + 30, governed, css="said s q halo"),
            *_row(row, axis, y + 47, 22),
            drawing.path(f"M0 {drawing.coordinate(y + step - 2)}H326", "d-hair"),
        ]
    return drawing.picture(326, bottom + 6, drawn, says=says)


def _value_css(row: PartRow) -> str:
    return "b fill-fails" if row.least < row.needed else "b"


def _ticks(axis: _Axis, bottom: float) -> list[str]:
    drawn = []
    for tick in TICKS:
        x = axis.x(tick)
        css = "b" if tick == 1.0 else "q"
        drawn.append(drawing.text(x, 14, numbers.as_written(tick), css=css, anchor="middle"))
        drawn.append(drawing.path(f"M{drawing.coordinate(x)} 20V{drawing.coordinate(bottom)}", "d-hair"))
    return drawn


def _row(row: PartRow, axis: _Axis, y: float, step: float) -> list[str]:
    c = drawing.coordinate
    wall = axis.x(min(max(row.needed, AXIS[0]), AXIS[1]))
    drawn = [drawing.path(f"M{c(wall)} {c(y - step / 2)}v{step}", "d-trouble")]
    ticks = dict.fromkeys(c(axis.x(one)) for one in row.others if axis.reaches(one))
    if ticks:
        drawn.append(drawing.path("".join(f"M{x} {c(y - 5)}v10" for x in list(ticks)[:MOST_TICKS]), "d-tick"))
    inside = min(max(row.least, AXIS[0]), AXIS[1])
    x = axis.x(inside)
    below = row.least < row.needed
    drawn.append(drawing.path(f"M{c(wall)} {c(y)}H{c(x)}", "d-trouble-fails" if below else "d-stem"))
    if inside != row.least:
        beyond, anchor, shift = ("‹", "end", -2) if row.least < AXIS[0] else ("›", "start", 2)
        return [*drawn, drawing.text(x + shift, y + 4, beyond, css="b", anchor=anchor)]
    if below:
        return [*drawn, drawing.verdict_mark(x - 6, y - 6, Verdict.FAILS)]
    css = "d-dot" if row.verdict is Verdict.HOLDS else "d-dot-hollow"
    return [*drawn, f'<circle class="{css}" cx="{c(x)}" cy="{c(y)}" r="5"/>']
