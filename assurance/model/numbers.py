"""The one place that rounds: published numbers, shown numbers, bounds rounded outward."""

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal

SOLVED_DIGITS = 9  # significant digits of a number that a solver or a fit gave
EXACT_DIGITS = 12  # significant digits of every other published number
MINUS = "\u2212"
NO_BREAK_SPACE = "\u00a0"
_ROUNDINGS = {"nearest": ROUND_HALF_EVEN, "down": ROUND_FLOOR, "up": ROUND_CEILING}


def published(value: float, *, solved: bool = False) -> float:
    """A number as it leaves the tool: 9 significant digits where solved, else 12."""
    return rounded(value, SOLVED_DIGITS if solved else EXACT_DIGITS)


def rounded(value: float, digits: int, *, toward: str = "nearest") -> float:
    """A number rounded to significant digits; `toward` is nearest, down or up."""
    if value == 0 or not math.isfinite(value):
        return value
    return float(_to_digits(value, digits, toward))


def _to_digits(value: float, digits: int, toward: str) -> Decimal:
    exact = Decimal(repr(value))
    if toward != "nearest" and digits < EXACT_DIGITS:
        exact = _to_digits(value, EXACT_DIGITS, "nearest")  # 0.1 + 0.2 is 0.3, not a little more
    step = Decimal(1).scaleb(exact.adjusted() - digits + 1)
    return exact.quantize(step, rounding=_ROUNDINGS[toward])


def shown(value: float, digits: int = 4, *, toward: str = "nearest") -> str:
    """A number for a reader: significant digits, thousands comma, a real minus sign.

    A number of a million or more, or below a ten-thousandth, is shown with a power of ten.
    """
    if not math.isfinite(value):
        return "not defined"
    if value == 0:
        return "0"
    exact = _to_digits(value, digits, toward)
    if abs(value) >= 1e6 or abs(value) < 1e-4:
        mantissa, _, power = f"{exact:.{digits - 1}e}".partition("e")
        return _with_minus(f"{mantissa}e{int(power)}")
    places = max(0, digits - 1 - exact.adjusted())
    return _with_minus(f"{exact:,.{places}f}")


def fixed(value: float, places: int = 2, *, toward: str = "nearest") -> str:
    """A number for a reader with a stated count of decimals."""
    if not math.isfinite(value):
        return "not defined"
    step = Decimal(1).scaleb(-places)
    exact = Decimal(0) if value == 0 else _to_digits(value, EXACT_DIGITS, "nearest")
    return _with_minus(f"{exact.quantize(step, rounding=_ROUNDINGS[toward]):,.{places}f}")


def reserve(value: float) -> str:
    """A reserve factor or margin for a reader: two decimals, rounded down, so 0.998 is 0.99."""
    return fixed(value, 2, toward="down")


def beside(value: float, limit: float, *, fewest: int = 4) -> tuple[str, str]:
    """A value and its limit for a reader, with digits enough that the two read as they compare.

    A value below its limit is rounded down and one above it up, so neither is printed on the wrong side.
    """
    value, limit = published(value), published(limit)
    toward = "down" if value < limit else "up" if value > limit else "nearest"
    for digits in range(fewest, 16):
        one, other = rounded(value, digits, toward=toward), rounded(limit, digits)
        if (one < other, one > other) == (value < limit, value > limit):
            return shown(value, digits, toward=toward), as_written(rounded(limit, digits))
    return as_written(value), as_written(limit)


def as_written(value: float) -> str:
    """A typed number for a reader: all its digits and no more."""
    text = f"{Decimal(repr(value)):,f}" if 1e-4 <= abs(value) < 1e9 or value == 0 else f"{value:g}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return _with_minus(text)


def _with_minus(text: str) -> str:
    return text.replace("-", MINUS)


def unit_shown(spelling: str) -> str:
    """A unit for a reader: degree sign and micro sign as the trade prints them."""
    special = {"degC": "°C", "um": "µm", "deg": "°", "um/m/K": "µm/m/K", "g0": "g"}
    shown_unit = special.get(spelling, spelling)
    for power in ("2", "3", "4"):
        if shown_unit.endswith(("m" + power, "s" + power)):
            shown_unit = shown_unit[:-1] + {"2": "²", "3": "³", "4": "⁴"}[power]
    return shown_unit


def with_unit(number: str, spelling: str) -> str:
    """A shown number and its unit, which never break over a line."""
    shown_unit = unit_shown(spelling)
    if not shown_unit:
        return number
    return number + NO_BREAK_SPACE + shown_unit.replace(" ", NO_BREAK_SPACE)
