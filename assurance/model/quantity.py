"""A value with its unit and uncertainty, and a range, read from text by one fixed pattern."""

import math
import re
from dataclasses import dataclass

from assurance.model import numbers, units

NUMBER = r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
UNIT = r"[A-Za-z%°µ0-9][A-Za-z0-9%°µ/. ]*"
QUANTITY = re.compile(
    rf"\s*(?P<value>{NUMBER})"
    rf"(?:\s*(?:\+/-|±)\s*(?P<plus>{NUMBER}))?"
    rf"(?:\s*(?P<unit>{UNIT}?))?"
    r"(?:\s*\((?P<kind>k\s*=\s*1|k\s*=\s*2|limits)\))?\s*$"
)
RANGE = re.compile(rf"\s*(?P<lower>{NUMBER})\s+to\s+(?P<upper>{NUMBER})(?:\s*(?P<unit>{UNIT}))?\s*$")
LONGEST = 120  # characters of a value; anything longer is no value


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in its unit; `half_width` is at about 95 % (k = 2), or the limits where `limits`."""

    value: float
    unit: str = ""
    half_width: float | None = None
    limits: bool = False

    @property
    def dimension(self) -> str:
        """What is measured, in words."""
        return units.unit(self.unit).dimension

    def within(self, unit: str) -> "Quantity":
        """The same quantity in another unit; `ValueError` where the dimension differs."""
        width = self.half_width
        return Quantity(
            units.convert(self.value, given=self.unit, wanted=unit),
            unit,
            None if width is None else units.interval_to(width, given=self.unit, wanted=unit),
            self.limits,
        )

    def __str__(self) -> str:
        text = numbers.as_written(self.value)
        if self.half_width is not None:
            text += f" ± {numbers.as_written(self.half_width)}"
        return numbers.with_unit(text, self.unit) + (" (limits)" if self.limits else "")


@dataclass(frozen=True, slots=True)
class Range:
    """From `lower` to `upper`, ends included, in one unit."""

    lower: float
    upper: float
    unit: str = ""

    def __str__(self) -> str:
        ends = f"{numbers.as_written(self.lower)} to {numbers.as_written(self.upper)}"
        return numbers.with_unit(ends.replace(" ", numbers.NO_BREAK_SPACE), self.unit)


def read_quantity(given: object) -> Quantity:
    """A quantity from a number, or from text such as `12.50 +/- 0.02 mm (k=1)`.

    Raises `ValueError` that names the fault. Nothing is guessed: a decimal comma is refused.
    """
    if isinstance(given, bool) or not isinstance(given, (int, float, str)):
        raise ValueError("is not a number with a unit, such as `12.5 mm`")
    if isinstance(given, (int, float)):
        return Quantity(_finite(float(given)))
    found = QUANTITY.match(given) if len(given) <= LONGEST else None
    if found is None:
        raise ValueError(_why_not(given))
    unit = _unit(found["unit"])
    width = None if found["plus"] is None else _finite(float(found["plus"]))
    if width is not None and width < 0:
        raise ValueError("has a half-width below zero after `+/-`")
    kind = (found["kind"] or "").replace(" ", "")
    if kind and width is None:
        raise ValueError(f"says `({kind})` but states no `+/-`")
    if kind == "k=1" and width is not None:
        width *= 2.0  # stored at k = 2
    return Quantity(_finite(float(found["value"])), unit, width, kind == "limits")


def read_range(given: object) -> Range:
    """A range from text such as `50 to 120 kg`, ends included.

    Raises `ValueError` where the text is no range or runs from high to low.
    """
    found = RANGE.match(given) if isinstance(given, str) and len(given) <= LONGEST else None
    if found is None:
        raise ValueError("is not a range with a unit, such as `50 to 120 kg`")
    lower, upper = _finite(float(found["lower"])), _finite(float(found["upper"]))
    if lower > upper:
        raise ValueError(f"runs from high to low: {found['lower']} is more than {found['upper']}")
    return Range(lower, upper, _unit(found["unit"]))


def looks_like_quantity(given: object) -> bool:
    """Whether a short form is meant as a value, and not as an id or a word."""
    if isinstance(given, bool):
        return False
    return isinstance(given, (int, float)) or (
        isinstance(given, str) and re.match(r"\s*[-+]?\.?[0-9]", given) is not None
    )


def _unit(spelling: str | None) -> str:
    name = " ".join((spelling or "").split()).replace("°C", "degC").replace("µm", "um")
    units.unit(name)
    return name


def _finite(value: float) -> float:
    if not math.isfinite(value):
        raise ValueError("is not a finite number")
    return value


def _why_not(given: str) -> str:
    if len(given) > LONGEST:
        return f"is longer than {LONGEST} characters, so it is no number with a unit"
    if re.match(r"\s*[-+]?\d+,\d", given):
        return "has a comma in the number; write a point, and no comma between thousands"
    return "is not a number with a unit, such as `12.5 mm` or `12.50 +/- 0.02 mm`"
