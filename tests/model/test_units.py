"""The closed list of units agrees with pint, an independent library, wherever pint has the unit."""

import math
import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as some

from assurance.model.units import (
    convert,
    from_si,
    interval_to,
    nearest_unit,
    same_dimension,
    to_si,
    unit,
    units,
)

# Our spelling to pint's, where they differ. pint reads `60 rpm` right only in base units of angle.
TO_PINT = {
    "%": "percent",
    "um": "micrometer",
    "in": "inch",
    "ft": "foot",
    "m2": "m**2",
    "cm2": "cm**2",
    "mm2": "mm**2",
    "m3": "m**3",
    "mm3": "mm**3",
    "mm4": "mm**4",
    "L": "liter",
    "t": "metric_ton",
    "lb": "pound",
    "lbf": "force_pound",
    "kn": "knot",
    "m/s2": "m/s**2",
    "g0": "standard_gravity",
    "N/mm2": "N/mm**2",
    "ksi": "kilopsi",
    "N s/m": "N*s/m",
    "kN s/m": "kN*s/m",
    "N m": "N*m",
    "kN m": "kN*m",
    "N mm": "N*mm",
    "kg/m3": "kg/m**3",
    "g/cm3": "g/cm**3",
    "um/m/K": "micrometer/m/K",
    "MPa m0.5": "MPa*m**0.5",
    "rpm": "revolutions_per_minute",
    "deg": "degree",
    "degC": "degC",
    "h": "hour",
    "min": "minute",
    "1/h": "1/hour",
    "km/h": "km/hour",
}
NOT_IN_PINT = {"uses", "cycles", "pieces", "uses/h"}  # counts: pint has no dimension for them
BASE = ("[length]", "[mass]", "[time]", "[temperature]", "[current]")
SPELLINGS = sorted(name for name in units() if name)
COMPARED = [name for name in SPELLINGS if name not in NOT_IN_PINT]


@cache
def registry() -> Any:
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def exponents(dimension: str) -> list[float]:
    """Exponents of the seven base dimensions, as the data file states them."""
    listed = tomllib.loads((files("assurance.model") / "units.toml").read_text("utf-8"))
    named = listed["points"].get(dimension, dimension)
    found: list[float] = listed["dimensions"][named]
    return found


@pytest.mark.parametrize("spelling", COMPARED)
def test_a_unit_turns_into_si_as_pint_does_it(spelling: str) -> None:
    theirs = registry().Quantity(12.5, TO_PINT.get(spelling, spelling)).to_base_units()
    kilogram_is_base = theirs.magnitude  # pint's base units are those of the SI, kilogram included

    assert to_si(12.5, spelling) == pytest.approx(kilogram_is_base, rel=1e-12)


@pytest.mark.parametrize("spelling", COMPARED)
def test_a_unit_has_the_dimension_that_pint_gives_it(spelling: str) -> None:
    theirs = registry().Unit(TO_PINT.get(spelling, spelling)).dimensionality
    ours = exponents(unit(spelling).dimension)

    assert [theirs.get(base, 0) for base in BASE] == pytest.approx(ours[:5])


def test_what_pint_cannot_judge_is_only_the_counts() -> None:
    assert {s for s in SPELLINGS if exponents(unit(s).dimension)[6]} == NOT_IN_PINT
    assert to_si(3600.0, "uses/h") == pytest.approx(1.0, rel=1e-12)  # 3600 s in an hour (SI)


def test_every_dimension_of_a_unit_is_described() -> None:
    for spelling in SPELLINGS:
        assert len(exponents(unit(spelling).dimension)) == 7


def test_angle_and_count_are_dimensions_of_their_own() -> None:
    assert not same_dimension("rpm", "Hz")
    assert not same_dimension("rad", "")
    assert not same_dimension("uses/h", "1/h")
    assert not same_dimension("cycles", "")


def test_a_point_on_the_temperature_scale_is_no_interval() -> None:
    assert not same_dimension("degC", "K")
    assert to_si(20.0, "degC") == pytest.approx(293.15)  # 0 degC is 273.15 K (SI brochure, 9th ed., 2.3.1)


def test_one_revolution_a_minute_is_two_pi_radians_in_sixty_seconds() -> None:
    assert to_si(60.0, "rpm") == pytest.approx(2.0 * math.pi, rel=1e-14)  # closed form


@pytest.mark.parametrize("wrong", ["Nm", "Mpa", "kgs", "furlong", "m^2", "9**9**9", "MPa ", "", "__import__"])
def test_a_spelling_that_is_not_listed_is_refused(wrong: str) -> None:
    if wrong == "":
        assert unit(wrong).dimension == "plain number"
        return
    with pytest.raises(ValueError, match="is not a unit of the list"):
        unit(wrong)


MEANT = {  # `KN` may be kN or the knot `kn`, so it is not guessed
    "Nm": "N m", "kN*m": "kN m", "Mpa": "MPa", "KN": None, "C": "degC", "°C": "degC", "mm²": "mm2",
    "kg/m^3": "kg/m3", "\u03bcm": "um", "Newton": None, "F": None, "x": None,
}  # fmt: skip


@pytest.mark.parametrize("wrong", MEANT)
def test_the_unit_that_is_meant_is_guessed_by_its_letters_and_a_short_one_not_at_all(wrong: str) -> None:
    meant = MEANT[wrong]
    assert nearest_unit(wrong) == (f"; did you mean `{meant}`?" if meant else "")


@given(some.sampled_from(SPELLINGS), some.floats(-1e9, 1e9))
def test_a_value_goes_to_si_and_back(spelling: str, value: float) -> None:
    back = from_si(to_si(value, spelling), spelling)

    # An offset of 273.15 costs about 1e-13 in absolute terms, so small values are compared with it.
    assert back == pytest.approx(value, rel=1e-12, abs=1e-9 if unit(spelling).offset else 1e-300)


@given(some.sampled_from(SPELLINGS), some.sampled_from(SPELLINGS), some.floats(-1e6, 1e6))
def test_a_value_is_converted_only_within_its_dimension(given_: str, wanted: str, value: float) -> None:
    if not same_dimension(given_, wanted):
        with pytest.raises(ValueError, match=" is "):
            convert(value, given=given_, wanted=wanted)
        return
    there = convert(value, given=given_, wanted=wanted)
    assert convert(there, given=wanted, wanted=given_) == pytest.approx(value, rel=1e-12, abs=1e-300)


def test_a_difference_of_temperature_takes_no_offset() -> None:
    assert interval_to(0.5, given="degC", wanted="degC") == 0.5
