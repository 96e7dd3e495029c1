"""A table of a page: its columns are said once, and give the rows, the sorting and the CSV file."""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from markupsafe import Markup, escape

from assurance.model.verdicts import Verdict
from assurance.site import marks
from assurance.site.csv_text import Value, csv_line, csv_text
from assurance.site.rows import MOST_BYTES, MOST_ROWS
from assurance.site.script_data import as_script
from assurance.site.table_groups import Grouping, Groups, anchor

FOLDER = "tables"  # where the data of tables stands in the site
T = TypeVar("T")
_MARKS = tuple((str(marks.mark(one)), f"<i{int(one)}>") for one in Verdict)


@dataclass(frozen=True, slots=True)
class Column(Generic[T]):
    """A column: its heading, what stands in a cell, and by what its rows sort."""

    heading: str
    show: Callable[[T], str]  # plain text is escaped
    by: Callable[[T], Value] | None = None
    css: str = ""
    word: str = ""  # what stands before the cell where rows fold into blocks
    falling: bool = False  # whether the first press puts the largest on top
    names_row: bool = False
    unseen: bool = False  # whether the heading is for those who cannot see the marks beneath it


@dataclass(frozen=True, slots=True)
class Field(Generic[T]):
    """A column of the CSV file; its heading states the unit."""

    heading: str
    value: Callable[[T], Value]


@dataclass(frozen=True, slots=True)
class Choice(Generic[T]):
    """A part of the rows that a reader can ask for."""

    word: str
    takes: Callable[[T], bool]


@dataclass(frozen=True, slots=True)
class Heading:
    """The heading of a column. `sorts` is the place of its key in the data, empty where it has none."""

    text: str
    css: str
    sorts: str
    first: str
    unseen: bool


@dataclass(frozen=True, slots=True)
class RowGroup:
    """Rows in one body, with a line above them where they are grouped."""

    anchor: str
    line: Markup
    folded: bool
    rows: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """What a page shows of a table: as many rows as a page carries, and where all of them are.

    `beside` are the files that are published with it: address from the top of the site, and text.
    """

    name: str
    css: str
    caption: str
    headings: tuple[Heading, ...]
    across: str  # how many columns there are
    groups: tuple[RowGroup, ...]
    groupings: tuple[str, ...]
    choices: tuple[str, ...]
    more: str
    nothing: str
    at_first: str  # how many rows a script leaves in sight to begin with
    csv: str
    script: str
    beside: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class TableOf(Generic[T]):
    """How the rows of one kind are shown, sorted, grouped and written as CSV."""

    caption: str
    columns: tuple[Column[T], ...]
    fields: tuple[Field[T], ...]
    groupings: tuple[Grouping[T], ...] = ()
    grouped: bool = False  # whether rows stand in the first grouping to begin with
    choices: tuple[Choice[T], ...] = ()
    nothing: str = "No row matches."
    css: str = ""
    at_first: int = MOST_ROWS


def table(name: str, of: TableOf[T], records: Sequence[T], *, root: str, taken: bool = True) -> Table | None:
    """A table of records in the order given, or nothing where there is none.

    `name` is its address beneath the folder of tables; `root` leads from the page to the top. A
    table that is not `taken` away has no files, and so nothing to sort, filter or copy.
    """
    if not records:
        return None
    groups = [Groups(one, records) for one in of.groupings]
    choices = [one for one in of.choices if 0 < sum(map(one.takes, records)) < len(records)]
    grouped = groups[0] if of.grouped and groups else None
    order = grouped.order() if grouped else list(range(len(records)))
    row = _row_writer(of.columns)
    rows = [row(records[i]) for i in order]
    shown = _how_many(rows)
    csv, script = (f"{FOLDER}/{name}.csv", f"{FOLDER}/{name}.js") if taken else ("", "")
    data = {
        "name": name,
        "marks": [mark for mark, _ in _MARKS],
        "rest": [_short(one) for one in rows[shown:]],
        "groups": [one.data(order) for one in groups],
        "choices": [[k for k, i in enumerate(order) if one.takes(records[i])] for one in choices],
    }
    return Table(
        name=name,
        css=of.css,
        caption=of.caption,
        headings=_headings(of.columns),
        across=str(len(of.columns)),
        groups=_row_groups(grouped, rows[:shown]),
        groupings=tuple(one.word for one in of.groupings),
        choices=tuple(one.word for one in choices),
        more=_more(len(rows) - shown, csv),
        nothing=of.nothing,
        at_first=str(of.at_first),
        csv=root + csv if taken else "",
        script=root + script if taken else "",
        beside=_files(csv, script, of, [records[i] for i in order], data) if taken else (),
    )


