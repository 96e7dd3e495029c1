"""The only reader of data files: columns of numbers or words, and result tables in pieces."""

import csv
import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO, StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assurance.calculations.bound import LARGEST, SMALLEST
from assurance.calculations.table_faults import (
    IS_NUMBER,
    LONGEST_CELL,
    TableError,
    blank,
    not_csv,
    not_utf_8,
    number,
    places,
    ragged,
    word,
)

if TYPE_CHECKING:
    import polars

PIECE_BYTES = 16 * 1024 * 1024  # of a CSV file held in memory at once
PIECE_ROWS = 500_000  # of a Parquet file held in memory at once


@dataclass(frozen=True, slots=True)
class Piece:
    """Some rows of a result table: words as text, numbers as floats, and the line of each row."""

    words: Mapping[str, "polars.Series"]
    numbers: Mapping[str, Any]
    rows: Sequence[int]


def read_column(path: Path, column: str, *, where: Mapping[str, str]) -> tuple[float, ...]:
    """One column of a CSV or Parquet file as numbers, of the rows that hold the stated words.

    Raises `TableError` with row and value.
    """
    cells = _cells_of(path, column, where)
    return tuple(number(cell, column=column, row=row) for row, cell in cells)


def read_words(path: Path, column: str, *, where: Mapping[str, str]) -> tuple[str, ...]:
    """One column of a CSV or Parquet file as words, of the rows that hold the stated words.

    Raises `TableError` with the row of an empty cell.
    """
    return tuple(word(cell, column=column, row=row) for row, cell in _cells_of(path, column, where))


def _cells_of(path: Path, column: str, where: Mapping[str, str]) -> Iterator[tuple[int, str]]:
    """Each cell of a column with its row, of the rows asked for, of which there must be one."""
    none_yet = True
    for row, cells in _cells(path, (column, *where)):
        if all(cells[name].strip() == word for name, word in where.items()):
            none_yet = False
            yield row, cells[column]
    if none_yet:
        narrowed = " and ".join(f"`{name}` is `{word}`" for name, word in where.items())
        text = f"there is no row where {narrowed}" if narrowed else "there are no rows below the heading"
        raise TableError(text, "name rows that the file holds" if narrowed else "give a file with data")


def rows_left_out(path: Path, where: Mapping[str, str]) -> tuple[int, int]:
    """How many rows of a CSV or Parquet file do not hold the stated words, and how many there are."""
    count = kept = 0
    for _, cells in _cells(path, tuple(where)):
        count += 1
        kept += all(cells[name].strip() == word for name, word in where.items())
    return count - kept, count


def copied_rows(path: Path, read: Sequence[str]) -> tuple[tuple[int, int], ...]:
    """Rows that are another row over again, each with the first of its kind.

    Only where the file tells its rows apart by a column that is not read as a value or a word: two
    equal strengths are no copy, two equal strengths of one coupon are. Raises `TableError`.
    """
    if path.suffix.lower() == ".parquet":
        return ()
    first: dict[tuple[str, ...], int] = {}
    copies = []
    with _opened(path) as file:
        rows = csv.reader(file, strict=True)
        heading = [name.strip() for name in next(rows, [])]
        if set(heading) <= set(read):
            return ()
        for cells in rows:
            if cells and first.setdefault(tuple(cells), rows.line_num) != rows.line_num:
                copies.append((rows.line_num, first[tuple(cells)]))
    return tuple(copies)


def headings(path: Path) -> tuple[str, ...]:
    """The headings of a table, whatever stands below them. Raises `TableError`."""
    if path.suffix.lower() == ".parquet":
        return tuple(_parquet_schema(path))
    with _opened(path) as file:
        csv.field_size_limit(LONGEST_CELL)
        try:
            return tuple(name.strip() for name in next(csv.reader(file, strict=True), []))
        except UnicodeDecodeError:
            raise not_utf_8() from None
        except csv.Error as fault:
            raise not_csv(fault, 1) from None


def number_columns(path: Path) -> tuple[str, ...]:
    """The headings of a table whose first row holds a number. Raises `TableError`."""
    if path.suffix.lower() == ".parquet":
        return _parquet_number_columns(path)
    with _opened(path) as file:
        rows = csv.reader(file, strict=True)
        heading = [name.strip() for name in next(rows, [])]
        first = next((cells for cells in rows if cells), [])
    pairs = zip(heading, first, strict=False)
    return tuple(name for name, cell in pairs if IS_NUMBER.fullmatch(cell.strip()))


