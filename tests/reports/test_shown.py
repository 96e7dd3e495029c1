import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assurance.reports.shown import HIDDEN, excerpt, shown_text, shown_width

# East Asian Width of each: Unicode annex 11. Combining marks take no column.
WIDTHS = [("abc", 3), ("日本", 4), ("é", 1), ("e\u0301", 1), ("–", 1), ("", 0)]


@pytest.mark.parametrize(("text", "width"), WIDTHS)
def test_a_text_is_as_wide_as_a_terminal_draws_it(text, width):
    assert shown_width(text) == width


def test_what_would_act_on_a_terminal_is_shown_as_a_sign():
    assert shown_text("\x1b[31m\x07\x7f\x9b\u202e\u200b") == "␛[31m␇␡<U+009B><U+202E><U+200B>"


@given(st.text())
def test_nothing_hidden_is_left_of_any_text(text):
    assert not {unicodedata.category(one) for one in shown_text(text)} & HIDDEN


def test_the_carets_stand_under_the_value_behind_a_tab_and_wide_letters():
    shown = excerpt("\t日本: abc", 6, 9, width=60)
    assert shown.line == "    日本: abc"
    assert shown.carets == " " * 10 + "^^^"  # a tab of 4, two letters of 2, a colon and a blank


def test_a_value_that_is_missing_at_the_end_of_a_line_has_one_caret_after_it():
    assert excerpt("owner:", 7, 8, width=60).carets == "      ^"


def test_a_long_line_is_cut_around_the_value():
    shown = excerpt("a" * 300 + " guilty " + "b" * 300, 302, 308, width=60)
    assert shown.line.startswith("…a")
    assert shown.line.endswith("b…")
    assert shown_width(shown.line) <= 60
    start = shown.carets.index("^")
    assert shown.line[start : start + len(shown.carets.strip())] == "guilty"


def test_of_a_value_longer_than_the_line_the_start_is_shown():
    shown = excerpt("x: " + "v" * 500, 4, 504, width=50)
    assert shown_width(shown.line) <= 50
    assert shown.carets.strip() == "^" * shown.line.count("v")


@given(st.text(), st.integers(0, 90), st.integers(0, 90), st.integers(36, 120))
def test_any_line_fits_and_its_carets_stand_under_it(line, start, length, width):
    shown = excerpt(line, start, start + length, width=width)
    assert shown_width(shown.line) <= width
    assert shown.carets.strip(" ").strip("^") == ""
    assert 1 <= len(shown.carets) <= width + 1


def test_a_line_of_a_megabyte_is_cut_in_a_moment():
    shown = excerpt("ä" * 2_000_000, 1_000_000, 1_000_004, width=80)
    assert shown.line.startswith("…ä")
    assert shown.carets.strip() == "^^^^"
