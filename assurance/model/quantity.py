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
LOOKS_LIKE_QUANTITY = r"^\s*[-+]?\.?[0-9]"
LONGEST = 120  # characters of a value; anything longer is no value
MICRO_SIGN, GREEK_MU = "\u00b5", "\u03bc"  # two characters that look the same
MINUS_OR_DASH = "[\u2212\u2010\u2011\u2013]"  # what print and spreadsheets put for `-`
ODD_NUMBERS = (
    (r"[0-9],[0-9]", "has a comma in the number; write a point, and no comma between thousands"),
    (r"[0-9]_[0-9]", "has `_` in the number; write the digits without it"),
    (r"[0-9]['’][0-9]", "has `'` in the number; write the digits without it"),
    (MINUS_OR_DASH + r"\s*[.0-9]", "has a minus sign or dash that is not `-`; write `-` for minus"),
    (r"(?![0-9])\d", "is not a number: its digits are not `0` to `9`; write them with `0` to `9`"),
)


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
    given = given.replace(GREEK_MU, MICRO_SIGN)
    found = QUANTITY.match(given) if len(given) <= LONGEST else None
    if found is None:
        raise ValueError(_why_not(given))
    if RANGE.match(given):
        raise ValueError("is a range; write one number with its unit, such as `12.5 mm`")
    unit = _unit(found["unit"])
    width = None if found["plus"] is None else _finite(float(found["plus"]))
    if width is not None and width < 0:
        raise ValueError("has a half-width below zero after `+/-`; write it without its minus sign")
    kind = (found["kind"] or "").replace(" ", "")
    if kind and width is None:
        hint = f"write it as `12.5 +/- 0.1 mm ({kind})`, or take `({kind})` away"
        raise ValueError(f"says `({kind})` but states no `+/-`; {hint}")
    if kind == "k=1" and width is not None:
        width *= 2.0  # stored at k = 2
    return Quantity(_finite(float(found["value"])), unit, width, kind == "limits")


def read_range(given: object) -> Range:
    """A range from text such as `50 to 120 kg`, ends included.

    Raises `ValueError` where the text is no range or runs from high to low.
    """
    text = given.replace(GREEK_MU, MICRO_SIGN) if isinstance(given, str) else ""
    found = RANGE.match(text) if len(text) <= LONGEST else None
    if found is None:
        raise ValueError(_odd_number(text) or "is not a range with a unit, such as `50 to 120 kg`")
    lower, upper = _finite(float(found["lower"])), _finite(float(found["upper"]))
    if lower > upper:
        raise ValueError(f"runs from high to low: {found['lower']} is more than {found['upper']}")
    return Range(lower, upper, _unit(found["unit"]))


def looks_like_quantity(given: object) -> bool:
    """Whether a short form is meant as a value, and not as an id or a word."""
    if isinstance(given, bool):
        return False
    return isinstance(given, (int, float)) or (
        isinstance(given, str) and re.match(LOOKS_LIKE_QUANTITY, given) is not None
    )


def quantity_pattern() -> str:
    """A pattern that a quantity as text fits, units of the list included, for editors.

    It is written so that every common dialect of patterns reads it.
    """
    unit, kind = rf"(\s*({_any_unit()}))?", r"(\s*\((k\s*=\s*[12]|limits)\))?"
    return rf"^\s*{NUMBER}(\s*(\+/-|±)\s*{NUMBER.removeprefix('[-+]?')}{unit}{kind}|{unit})\s*$"


def range_pattern() -> str:
    """A pattern that a range fits, units of the list included, for editors."""
    return rf"^\s*{NUMBER}\s+to\s+{NUMBER}(\s*({_any_unit()}))?\s*$"


def _any_unit() -> str:
    listed = set(units.units()) - {""}
    other = {
        name.replace(own, also)
        for name in listed
        for own, also in (("degC", "°C"), ("um", f"{MICRO_SIGN}m"), ("um", f"{GREEK_MU}m"))
    }
    longest_first = sorted(listed | other, key=lambda name: (-len(name), name))
    return "|".join(re.sub(r"[.^]", r"\\\g<0>", name).replace(" ", r"\s+") for name in longest_first)


def _unit(spelling: str | None) -> str:
    name = " ".join((spelling or "").split()).replace("°C", "degC").replace("µm", "um")
    units.unit(name)
    return name


def _finite(value: float) -> float:
    if not math.isfinite(value):
        raise ValueError("is not a finite number; write the number that was measured, or leave the field out")
    return value


def _why_not(given: str) -> str:
    if len(given) > LONGEST:
        return f"is longer than {LONGEST} characters, so it is no number with a unit"
    return _odd_number(given) or "is not a number with a unit, such as `12.5 mm` or `12.50 +/- 0.02 mm`"


def _odd_number(given: str) -> str:
    """What is odd about how a number is written; nothing where it is not written oddly."""
    return next((fault for pattern, fault in ODD_NUMBERS if re.search(pattern, given)), "")