def _cells(path: Path, wanted: Sequence[str]) -> Iterator[tuple[int, dict[str, str]]]:
    if path.suffix.lower() == ".parquet":
        for piece in _parquet_pieces(path, words=wanted, numbers=()):
            cells = (piece.words[name].to_list() for name in wanted)
            for row, *found in zip(piece.rows, *cells, strict=True):
                yield row, dict(zip(wanted, found, strict=True))
        return
    with _opened(path) as file:
        yield from _csv_cells(csv.reader(file, strict=True), wanted)


def _opened(path: Path) -> Any:
    try:
        return path.open("r", encoding="utf-8-sig", newline="")
    except OSError as fault:
        raise TableError(f"the file cannot be read: {fault.strerror}", "put the file in its place") from None


def _csv_cells(rows: Any, wanted: Sequence[str]) -> Iterator[tuple[int, dict[str, str]]]:
    """The wanted cells of each row; blank lines are passed over, ragged rows are not."""
    csv.field_size_limit(LONGEST_CELL)
    try:
        heading = [name.strip() for name in next(rows, [])]
        columns = places(heading, wanted)
        for cells in rows:
            if _whole(cells, heading, rows.line_num):
                yield rows.line_num, {name: cells[at] for name, at in columns.items()}
    except UnicodeDecodeError:
        raise not_utf_8() from None
    except csv.Error as fault:
        raise not_csv(fault, rows.line_num) from None


def _whole(cells: Sequence[str], heading: Sequence[str], row: int) -> bool:
    """Whether a row is to be read: a blank line is not. Raises where it is of commas only, or ragged."""
    if not any(cell.strip() for cell in cells):
        if len(cells) > 1:
            raise blank(row)
        return False
    if len(cells) != len(heading):
        raise ragged(cells, heading, row)
    return True


def pieces(
    path: Path, *, words: Sequence[str], numbers: Sequence[str], piece_bytes: int = PIECE_BYTES
) -> Iterator[Piece]:
    """A result table in pieces that fit in memory. Raises `TableError` with row and value."""
    if path.suffix.lower() == ".parquet":
        yield from _parquet_pieces(path, words=words, numbers=numbers)
    else:
        yield from _csv_pieces(path, words=words, numbers=numbers, piece_bytes=piece_bytes)


def _csv_pieces(
    path: Path, *, words: Sequence[str], numbers: Sequence[str], piece_bytes: int
) -> Iterator[Piece]:
    heading_line, blocks = _blocks(path, piece_bytes)
    try:
        heading = [name.strip() for name in next(csv.reader([heading_line.rstrip("\r\n")]), [])]
    except csv.Error as fault:
        raise not_csv(fault, 1) from None
    places(heading, [*words, *numbers])
    line = 2
    for block in blocks:
        yield _csv_piece(block, heading, words, numbers, line)
        line += block.count(b"\n")


def _blocks(path: Path, piece_bytes: int) -> tuple[str, Iterator[bytes]]:
    """The heading, and the rest in blocks that end with a line."""
    try:
        with path.open("rb") as file:
            first = file.readline(LONGEST_CELL)
        return first.decode("utf-8-sig"), _whole_lines(path, len(first), piece_bytes)
    except OSError as fault:
        raise TableError(f"the file cannot be read: {fault.strerror}", "put the file in its place") from None
    except UnicodeDecodeError:
        raise not_utf_8() from None


def _whole_lines(path: Path, start: int, piece_bytes: int) -> Iterator[bytes]:
    with path.open("rb") as file:
        file.seek(start)
        while block := file.read(piece_bytes):
            block += file.readline()
            yield block if block.endswith(b"\n") else block + b"\n"


def _csv_piece(
    block: bytes, heading: list[str], words: Sequence[str], numbers: Sequence[str], line: int
) -> Piece:
    """One block by the fast reader; where that stumbles the plain reader finds the row at fault."""
    frame = _fast_frame(block, heading)
    if frame is None:
        return _piece_by_hand(block, heading, words, numbers, line)
    values = {name: _floats(frame[name], name, line) for name in numbers}
    text = {name: frame[name].fill_null("") for name in words}
    return Piece(text, values, range(line, line + frame.height))


def _fast_frame(block: bytes, heading: list[str]) -> "polars.DataFrame | None":
    """The block as text columns, where every line is plainly one row with every cell."""
    import polars

    try:
        frame = polars.read_csv(
            BytesIO(block), has_header=False, new_columns=heading, infer_schema=False, raise_if_empty=False
        )
    except (polars.exceptions.PolarsError, ValueError):
        return None
    lines, commas = block.count(b"\n"), block.count(b",")
    whole = frame.height == lines and frame.width == len(heading) and b'"' not in block
    return frame if whole and commas == lines * (len(heading) - 1) else None


