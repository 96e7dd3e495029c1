"""Rows as CSV text: RFC 4180, numbers as numbers, and no text that a spreadsheet would work out."""

import math
from collections.abc import Iterable
from datetime import date

from assurance.model import numbers

Value = str | int | float | date | None
LINE_END = "\r\n"  # RFC 4180, section 2, rule 1
_QUOTED = frozenset('",\r\n')  # RFC 4180, section 2, rule 6
_WORKED_OUT = ("=", "+", "-", "@", "\t", "\r")  # a cell that starts so is a formula to a spreadsheet


def csv_line(values: Iterable[Value]) -> str:
    """One line of a CSV file, without its end."""
    return ",".join(_field(one) for one in values)


def csv_text(lines: Iterable[str]) -> str:
    """Lines as the text of a CSV file."""
    return "".join(line + LINE_END for line in lines)


def _field(value: Value) -> str:
    """A number as it is published, a day as YYYY-MM-DD, nothing where there is none or it is not defined.

    A text that a spreadsheet would take for a formula gets an apostrophe in front.
    """
    if value is None:
        return ""
    if isinstance(value, float):
        return repr(numbers.published(value)) if math.isfinite(value) else ""
    if isinstance(value, (int, date)):
        return str(value)
    text = f"'{value}" if value.startswith(_WORKED_OUT) else value
    return f'"{text.replace(chr(34), chr(34) * 2)}"' if _QUOTED.intersection(text) else text
