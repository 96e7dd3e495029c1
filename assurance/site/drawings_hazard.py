"""A hazard drawn in lanes: from its causes, through its controls, to the event and the harm."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.argument_records import PRECEDENCE
from assurance.model.verdicts import Verdict
from assurance.site import drawing

MOST_LANES = 6  # causes with a lane of their own
_LEFT, _COLUMN, _EVENT, _RIGHT = 150.0, 38.0, 92.0, 90.0
_PLATE = 8.0
_FIRST_LANE, _BETWEEN_LANES = 122.0, 44.0
_WITHIN = 16.0  # between two plates of one column


@dataclass(frozen=True, slots=True)
class Plate:
    """A control as it stands in the drawing."""

    number: int
    text: str
    type: str
    counts: bool
    verdict: Verdict
    prevents: bool
    mitigates: bool


@dataclass(frozen=True, slots=True)
class Lane:
    """A cause as it stands in the drawing."""

    text: str
    href: str = ""


@dataclass(frozen=True, slots=True)
class _Side:
    """The controls on one side of the event: where each plate stands, and how wide the side is."""

    start: float
    end: float
    columns: tuple[tuple[str, float], ...]
    plates: tuple[tuple[Plate, float], ...]


def hazard_lanes(
    title: str, harm: str, lanes: Sequence[Lane], plates: Sequence[Plate], *, says: str
) -> Markup:
    """The lanes of a hazard. A line is thick until the first control that counts."""
    shown = list(lanes[:MOST_LANES]) or [Lane("No cause named")]
    if len(lanes) > MOST_LANES:
        shown[-1] = Lane(f"{len(lanes) - MOST_LANES + 1} more causes")
    left = _side(_LEFT, [one for one in plates if one.prevents])
    right = _side(left.end + _EVENT, [one for one in plates if one.mitigates])
    rows = [_FIRST_LANE + _BETWEEN_LANES * row for row in range(len(shown))]
    last = max(rows[-1], _FIRST_LANE + _BETWEEN_LANES)
    middle = (rows[0] + last) / 2
    width = right.end + _RIGHT
    drawn = [
        *_headings(left, right, width=width, bottom=last + 22),
        *_causes(shown, rows, left),
        *_harm(harm, right, middle, width),
        *_plates(left, rows[0], rows[-1]),
        *_plates(right, middle, middle),
        *_event(title, left.end, rows[0], last, plates),
    ]
    return drawing.picture(width, last + 48, drawn, says=says)


def _side(start: float, plates: Sequence[Plate]) -> _Side:
    columns, placed, x = [], [], start
    for kind in PRECEDENCE:
        mine = [one for one in plates if (one.type or "procedure") == kind]
        width = max(_COLUMN, _WITHIN * len(mine) + 22)
        centre = x + width / 2
        columns.append((kind, centre))
        first = centre - _WITHIN * (len(mine) - 1) / 2
        placed += [(plate, first + _WITHIN * at) for at, plate in enumerate(mine)]
        x += width
    return _Side(start, x, tuple(columns), tuple(placed))


def _headings(left: _Side, right: _Side, *, width: float, bottom: float) -> list[str]:
    drawn = [
        drawing.text(0, 12, "Causes", css="b"),
        drawing.text(left.start, 12, "Preventive controls", css="b"),
        drawing.text(left.end + _EVENT / 2, 12, "Event", css="b", anchor="middle"),
        drawing.text(right.start, 12, "Mitigating controls", css="b"),
        drawing.text(width - _RIGHT + 8, 12, "Harm", css="b"),
    ]
    for side in (left, right):
        for position, (kind, x) in enumerate(side.columns):
            y = 30 if position % 2 == 0 else 44
            drawn.append(drawing.text(x, y, kind, css="q", anchor="middle"))
            drawn.append(
                drawing.path(f"M{drawing.coordinate(x)} {y + 4}V{drawing.coordinate(bottom)}", "d-hair")
            )
    return drawn


def _first_counted(side: _Side) -> float:
    return min((x for plate, x in side.plates if plate.counts), default=side.end)


def _causes(lanes: Sequence[Lane], rows: Sequence[float], side: _Side) -> list[str]:
    drawn = []
    stop = _first_counted(side)
    for lane, y in zip(lanes, rows, strict=True):
        words = drawing.wrapped(lane.text, width=_LEFT - 12, per_character=drawing.BUILT_WIDTH, lines=3)
        top = y + 4 - 7 * (len(words) - 1)
        said = "".join(drawing.text(0, top + 14 * row, word, css="said s") for row, word in enumerate(words))
        drawn.append(drawing.linked(lane.href, said))
        drawn += _line(side.start, side.end, y, stop)
    return drawn


def _line(start: float, end: float, y: float, stop: float) -> list[str]:
    c = drawing.coordinate
    drawn = [drawing.path(f"M{c(start)} {c(y)}H{c(stop)}", "d-trouble")]
    if stop < end:
        drawn.append(drawing.path(f"M{c(stop)} {c(y)}H{c(end)}", "d-held"))
    return drawn


def _harm(harm: str, side: _Side, y: float, width: float) -> list[str]:
    words = drawing.wrapped(harm, width=_RIGHT - 8, per_character=drawing.BUILT_WIDTH, lines=7)
    top = y + 4 - 7 * (len(words) - 1)
    drawn = [
        drawing.text(width - _RIGHT + 8, top + 14 * row, word, css="said s") for row, word in enumerate(words)
    ]
    return drawn + _line(side.start, side.end, y, _first_counted(side))


def _plates(side: _Side, first: float, last: float) -> list[str]:
    drawn = []
    for plate, x in side.plates:
        top = min(first - 20, first)
        drawn.append(drawing.text(x, 62, str(plate.number), css="b halo", anchor="middle"))
        drawn.append(drawing.verdict_mark(x - 6, 68, plate.verdict, titled=True))
        if plate.counts:
            drawn.append(drawing.rect(x - _PLATE / 2, top, _PLATE, last - first + 40, "d-plate"))
        else:
            drawn.append(drawing.rect(x - _PLATE / 2, first - 38, _PLATE, 26, "d-lifted"))
    return drawn


def _event(title: str, x: float, first: float, last: float, plates: Sequence[Plate]) -> list[str]:
    top, tall = first - 40, last - first + 76
    words = drawing.wrapped(title, width=_EVENT - 12, per_character=drawing.SAID_WIDTH, lines=4)
    line = top + tall / 2 - 8 * len(words)
    counted = sum(plate.counts for plate in plates)
    drawn = [drawing.rect(x, top, _EVENT, tall, "d-event")]
    drawn += [
        drawing.text(x + _EVENT / 2, line + 17 * row, word, css="said", anchor="middle")
        for row, word in enumerate(words)
    ]
    foot = top + tall - 24
    drawn.append(drawing.text(x + _EVENT / 2, foot, f"{counted} of {len(plates)}", css="b", anchor="middle"))
    drawn.append(drawing.text(x + _EVENT / 2, foot + 14, "controls count", css="q", anchor="middle"))
    return drawn
