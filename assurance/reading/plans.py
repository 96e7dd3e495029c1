"""What the reader has to know about each class of record, worked out once from the model."""

from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from assurance.model.fields import FileName, Record, Refers, Who

Holds = Literal["one", "list", "names"]
Mark = Refers | Who | FileName
Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Nested:
    """A field that holds records: one, a list of them, or several by name."""

    field: str
    holds: Holds
    record: type[Record]


@dataclass(frozen=True, slots=True)
class Marked:
    """A text field that names something, alone, in a list, or as the values of a mapping."""

    field: str
    holds: Holds
    mark: Mark


@dataclass(frozen=True, slots=True)
class Plan:
    """The fields of one class of record that reading treats in a special way."""

    record: type[Record]
    fields: tuple[str, ...]
    nested: tuple[Nested, ...]
    marked: tuple[Marked, ...]

    def nested_in(self, field: str) -> Nested | None:
        """What that field holds, if it holds records."""
        return next((nested for nested in self.nested if nested.field == field), None)


@cache
def plan_of(record: type[Record]) -> Plan:
    """The plan of a class of record."""
    hints = get_type_hints(record, include_extras=True)
    nested: list[Nested] = []
    marked: list[Marked] = []
    for field in record.model_fields:
        for holds, kind, mark in _leaves(hints[field], "one", None):
            if mark is not None:
                marked.append(Marked(field, holds, mark))
            elif isinstance(kind, type) and issubclass(kind, Record):
                nested.append(Nested(field, holds, kind))
    return Plan(record, tuple(record.model_fields), tuple(nested), tuple(marked))


@dataclass(frozen=True, slots=True)
class Leaf:
    """What a field comes down to: how its values are held, their class, their mark, and the names allowed."""

    field: str
    holds: Holds
    kind: Any
    mark: Mark | None
    names: tuple[str, ...] = ()


def leaf_of(record: type[Record], field: str) -> Leaf:
    """What a field of a class of record comes down to."""
    hint = get_type_hints(record, include_extras=True)[field]
    holds, kind, mark = _leaves(hint, "one", None)[0]
    return Leaf(field, holds, kind, mark, _names_in(hint))


def _names_in(hint: Any) -> tuple[str, ...]:
    """The closed list of names of a mapping, where it has one."""
    inner = get_args(hint)
    if get_origin(hint) is dict and get_origin(inner[0]) is Literal:
        return tuple(get_args(inner[0]))
    return ()


def _leaves(hint: Any, holds: Holds, mark: Mark | None) -> list[tuple[Holds, Any, Mark | None]]:
    """What an annotation comes down to: how it is held, its class, and its mark."""
    origin, inner = get_origin(hint), get_args(hint)
    if origin is Annotated:
        found = next((m for m in inner[1:] if isinstance(m, (Refers, Who, FileName))), None)
        return _leaves(inner[0], holds, found or mark)
    if origin in (Union, UnionType):
        return [leaf for one in inner if one is not type(None) for leaf in _leaves(one, holds, mark)]
    if origin is tuple:
        return _leaves(inner[0], "list", mark)
    if origin is dict:
        return _leaves(inner[1], "names", mark)
    return [(holds, hint, mark)]


def record_at(record: type[Record], path: tuple[str | int, ...]) -> type[Record] | None:
    """The class of record that stands at a path inside another, if one does."""
    if not path:
        return record
    nested = plan_of(record).nested_in(str(path[0]))
    if nested is None:
        return None
    steps = 1 if nested.holds == "one" else 2
    return record_at(nested.record, path[steps:]) if len(path) >= steps else None
