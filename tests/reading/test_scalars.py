"""What a plain scalar stands for in the core schema of YAML 1.2 (YAML 1.2.2, section 10.3.2)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as some

from assurance.reading.scalars import plain_value

# Left: as written. Right: by the table of YAML 1.2.2, section 10.3.2.
CORE = {
    "": None,
    "~": None,
    "null": None,
    "Null": None,
    "NULL": None,
    "nUll": "nUll",
    "true": True,
    "False": False,
    "tRUE": "tRUE",
    "yes": "yes",
    "no": "no",
    "on": "on",
    "y": "y",
    "0": 0,
    "-19": -19,
    "+12": 12,
    "007": 7,
    "0o17": 15,
    "0x3A": 58,
    "0b11": "0b11",
    "0o8": "0o8",
    "0.": 0.0,
    "-0.0": -0.0,
    ".5": 0.5,
    "+12e03": 12000.0,
    "1e-3": 0.001,
    "-2E+05": -200000.0,
    ".inf": math.inf,
    "-.Inf": -math.inf,
    "12:30": "12:30",
    "1_000": "1_000",
    "1,5": "1,5",
    "2026-03-12": "2026-03-12",
    "1.2.3": "1.2.3",
    "e3": "e3",
    ".": ".",
    "-": "-",
    "+.": "+.",
    "12.5 mm": "12.5 mm",
    "٣": "٣",
}


@pytest.mark.parametrize("written", CORE)
def test_a_plain_scalar_stands_for_what_the_core_schema_says(written: str) -> None:
    value = plain_value(written)

    assert value == CORE[written]
    assert type(value) is type(CORE[written])


def test_not_a_number_is_a_number_that_is_none() -> None:
    value = plain_value(".NaN")

    assert isinstance(value, float)
    assert math.isnan(value)


@given(some.floats(allow_nan=False, allow_infinity=False))
def test_a_number_as_printed_reads_back_as_the_same_number(value: float) -> None:
    assert plain_value(repr(value)) == value


@given(some.integers(-(10**100), 10**100))
def test_a_whole_number_as_printed_reads_back_as_the_same_number(value: int) -> None:
    assert plain_value(str(value)) == value


@given(some.text(max_size=200))
def test_any_text_stands_for_something(text: str) -> None:
    assert plain_value(text) is None or isinstance(plain_value(text), (str, int, float, bool))
