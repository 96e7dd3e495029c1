"""Small drawings of risk: the RPN of a cause before and now, on one axis for the whole page."""

from markupsafe import Markup

from assurance.site import drawing

WIDTH, HEIGHT = 96.0, 12.0


def rpn_bar(before: int | None, now: int | None, *, most: int) -> Markup:
    """An outline for before, solid for now; `most` is the end of the axis."""
    if now is None or most <= 0:
        return Markup("")
    drawn = []
    if before is not None:
        drawn.append(drawing.rect(0.5, 1.5, _length(before, most), HEIGHT - 3, "d-was"))
    drawn.append(drawing.rect(0, 4, _length(now, most), HEIGHT - 8, "d-plate"))
    says = f"RPN before {before}, now {now}" if before is not None else f"RPN now {now}"
    return drawing.picture(WIDTH, HEIGHT, drawn, says=says)


def _length(value: int, most: int) -> float:
    return max(1.0, (WIDTH - 1) * min(value, most) / most)
