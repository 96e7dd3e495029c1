"""The closed list of units: which spelling has which dimension, and how it turns into SI."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from assurance.model.names import nearest_name


@dataclass(frozen=True, slots=True)
class Unit:
    """One spelling of a unit.

    `factor` times a value, plus `offset`, is the SI value.
    """

    spelling: str
    dimension: str
    factor: float
    offset: float = 0.0


@cache
def units() -> dict[str, Unit]:
    """Every known unit by its spelling; the empty spelling is the plain number."""
    listed = tomllib.loads((files("assurance.model") / "units.toml").read_text("utf-8"))
    known = {"": Unit("", "plain number", 1.0)}
    for spelling, row in listed["units"].items():
        known[spelling] = Unit(spelling, row["dimension"], row["factor"], row.get("offset", 0.0))
    return known


def unit(spelling: str) -> Unit:
    """The unit of that spelling.

    Raises `ValueError` with the nearest spelling where the list does not have it.
    """
    known = units().get(spelling)
    if known is not None:
        return known
    raise ValueError(f"`{spelling}` is not a unit of the list{nearest_unit(spelling)}")


def nearest_unit(spelling: str) -> str:
    """`; did you mean ...` for a unit that is not in the list, or nothing."""
    near = _meant(spelling)
    return f"; did you mean `{near}`?" if near else ""


def _meant(spelling: str) -> str | None:
    """The unit of the list that is written so but for blanks, dots, capitals or signs; else the nearest.

    Two letters or fewer are near too many units: what is no other spelling of one is not guessed.
    """
    plain = _run_together(spelling)
    for wanted in (plain, f"deg{plain}"):
        if wanted in (known := {_run_together(name): name for name in units() if name}):
            return known[wanted]
    folded = [name for name in units() if name and _run_together(name).lower() == plain.lower()]
    if folded or len(plain) <= 2:
        return folded[0] if len(folded) == 1 else None
    return nearest_name(plain, filter(None, units()))


def _run_together(spelling: str) -> str:
    """A spelling without what parts its letters, with the signs of degree and micro as the list has them."""
    for sign, own in (("°", "deg"), ("\u00b5", "u"), ("\u03bc", "u"), ("²", "2"), ("³", "3"), ("⁴", "4")):
        spelling = spelling.replace(sign, own)
    return "".join(one for one in spelling if one not in " .*·^\u00a0")


def to_si(value: float, spelling: str) -> float:
    """A value in SI: metre, kilogram, second, kelvin, ampere, radian, count."""
    known = unit(spelling)
    return value * known.factor + known.offset


def from_si(value: float, spelling: str) -> float:
    """An SI value in the unit of that spelling."""
    known = unit(spelling)
    return (value - known.offset) / known.factor


def convert(value: float, *, given: str, wanted: str) -> float:
    """A value in another unit of the same dimension.

    Raises `ValueError` where the dimensions differ. The same unit gives the same number back.
    """
    if given == wanted:
        return value
    if not same_dimension(given, wanted):
        raise ValueError(
            f"`{given or '1'}` is {unit(given).dimension}, `{wanted or '1'}` is {unit(wanted).dimension}"
        )
    one, other = unit(given), unit(wanted)
    if one.offset == other.offset:
        return value * (one.factor / other.factor)
    return from_si(to_si(value, given), wanted)


def interval_to(value: float, *, given: str, wanted: str) -> float:
    """A difference or half-width in another unit: no offset is added."""
    return value * (unit(given).factor / unit(wanted).factor)


def same_dimension(one: str, other: str) -> bool:
    """Whether two spellings measure the same thing."""
    return unit(one).dimension == unit(other).dimension
