"""Expression trees, their intervals and their printed numbers."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assurance.model.steps import (
    Given,
    Sheet,
    Step,
    Term,
    bound,
    call,
    evaluate,
    numbers_lead_to,
    print_step,
    printed,
    printed_interval,
    product,
    symbol,
    term,
    well_formed,
)

A, B = symbol("a"), symbol("b")
TREES = (
    A + B, A - B, A * B, A / B, A**2, A**3, B**-1, call("sqrt", call("abs", A)), call("abs", A - B),
    call("max", A, B), call("min", A, 2.0), call("exp", A / 1000.0), call("ln", call("abs", B) + 1.0),
    call("cos", A / 500.0), call("arccos", A / 1000.0), product(A, B, 3.0), term(1.0) / (A**2 + 1.0),
)  # fmt: skip
VALUE = st.floats(-900.0, 900.0).map(lambda value: round(value, 4))


@given(st.sampled_from(TREES), VALUE, VALUE, st.floats(0.0, 5.0), st.floats(0.0, 5.0), st.floats(0.0, 1.0))
def test_an_interval_leaves_out_no_value_that_can_occur(tree, a, b, a_width, b_width, share):
    assume(b != 0)
    around = {"a": (a - a_width, a + a_width), "b": (b - b_width, b + b_width)}
    at = {name: low + share * (high - low) for name, (low, high) in around.items()}
    assume(at["b"] != 0)
    low, high = bound(tree, around)
    value = evaluate(tree, at)
    slack = 1e-9 * max(1.0, abs(value))
    assert low - slack <= value <= high + slack


@given(st.floats(-1e12, 1e12, allow_subnormal=False), st.integers(4, 15))
def test_a_printed_number_stands_for_an_interval_that_holds_it(value, digits):
    low, high = printed_interval(printed(value, digits))
    slack = math.ulp(high)  # the ends are doubles themselves
    assert low - slack <= value <= high + slack


def test_a_printed_zero_says_how_well_it_is_known():
    assert printed(0.0, 4) == "0.000"


def test_no_digit_before_the_point_is_rounded_away():
    assert printed(123456.4, 4) == "123,456"


@given(st.floats(1.0, 1e5), st.floats(1.0, 1e5))
def test_digits_are_added_until_the_printed_numbers_lead_to_the_result(a, b):
    step = Step("expression", "c", "c", "difference", a - b, tree=A - B)
    lines = print_step(step, {"a": Given("a", "a", a), "b": Given("b", "b", b)})
    assert numbers_lead_to(step.tree, lines.inputs, lines.result)


def test_printed_numbers_that_are_too_coarse_do_not_lead_to_the_result():
    # 1.000 - 0.9999 from two-digit numbers could be anything from -0.1 to 0.1
    assert not numbers_lead_to(A - B, {"a": "1.0", "b": "1.0"}, "0.0001")


def test_a_wrong_result_does_not_follow():
    assert not numbers_lead_to(A * B, {"a": "2.000", "b": "3.000"}, "6.100")
    assert numbers_lead_to(A * B, {"a": "2.000", "b": "3.000"}, "6.000")


def test_a_whole_number_is_printed_without_decimals_and_stands_for_itself():
    named = {"n": Given("n", "n", 20.0, whole=True), "a": Given("a", "a", 3.0)}
    lines = print_step(Step("expression", "c", "c", "", 3.0 / 20.0, tree=A / symbol("n")), named)
    assert lines.inputs == {"a": "3.000", "n": "20"}
    assert lines.intervals()["n"] == (20.0, 20.0)
    assert lines.intervals()["a"] == (2.9995, 3.0005)


def test_a_count_of_a_million_has_all_its_digits():
    step = Step("statistic", "n", "n", "", 1234567.0, whole=True)
    assert print_step(step, {}).result == "1,234,567"


def test_what_has_decimals_is_not_whole():
    step = Step("statistic", "n", "n", "", 18.4, whole=True)
    assert not well_formed(Sheet("", steps=(step,)))
    with pytest.raises(ValueError, match=r"18\.4"):
        print_step(step, {})


def test_a_cosine_falls_to_its_least_at_the_far_end():
    low, high = bound(call("cos", A), {"a": (-0.5, 1.0)})
    assert (low, high) == (math.cos(1.0), 1.0)


@pytest.mark.parametrize(
    "tree",
    [Term("sub", (A,)), Term("call", (A,), name="system"), Term("add"), Term("symbol", (A,), name="a"), B],
    ids=["one term", "unknown function", "no terms", "symbol with terms", "symbol from nowhere"],
)
def test_a_tree_that_cannot_be_read_is_not_well_formed(tree):
    step = Step("expression", "c", "c", "", 1.0, tree=tree)
    assert not well_formed(Sheet("", givens=(Given("a", "a", 1.0),), steps=(step,)))
