"""The page of record kinds: each field with what may stand in it, made from the model."""

import re
import typing
from collections.abc import Iterator
from dataclasses import dataclass

from pydantic.fields import FieldInfo

from assurance.model.entry import SINGULAR
from assurance.model.fields import Record
from assurance.model.kinds import KINDS
from assurance.reference.field_types import part_name, parts_of, type_in_words
from assurance.reference.markdown import anchor, code, heading_anchor, link, listed, page, table
from assurance.rules.docs import document
from assurance.rules.registry import RULES

HEADINGS = ("Field", "Takes", "Needed", "What it says")
_MARKED = "# here"
_KIND = re.compile(r"^([a-z_]+):")
INTRODUCTION = """\
# Records

Every YAML file under `claims/` and `hazards/` holds one or more of the keys below. Beneath a key stand \
ids, beneath each id one record. File and folder names are free. An id starts with a letter, holds \
letters, digits, `_` and `-`, is at most 64 characters long, and stands once in the case, also where \
only capitals differ.

Only a few fields are *needed*: without them a record cannot be read. Everything else may be left out, \
and the verdict or a rule says what that costs. A key that is not listed here is reported with the \
nearest real one."""
VALUES = """\
## Values

| What | How it is written | To note |
|---|---|---|
| quantity | `12.5 mm`, `1e-3`, `12.50 +/- 0.02 mm` | a number and a unit of the [list](units.html). \
`+/-` is the half-width at about 95 % (k = 2), unless `(k=1)` or `(limits)` follows |
| range | `50 to 120 kg` | both ends belong to it |
| date | `2026-03-12` | year, month, day |
| file | `data/bars.csv` | named from the YAML file it stands in; it may not lead out of the case folder \
|
| text | `Anything in words` | YAML 1.2: `no` is text, `1e-3` is a number, `12:30` is text |

A decimal comma, a thousands sign and an unknown unit are reported. Nothing is guessed."""


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of a record, and the kinds and parts that it stands in."""

    record: type[Record]
    stands_in: tuple[str, ...]


def records_page() -> str:
    """Every kind, then every part that stands in one, in Markdown."""
    kinds = "\n".join(f"- {link(code(kind), '#' + kind)}: {_first(record)}" for kind, record in KINDS.items())
    looking = rules_by_kind()
    sections = (_kind(kind, record, looking.get(kind, ())) for kind, record in KINDS.items())
    parts = (_part(part) for part in _parts())
    return page(INTRODUCTION, kinds, VALUES, *sections, "## Parts of records", *parts)


def rules_by_kind() -> dict[str, tuple[str, ...]]:
    """The rules that look at each kind, as their own bad examples show it."""
    found: dict[str, list[str]] = {}
    for rule in RULES:
        found.setdefault(_kind_marked(document(rule).bad), []).append(rule.name)
    return {kind: tuple(names) for kind, names in found.items()}


def _kind_marked(example: str) -> str:
    """The kind under which the marked line of an example stands."""
    kind = ""
    for line in example.splitlines():
        found = _KIND.match(line)
        kind = found[1] if found else kind
        if line.endswith(_MARKED):
            return kind
    return kind


def _kind(kind: str, record: type[Record], rules: tuple[str, ...]) -> str:
    looking = listed((link(code(rule), f"rules.html#{rule}") for rule in rules), "and")
    lines = [f"## {kind}", f"Each {SINGULAR[kind]} by its id. {_first(record)}", _fields(record, kind)]
    return "\n\n".join([*lines, f"Rules that look here: {looking}."] if looking else lines)


def _part(part: _Part) -> str:
    name = part_name(part.record)
    where = listed((link(one, f"#{heading_anchor(one)}") for one in part.stands_in), "and")
    lines = [f"### {name.capitalize()}", f"{_first(part.record)} Stands in {where}."]
    short = _short_form(part.record)
    return "\n\n".join([*lines, *([short] if short else []), _fields(part.record, heading_anchor(name))])


def _short_form(record: type[Record]) -> str:
    names = record.short_form
    if not names:
        return ""
    if len(names) == 1:
        return f"A bare value stands for {code(names[0])}."
    return (
        f"A bare value stands for {code(names[0])} where it looks like a number, else for {code(names[1])}."
    )


def _fields(record: type[Record], of: str) -> str:
    hints = typing.get_type_hints(record, include_extras=True)
    return table(
        HEADINGS,
        (_field(of, name, field, hints[name]) for name, field in record.model_fields.items()),
    )


def _field(of: str, name: str, field: FieldInfo, hint: object) -> tuple[str, ...]:
    needed = "yes" if field.is_required() else _default(field)
    return (f"{anchor(f'{of}.{name}')}{code(name)}", type_in_words(hint), needed, field.description or "")


def _default(field: FieldInfo) -> str:
    return f"no: {code(field.default)}" if isinstance(field.default, str) else "no"


def _first(record: type[Record]) -> str:
    return " ".join((record.__doc__ or "").split("\n\n")[0].split())


def _parts() -> Iterator[_Part]:
    """Every part once, with all that it stands in."""
    stands_in: dict[type[Record], list[str]] = {}
    waiting: list[tuple[str, type[Record]]] = list(KINDS.items())
    for name, record in waiting:
        for part in parts_of(record):
            if part not in stands_in:
                waiting.append((part_name(part), part))
            stands_in.setdefault(part, []).append(name)
    for record in sorted(stands_in, key=part_name):
        yield _Part(record, tuple(dict.fromkeys(stands_in[record])))