def _piece_by_hand(
    block: bytes, heading: list[str], words: Sequence[str], numbers: Sequence[str], line: int
) -> Piece:
    """One block cell by cell, with the row of whatever is wrong."""
    import numpy
    import polars

    wanted = list(dict.fromkeys([*words, *numbers]))
    found: dict[str, list[Any]] = {name: [] for name in wanted}
    rows = []
    for row, cells in _rows_by_hand(block, heading, line):
        rows.append(row)
        for name in wanted:
            cell = cells[heading.index(name)]
            found[name].append(number(cell, column=name, row=row) if name in numbers else cell)
    values = {name: numpy.array(found[name], dtype=float) for name in numbers}
    text = {name: polars.Series(name, found[name], dtype=polars.String) for name in words}
    return Piece(text, values, rows)


def _rows_by_hand(block: bytes, heading: list[str], line: int) -> Iterator[tuple[int, list[str]]]:
    try:
        text = block.decode("utf-8")
    except UnicodeDecodeError:
        raise not_utf_8() from None
    reader = csv.reader(StringIO(text, newline=""), strict=True)
    try:
        for cells in reader:
            row = line + reader.line_num - 1
            if _whole(cells, heading, row):
                yield row, cells
    except csv.Error as fault:
        raise not_csv(fault, line + reader.line_num - 1) from None


def _floats(series: "polars.Series", column: str, line: int) -> Any:
    """A column as floats; the first cell that is no finite number is a fault with its row."""
    import numpy
    import polars

    values = series
    if series.dtype == polars.String:
        values = series.str.strip_chars()
    plain = values.cast(polars.Float64, strict=False).fill_null(float("nan")).to_numpy()
    size = numpy.abs(plain)
    odd = numpy.flatnonzero(~((size == 0) | ((size >= SMALLEST) & (size <= LARGEST))))
    if len(odd):
        at = int(odd[0])
        cell = series[at]
        number("" if cell is None else str(cell), column=column, row=line + at)
        text = f"row {line + at}, column `{column}`: `{cell}` is not a number"
        raise TableError(text, "give every row a number")
    return plain


def _parquet_pieces(path: Path, *, words: Sequence[str], numbers: Sequence[str]) -> Iterator[Piece]:
    """Rows are counted as in the same table written as CSV: the first is row 2."""
    wanted = list(dict.fromkeys([*words, *numbers]))
    start = 0
    while True:
        with _quiet():
            frame = _parquet_rows(path, wanted, start)
        if not frame.height:
            return
        yield _parquet_piece(frame, words, numbers, start + 2)
        start += frame.height


def _parquet_rows(path: Path, wanted: Sequence[str], start: int) -> "polars.DataFrame":
    import polars

    unreadable = (polars.exceptions.PolarsError, polars.exceptions.PanicException, OSError)
    try:
        lazy = polars.scan_parquet(path, glob=False)
        places(lazy.collect_schema().names(), wanted)
        return lazy.select(wanted).slice(start, PIECE_ROWS).collect()
    except unreadable:
        raise TableError("the file cannot be read as Parquet", "write the table anew") from None


def _parquet_number_columns(path: Path) -> tuple[str, ...]:
    return tuple(name for name, kind in _parquet_schema(path).items() if kind.is_numeric())


def _parquet_schema(path: Path) -> "polars.Schema":
    import polars

    unreadable = (polars.exceptions.PolarsError, polars.exceptions.PanicException, OSError)
    try:
        with _quiet():
            return polars.scan_parquet(path, glob=False).collect_schema()
    except unreadable:
        raise TableError("the file cannot be read as Parquet", "write the table anew") from None


@contextmanager
def _quiet() -> Iterator[None]:
    """Keeps what the Parquet reader prints of its own about a broken file off the terminal."""
    kept = os.dup(2)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 2)
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)
        os.close(nowhere)


def _parquet_piece(
    frame: "polars.DataFrame", words: Sequence[str], numbers: Sequence[str], line: int
) -> Piece:
    import polars

    text = {name: frame[name].cast(polars.String, strict=False).fill_null("") for name in words}
    values = {name: _floats(_numeric(frame[name]), name, line) for name in numbers}
    return Piece(text, values, range(line, line + frame.height))


def _numeric(series: "polars.Series") -> "polars.Series":
    """Numbers stay numbers; anything else is read as text, as it would be from a CSV file."""
    import polars

    return series if series.dtype.is_numeric() else series.cast(polars.String, strict=False)
