"""Rounding: never to the wrong side of a limit, the same digits everywhere."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assurance.model import numbers


def test_a_reserve_factor_just_below_one_is_never_shown_as_one():
    # The rounding trap: 0.99951 fails although two decimals to the nearest would print 1.00.
    assert numbers.reserve(0.99951) == "0.99"
    assert numbers.reserve(0.998) == "0.99"


def test_a_negative_margin_is_rounded_away_from_zero():
    assert numbers.reserve(-0.0005) == "−0.01"


def test_noise_of_binary_arithmetic_does_not_push_a_number_over_its_limit():
    assert numbers.beside(0.1 + 0.2, 0.3)[0] == "0.3000"
    assert numbers.reserve(1.1 * 1.1 - 0.21) == "1.00"  # 0.9999999999999999 in a double


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (1234.5678, "1,235"),
        (0.00012345, "0.0001234"),
        (1.23456e7, "1.235e7"),
        (-3.14159, "−3.142"),
        (0.0, "0"),
        (float("nan"), "not defined"),
    ],
)
def test_a_number_is_shown_with_four_digits(value, shown):
    assert numbers.shown(value) == shown


def test_published_numbers_keep_9_digits_where_solved_and_12_otherwise():
    assert numbers.published(1 / 3, solved=True) == 0.333333333
    assert numbers.published(1 / 3) == 0.333333333333


finite = st.floats(min_value=-1e6, max_value=1e6, allow_nan=False).filter(lambda x: x == 0 or abs(x) > 1e-6)


def plain(text):
    return float(text.replace(numbers.MINUS, "-").replace(",", ""))


@given(finite, finite)
def test_a_value_and_its_limit_read_as_they_compare(value, limit):
    value, limit = numbers.published(value), numbers.published(limit)
    one, other = (plain(text) for text in numbers.beside(value, limit))
    assert (one < other, one > other) == (value < limit, value > limit)


@given(finite, st.integers(1, 15))
def test_rounding_down_never_goes_up_and_up_never_goes_down(value, digits):
    value = numbers.published(value)
    lower, upper = (numbers.rounded(value, digits, toward=way) for way in ("down", "up"))
    assert lower <= value <= upper
