"""Quantities and ranges are read from one fixed pattern, never worked out from an expression."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as some

from assurance.model.quantity import (
    Quantity,
    Range,
    looks_like_quantity,
    read_quantity,
    read_range,
)
from assurance.model.units import units

READ = {
    "12.5 mm": Quantity(12.5, "mm"),
    "12.5mm": Quantity(12.5, "mm"),
    "-3 degC": Quantity(-3.0, "degC"),
    "20 °C": Quantity(20.0, "degC"),
    "5 µm": Quantity(5.0, "um"),
    "1e-3 N m": Quantity(0.001, "N m"),
    "7": Quantity(7.0),
    "12.50 +/- 0.02 mm": Quantity(12.5, "mm", 0.02),
    "12.50 ± 0.02 mm": Quantity(12.5, "mm", 0.02),
    "12.50 +/- 0.02 mm (k=2)": Quantity(12.5, "mm", 0.02),
    "12.50 +/- 0.01 mm (k=1)": Quantity(12.5, "mm", 0.02),
    "12.50 +/- 0.02 mm (limits)": Quantity(12.5, "mm", 0.02, limits=True),
    "0.5 +/- 0.1": Quantity(0.5, "", 0.1),
    "90 %": Quantity(90.0, "%"),
    "30 MPa m0.5": Quantity(30.0, "MPa m0.5"),
}
REFUSED = {
    "12,5 mm": "comma",
    "12.5 Nm": "is not a unit",
    "60 rpm2": "is not a unit",
    "9**9**9**9": "is not a number",
    "1 + 1 mm": "is not a number",
    "mm": "is not a number",
    "": "is not a number",
    "nan": "is not a number",
    "1e999": "finite",
    "12 +/- -1 mm": "below zero",
    "12 mm (k=2)": "states no",
    "12 mm (k=3)": "is not a number",
    "٣ mm": "is not a number",
    "1 2 mm": "is not a unit",
    "9" * 121: "longer than 120",
}


@pytest.mark.parametrize("text", READ)
def test_a_quantity_reads_as_written(text: str) -> None:
    assert read_quantity(text) == READ[text]


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_quantity_is_refused_with_its_reason(text: str) -> None:
    with pytest.raises(ValueError, match=REFUSED[text]):
        read_quantity(text)


@pytest.mark.parametrize("given", [True, None, [], {}, float("nan"), float("inf")])
def test_what_is_no_number_is_refused(given: object) -> None:
    with pytest.raises(ValueError, match="is not a"):
        read_quantity(given)


@given(some.text(max_size=150))
def test_any_text_is_read_or_refused(text: str) -> None:
    with suppress(ValueError):
        assert isinstance(read_quantity(text), Quantity)


@given(some.floats(-1e12, 1e12), some.floats(0, 1e6), some.sampled_from(sorted(units())))
def test_a_quantity_written_out_reads_back(value: float, width: float, unit: str) -> None:
    text = f"{value!r} +/- {width!r} {unit}"

    assert read_quantity(text) == Quantity(value, unit, width)


def test_a_range_has_its_ends_and_unit() -> None:
    assert read_range("50 to 120 kg") == Range(50.0, 120.0, "kg")
    assert read_range("-5 to 35 degC") == Range(-5.0, 35.0, "degC")
    assert read_range("0 to 1.5") == Range(0.0, 1.5)


@pytest.mark.parametrize("text", ["120 to 50 kg", "50 - 120 kg", "50 to kg", "50 kg to 120 kg", 3, None])
def test_what_is_no_range_is_refused(text: object) -> None:
    with pytest.raises(ValueError, match=r"range|high to low"):
        read_range(text)


def test_a_quantity_in_another_unit_takes_its_half_width_along() -> None:
    there = Quantity(20.0, "mm", 0.5).within("m")

    assert there == Quantity(0.02, "m", 0.0005)


def test_a_value_is_told_from_a_name_by_its_first_character() -> None:
    assert all(looks_like_quantity(text) for text in ("1 mm", "-2", "+.5 N", 3, 0.1))
    assert not any(looks_like_quantity(text) for text in ("reserve", "a1", "", "-x", True, None))
