"""CSV text reads back as it was written, and holds nothing that a spreadsheet would work out."""

import csv
import io
import math
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assurance.model import numbers
from assurance.site.csv_text import csv_line, csv_text

texts = st.text(st.characters(blacklist_categories=["Cs"], blacklist_characters="\x00"))


def read(text):
    return list(csv.reader(io.StringIO(text, newline="")))


@given(st.lists(st.lists(texts, min_size=1, max_size=4), min_size=1, max_size=4))
def test_any_text_comes_back_but_for_the_apostrophe(rows):
    found = read(csv_text(csv_line(["x", *row]) for row in rows))
    assert [[one.removeprefix("'") for one in row[1:]] for row in found] == [
        [one.removeprefix("'") for one in row] for row in rows
    ]


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_number_comes_back_as_it_is_published(value):
    assert float(read(csv_line([value]))[0][0]) == numbers.published(value)


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])
def test_a_text_that_a_spreadsheet_would_work_out_gets_an_apostrophe(text):
    # the six starts that OWASP lists under "CSV Injection" (from memory)
    assert read(csv_line([text]))[0][0] == f"'{text}"


def test_a_negative_number_stays_a_number_and_a_day_reads_year_first():
    assert csv_line([-1.5, -2, date(2026, 3, 12), None]) == "-1.5,-2,2026-03-12,"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_defined_is_empty_never_nought(value):
    assert csv_line([value, 0.0]) == ",0.0"


def test_lines_end_and_quotes_double_as_rfc_4180_says():
    # RFC 4180, section 2: rule 1 (CRLF), rule 6 (quoted where a comma stands), rule 7 (quotes doubled)
    assert csv_text([csv_line(["a", 'say "b", c'])]) == 'a,"say ""b"", c"\r\n'
