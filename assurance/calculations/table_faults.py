"""What can be wrong with a data file: its heading, its rows, its cells. Each fault says row and value."""

import csv
import re
from collections.abc import Mapping, Sequence

from assurance.calculations.bound import LARGEST, SMALLEST, listed, nearest, within_reach
from assurance.model.quantity import MINUS_OR_DASH, NUMBER
from assurance.model.units import units

LONGEST_CELL = 1_000_000  # characters; a longer cell is no table
LONGEST_SHOWN = 40  # characters of a cell or row that a message repeats
HEADINGS_SHOWN = 12
BEYOND_REACH = f"give zero, or a number from {SMALLEST:g} to {LARGEST:g} in size"
IS_NUMBER = re.compile(NUMBER)
SEPARATORS = {";": "semicolons", "\t": "tabs", "|": "strokes"}
ZIP = "PK\x03\x04"  # how every archive starts, spreadsheets included
CSV_WORDS = (
    ("unexpected end of data", "a cell in quotes is not closed", "close the quotes"),
    ("expected after", "something follows the closing quotes of a cell",
     "put the whole cell in quotes, and write quotes inside it twice"),
    ("field larger", f"a cell has more than {LONGEST_CELL:,} characters", "shorten it"),
    ("NUL", "a cell holds a zero byte", "save it as CSV in UTF-8"),
)  # fmt: skip


class TableError(ValueError):
    """What is wrong with a data file, in words, and what would put it right."""

    def __init__(self, text: str, remedy: str) -> None:
        super().__init__(text)
        self.text = text
        self.remedy = remedy


def not_utf_8() -> TableError:
    """The fault of bytes that are no text in UTF-8."""
    return TableError("the file is not UTF-8 text", "save it as CSV in UTF-8")


def not_csv(fault: csv.Error, row: int) -> TableError:
    """What the reader of CSV stumbled over, in plain words."""
    for known, text, remedy in CSV_WORDS:
        if known in str(fault):
            return TableError(f"row {row}: {text}", remedy)
    return TableError(f"row {row}: {fault}", "save it as CSV with commas")


def number(text: str, *, column: str, row: int) -> float:
    """A cell as a number that can be worked with."""
    plain = text.strip()
    is_number = IS_NUMBER.fullmatch(plain) is not None
    if is_number and within_reach(float(plain)):
        return float(plain)
    at = f"row {row}, column `{column}`"
    if is_number:
        raise TableError(f"{at}: {shown(plain)} is too large or too small to be worked with", BEYOND_REACH)
    if not plain:
        raise TableError(f"{at}: the cell is empty", "give every row a number, or leave the row out")
    raise TableError(f"{at}: {shown(plain)} is not a number", _number_remedy(plain, row))


def _number_remedy(plain: str, row: int) -> str:
    if re.search(r"[0-9],[0-9]", plain):
        return "write a point, and no comma"
    if re.match(MINUS_OR_DASH, plain):
        return "write `-` for minus"
    if row == 2 and plain.strip("[]()") in units():
        return "take the row of units out: the record says the unit"
    found = IS_NUMBER.match(plain)
    if found and plain[found.end() :].strip() in units():
        return "write the number alone: the record says the unit"
    return "give every row a number"


def word(text: str, *, column: str, row: int) -> str:
    """A cell as a word."""
    plain = text.strip()
    at = f"row {row}, column `{column}`"
    if not plain:
        raise TableError(f"{at}: the cell is empty", "give every row a word")
    if re.search(r"[\x00-\x1f\x7f]", plain):
        raise TableError(f"{at}: {shown(plain)} holds a control character", "take the character out")
    return plain


def places(heading: Sequence[str], wanted: Sequence[str]) -> Mapping[str, int]:
    """Where each wanted column stands; the heading must name it once."""
    if not any(heading):
        raise TableError("the file has no heading", "put the names of the columns on its first line")
    if not set(wanted) & set(heading):
        _no_heading(heading)
    for name in wanted:
        if name not in heading:
            there = [shown(one)[1:-1] for one in heading]
            text = f"there is no column `{name}`{nearest(name, there)}"
            raise TableError(text, f"name one of {_some(there)}")
        if heading.count(name) > 1:
            raise TableError(f"column `{name}` is named twice", "give each column its own heading")
    return {name: heading.index(name) for name in wanted}


def _no_heading(heading: Sequence[str]) -> None:
    """The fault of a first row that names none of the columns and is plainly no heading."""
    first = shown(",".join(heading))
    if heading[0].startswith(ZIP):
        raise TableError("the file is a spreadsheet or an archive, not CSV", "save its table as CSV in UTF-8")
    for sign, name in SEPARATORS.items():
        if len(heading) == 1 and sign in heading[0]:
            remedy = "save it as CSV with commas, and write numbers with a point"
            raise TableError(f"its first row {first} is parted by {name}, not by commas", remedy)
    if any(IS_NUMBER.fullmatch(name) for name in heading):
        text = f"its first row {first} holds a number, so it is no heading"
        raise TableError(text, "put the names of the columns on its first line")
    if len(heading) == 1:
        text = f"its first row {first} is one cell, so it is no heading"
        raise TableError(text, "put the names of the columns on its first line, and no title above them")


def ragged(cells: Sequence[str], heading: Sequence[str], row: int) -> TableError:
    """The fault of a row that has more or fewer cells than the heading."""
    counted = f"row {row} has {len(cells)} cells, the heading has {len(heading)}"
    text = f"{counted}: {shown(','.join(cells))}"
    if len(cells) < len(heading):
        return TableError(text, "give every row as many cells as the heading")
    remedy = "write a point in numbers, put text that holds a comma in quotes, or take the extra cell out"
    return TableError(text, remedy)


def blank(row: int) -> TableError:
    """The fault of a row that holds commas and nothing else."""
    return TableError(f"row {row} is empty: it holds commas and no cell", "take the row out")


def shown(text: str) -> str:
    """A cell as a message repeats it: in backticks, shortened, with what cannot be printed as its escape."""
    short = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 1] + "…"
    printed = "".join(one if one.isprintable() else repr(one)[1:-1] for one in short)
    return f"`{printed.replace('`', chr(39))}`"


def _some(headings: Sequence[str]) -> str:
    some = listed(headings[:HEADINGS_SHOWN])
    return some if len(headings) <= HEADINGS_SHOWN else f"{some}, or of {len(headings)} in all"
