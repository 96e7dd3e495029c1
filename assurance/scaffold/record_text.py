"""The YAML text of a new record: what it needs as placeholders, what else it may have as comments."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal, get_args, get_origin

from assurance.methods.registry import METHODS
from assurance.model.engineering_records import Calculation
from assurance.model.fields import Record, Refers, Who
from assurance.model.methods import InputSpec
from assurance.model.quantity import Quantity, Range
from assurance.reading.plans import Leaf, leaf_of, plan_of
from assurance.scaffold.yaml_text import flow, scalar

STEP = 2  # blanks by which a field stands further in than what holds it
NOTE_AT_MOST = 40  # column up to which comments are lined up
TO_WRITE = "To be written."
NAMED = {"": "ID", "any": "ID", "result": "ID.RESULT", "property": "ID.PROPERTY"}
BY_CLASS = {
    Quantity: "VALUE UNIT",
    Range: "FROM to TO UNIT",
    date: "YYYY-MM-DD",
    int: "NUMBER",
    str: TO_WRITE,
}
BY_FIELD = {"unit": "UNIT", "sha256": "SHA256", "column": "COLUMN"}


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a record: how far in it stands, what is written, and what that means."""

    indent: int
    text: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class RecordText:
    """A new record as lines, indented from its id, and the same in one line without comments."""

    lines: tuple[str, ...]
    one_line: str


def record_text(kind: type[Record], id_: str, values: Mapping[str, Any]) -> RecordText:
    """The text of a new record with these values; every other field stands below as a comment.

    A value in a comment is written so that it is refused if it is taken in as it stands.
    """
    written = tuple(_rows_of(values, kind, STEP))
    rest = [field for field in kind.model_fields if field not in values]
    left_out = tuple(_optional(kind, rest, STEP, {kind}, values))
    lines = [f"{id_}:", *_lined_up(written)]
    if left_out:
        lines.append(" " * STEP + "# What else it may say; take the `# ` away from what you need:")
        lines += _lined_up(left_out, behind="# ")
    return RecordText(tuple(lines), f"{id_}: {flow(values)}")


def _lined_up(rows: tuple[Row, ...], *, behind: str = "") -> Iterator[str]:
    """The lines with their comments one below the other, where they are not too long for that."""
    texts = [" " * STEP + behind + " " * (row.indent - STEP) + row.text for row in rows]
    column = max((len(text) for text in texts if len(text) <= NOTE_AT_MOST), default=0)
    for text, row in zip(texts, rows, strict=True):
        yield f"{text:{column}}  # {row.note}" if row.note else text


def _rows_of(values: Mapping[str, Any], kind: type[Record] | None, indent: int) -> Iterator[Row]:
    """Given values as rows, each with what its field means."""
    for field, value in values.items():
        known = kind is not None and field in kind.model_fields
        note = (kind.model_fields[field].description or "") if kind is not None and known else ""
        nested = plan_of(kind).nested_in(field) if kind is not None and known else None
        if isinstance(value, Mapping):
            yield Row(indent, f"{scalar(field)}:", note)
            inner = nested.record if nested and nested.holds == "one" else None
            yield from _rows_of(value, inner, indent + STEP)
            if inner is not None:
                yield from _unwritten(inner, value, indent + STEP)
        else:
            yield Row(indent, f"{scalar(field)}: {flow(value)}", _with_words(kind, field, note))


def _unwritten(kind: type[Record], values: Mapping[str, Any], indent: int) -> Iterator[Row]:
    """The plain fields of a written part that are left out, each as a comment of its own."""
    for row in _optional(kind, [field for field in kind.model_fields if field not in values], 0, {kind}, {}):
        yield Row(indent, f"# {' ' * row.indent}{row.text}", row.note)


def _with_words(kind: type[Record] | None, field: str, note: str) -> str:
    """What a written field means, with the words that may stand there."""
    if kind is None or field not in kind.model_fields:
        return note
    leaf = leaf_of(kind, field)
    words = _words(leaf) or (tuple(sorted(METHODS)) if kind is Calculation and field == "method" else ())
    return f"{note.removesuffix('.')}: {', '.join(words)}." if words else note


def _optional(
    kind: type[Record], fields: list[str], indent: int, told: set[type[Record]], values: Mapping[str, Any]
) -> Iterator[Row]:
    """Fields that may be left out, each with an example of its form; a class of record is told once."""
    for field in fields:
        note = kind.model_fields[field].description or ""
        nested = plan_of(kind).nested_in(field)
        if kind is Calculation and field == "inputs":
            yield from _inputs(str(values.get("method")), note, indent)
        elif nested is None:
            yield Row(indent, f"{field}: {_example(leaf_of(kind, field))}", note)
        elif nested.record in told or (nested.holds == "one" and nested.record.short_form):
            yield Row(indent, f"{field}: {_short(nested.record, nested.holds)}", note)
        else:
            told.add(nested.record)
            yield Row(indent, f"{field}:", note)
            yield from _held(nested.record, nested.holds, indent + STEP, told)


def _held(kind: type[Record], holds: str, indent: int, told: set[type[Record]]) -> Iterator[Row]:
    """The fields of records that a field holds: one, a list of them, or several by name."""
    if holds == "names":
        yield Row(indent, "NAME:")
        indent += STEP
    fields = list(kind.model_fields)
    rows = _optional(kind, fields, indent + (STEP if holds == "list" else 0), told, {})
    for number, row in enumerate(rows):
        first = holds == "list" and number == 0
        yield Row(row.indent - STEP, f"- {row.text}", row.note) if first else row


def _inputs(method: str, note: str, indent: int) -> Iterator[Row]:
    """The inputs that a method takes."""
    yield Row(indent, "inputs:", note)
    for spec in METHODS[method].inputs:
        what = f"{spec.what[:1].upper()}{spec.what[1:]}."
        yield Row(indent + STEP, f"{spec.name}: {_input(spec)}", what)


def _input(spec: InputSpec) -> str:
    if spec.kind == "number":
        return "VALUE UNIT"
    if spec.kind == "word":
        return TO_WRITE
    unit = ", unit: UNIT" if spec.kind == "column" else ""
    return f"{{file: FILE, column: COLUMN{unit}}}"


def _short(kind: type[Record], holds: str) -> str:
    """A record in its short form, or with its first field alone, in one line."""
    first = kind.short_form[0] if kind.short_form else next(iter(kind.model_fields))
    example = _example(leaf_of(kind, first))
    whole = example if kind.short_form else f"{{{first}: {example}}}"
    return {"one": whole, "list": f"[{whole}]", "names": f"{{NAME: {whole}}}"}[holds]


def _example(leaf: Leaf) -> str:
    """What a value of that form looks like; never one that would pass for a true one, text aside."""
    one = _one_example(leaf)
    if leaf.holds == "one":
        return one
    name = leaf.names[0] if leaf.names else "NAME"
    return f"[{one}]" if leaf.holds == "list" else f"{{{name}: {one}}}"


def _one_example(leaf: Leaf) -> str:
    if isinstance(leaf.mark, Refers):
        return NAMED[leaf.mark.part]
    if leaf.mark is not None:
        return "NAME" if isinstance(leaf.mark, Who) else "FILE"
    return " | ".join(_words(leaf)) or BY_FIELD.get(leaf.field) or BY_CLASS.get(leaf.kind, TO_WRITE)


def _words(leaf: Leaf) -> tuple[str, ...]:
    """The closed list of words of a field, where it has one."""
    return tuple(map(str, get_args(leaf.kind))) if get_origin(leaf.kind) is Literal else ()
