"""How results are named and printed: in words, and never better than they are."""

import re

import pytest
from published_demo import demo

from assurance.methods.registry import METHODS
from assurance.model.assessment import CheckOutcome, ResultValue
from assurance.model.verdicts import Verdict
from assurance.site.check_rows import comparison
from assurance.site.result_rows import listed_value, result_name, sheet_value

NB = "\u00a0"
LEAST = "least_reserve_factor"


def page(name):
    return (demo().site / f"{name}.html").read_text("utf-8")


@pytest.mark.parametrize("method", sorted(METHODS))
def test_every_result_of_a_method_has_a_name_of_its_own_in_words(method):
    names = [result_name(method, one.name) for one in METHODS[method].results]
    assert len(set(names)) == len(names)
    assert all(name[0].isupper() or not name[0].isalpha() for name in names)


def test_a_result_of_no_known_method_is_named_by_its_key():
    assert result_name("no_such_method", "peak_load") == "Peak load"


def test_a_reserve_factor_is_rounded_down_wherever_it_stands():
    # structures: 1.17998 must not be printed as 1.18
    value = ResultValue(1.17998776, "")
    assert listed_value(LEAST, value) == "1.17"
    assert sheet_value(LEAST, value) == "1.179"
    assert listed_value("margin_of_safety", ResultValue(0.17998776, "")) == "0.17"


def card_line(value, limit):
    verdict = Verdict.HOLDS if value >= limit else Verdict.FAILS
    check = CheckOutcome("argument", 0, f"sum.{LEAST}", ResultValue(value, ""), "at least", limit, "", "",
                         value, value - limit, verdict)  # fmt: skip
    return comparison(check)


def test_a_card_prints_a_reserve_factor_with_two_decimals_rounded_down():
    assert card_line(1.17998776, 1.0) == "1.17 ≥ 1 least reserve factor"
    assert card_line(0.998, 1.0) == "0.99 < 1 least reserve factor"


def test_a_card_prints_more_digits_where_two_would_read_the_wrong_way():
    assert card_line(1.50491, 1.501) == "1.504 ≥ 1.501 least reserve factor"
    assert card_line(1.0 + 1e-9, 1.0).startswith("1.00 ≥ 1")


def test_the_list_of_calculations_shows_what_is_used_with_its_limit():
    text = page("calculations")
    used = {check.result for checks in demo().assessment.checks.values() for check in checks}
    listed = set(re.findall(r'href="calculations/([\w-]+)\.html#result-(\w+)"', text))
    assert {one for one in used if tuple(one.split(".")) in listed} == {
        one for one in used if demo().assessment.entries[one.split(".")[0]].kind == "calculations"
    }
    assert f"at{NB}least{NB}" in text
    assert "Coefficient of variation" not in text


def test_a_result_that_could_not_be_worked_out_says_why_in_the_list():
    without = [one.why_not for one in demo().assessment.results.values() if one.value is None]
    assert without
    assert any(why.rstrip(".") in page("calculations") for why in without)


def test_a_long_sheet_carries_every_row_worst_first_and_asks_for_ten_in_sight():
    work = next(one for one in demo().assessment.worked.values() if len(one.cells) > 10)
    text = page(f"calculations/{work.id}")
    factors = re.findall(r'data-h="Reserve factor"><b>([\d.]+)</b>', text)
    assert len(factors) == len(work.cells)
    assert [float(one) for one in factors] == sorted(float(one) for one in factors)
    assert 'data-at-first="10"' in text