def _files(
    csv: str, script: str, of: TableOf[T], records: Sequence[T], data: Mapping[str, Any]
) -> tuple[tuple[str, str], ...]:
    """The rows as a CSV file, and as a script that also says by what they sort; rows in page order."""
    head = csv_line(one.heading for one in of.fields)
    lines = [csv_line(one.value(record) for one in of.fields) for record in records]
    keys = _keys(of.columns, records)
    every = {**data, "head": head, "lines": lines, "keys": keys}
    return ((csv, csv_text([head, *lines])), (script, as_script("holdwaterTable", every)))


def _short(row: str) -> str:
    """A row with a tag in the place of each mark, which the script draws again: marks are long."""
    for mark, tag in _MARKS:
        row = row.replace(mark, tag)
    return row


def _row_groups(groups: Groups[T] | None, rows: Sequence[str]) -> tuple[RowGroup, ...]:
    """The rows that the page carries, in their groups."""
    if groups is None:
        return (RowGroup("", Markup(""), False, tuple(Markup(one) for one in rows)),)
    made, position = [], 0
    for key, members in groups.members.items():
        taken = rows[position : position + len(members)]
        if not taken:
            break
        name = f"{anchor(groups.grouping.word)}={groups.anchors[key]}"
        body = tuple(Markup(one) for one in taken)
        made.append(RowGroup(name, Markup(groups.line(key)), groups.grouping.folded(key), body))
        position += len(members)
    return tuple(made)


def _how_many(rows: Sequence[str]) -> int:
    """How many rows a page carries: so many, and fewer where they are long."""
    taken = 0
    for count, row in enumerate(rows[:MOST_ROWS]):
        taken += len(row.encode())
        if taken > MOST_BYTES:
            return count
    return min(len(rows), MOST_ROWS)


def _more(count: int, csv: str) -> str:
    if not count:
        return ""
    return f"{count:,} more {'row follows' if count == 1 else 'rows follow'} in {csv}"


def _headings(columns: Iterable[Column[T]]) -> tuple[Heading, ...]:
    made, keys = [], 0
    for one in columns:
        sorts = ""
        if one.by is not None:
            sorts, keys = str(keys), keys + 1
        first = "descending" if one.falling else "ascending"
        made.append(Heading(one.heading, one.css.replace("said", "").strip(), sorts, first, one.unseen))
    return tuple(made)


def _keys(columns: Iterable[Column[T]], records: Sequence[T]) -> list[list[Any]]:
    """By what each row sorts, a list for every column that sorts."""
    return [[_key(one.by(record)) for record in records] for one in columns if one.by is not None]


def _key(value: Value) -> str | int | float | None:
    """A number, a text or nothing. A day sorts by its text, the year first."""
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value if value is None or isinstance(value, (str, int, float)) else str(value)


def _row_writer(columns: Sequence[Column[T]]) -> Callable[[T], str]:
    """Writes one row; what is the same in every row is put together once."""
    cells = [(_opening(one), _opening(one, " none"), one.show, "</th>" if one.names_row else "</td>")
             for one in columns]  # fmt: skip

    def write(record: T) -> str:
        parts = ["<tr>"]
        for opening, empty, show, closing in cells:
            shown = escape(show(record))
            parts += (opening if shown else empty, shown, closing)
        return "".join((*parts, "</tr>"))

    return write


def _opening(column: Column[T], more: str = "") -> str:
    tag = 'th scope="row"' if column.names_row else "td"
    css = (column.css + more).strip()
    word = f' data-h="{escape(column.word)}"' if column.word else ""
    return f"<{tag}{f' class={chr(34)}{css}{chr(34)}' if css else ''}{word}>"
