"""What may stand in a field, told in words from the type of the field."""

import types
import typing
from collections.abc import Iterable
from typing import Any

from assurance.model.entry import SINGULAR
from assurance.model.fields import Day, FileName, Quantity, Range, Record, Refers, Sha256, Who
from assurance.reference.markdown import code, link, listed

ANY_RECORD = "*"
_WHOLE = (
    (Quantity, link("quantity", "#values")),
    (Range, link("range", "#values")),
    (Day, link("date", "#values")),
    (Sha256, "sha256, 64 hex digits"),
)


def type_in_words(hint: Any) -> str:
    """What may stand there, such as `list, each text`.

    Raises `TypeError` for a type of field that nobody has put into words yet.
    """
    for known, words in _WHOLE:
        if hint == known:
            return words
    origin, args = typing.get_origin(hint), typing.get_args(hint)
    if origin in (typing.Union, types.UnionType):
        return type_in_words(_plain_of(hint))
    if origin is typing.Annotated:
        return _annotated(args[0], args[1:])
    if origin is tuple:
        return f"list, each {type_in_words(args[0])}"
    if origin is dict:
        return f"{_key(args[0])}: {type_in_words(args[1])}"
    return _plain(hint, origin, args)


def part_name(record: type[Record]) -> str:
    """The name of a part of a record in words: `DataFile` is a data file."""
    spaced = "".join(f" {one.lower()}" if one.isupper() else one for one in record.__name__)
    return spaced.strip()


def parts_of(record: type[Record]) -> tuple[type[Record], ...]:
    """The parts that stand directly in a record, in the order of its fields."""
    hints = typing.get_type_hints(record, include_extras=True)
    found = (part for name in record.model_fields for part in _records_in(hints[name]))
    return tuple(dict.fromkeys(found))


def _records_in(hint: Any) -> Iterable[type[Record]]:
    if isinstance(hint, type) and issubclass(hint, Record):
        return (hint,)
    return tuple(part for one in typing.get_args(hint) for part in _records_in(one))


def _annotated(hint: Any, marks: tuple[Any, ...]) -> str:
    refers = next((mark for mark in marks if isinstance(mark, Refers)), None)
    if refers is not None:
        return _reference(refers)
    if any(isinstance(mark, FileName) for mark in marks):
        return link("file", "#values")
    if any(isinstance(mark, Who) for mark in marks):
        return "a person, role or organisation of the case"
    if _plain_of(hint) is int:
        return "whole number" + _between(*(_bound(marks, name) for name in ("ge", "le")))
    return type_in_words(hint)


def _between(low: int | None, high: int | None) -> str:
    if low is None:
        return ""
    return f", {low} or more" if high is None else f", {low} to {high}"


def _plain_of(hint: Any) -> Any:
    """The type without the leave to be absent."""
    return next((one for one in typing.get_args(hint) if one is not type(None)), hint)


def _bound(marks: tuple[Any, ...], name: str) -> int | None:
    each = [one for mark in marks for one in (mark, *getattr(mark, "metadata", ()))]
    return next((getattr(one, name) for one in each if getattr(one, name, None) is not None), None)


def _reference(refers: Refers) -> str:
    if ANY_RECORD in refers.kinds:
        return "id of a record" + (", or `record.name` for a part of it" if refers.part else "")
    kinds = listed(link(SINGULAR[kind], f"#{kind}") for kind in refers.kinds)
    if refers.part in ("result", "property"):
        return f"`record.{refers.part}` of {_article(SINGULAR[refers.kinds[0]])}{kinds}"
    return f"id of {_article(SINGULAR[refers.kinds[0]])}{kinds}"


def _article(noun: str) -> str:
    if noun == SINGULAR["evidence"]:
        return ""  # it is not counted
    return "an " if noun[0] in "aeiou" else "a "


def _key(hint: Any) -> str:
    words = typing.get_args(hint)
    return f"by {listed(map(code, words))}" if words else "by name"


def _plain(hint: Any, origin: Any, args: tuple[Any, ...]) -> str:
    if origin is typing.Literal:
        return listed(code(str(word)) for word in args)
    if isinstance(hint, type) and issubclass(hint, Record):
        name = part_name(hint)
        return link(name, f"#{name.replace(' ', '-')}")
    if hint is str:
        return "text"
    if hint is bool:
        return "`true` or `false`"
    if hint is int:
        return "whole number"
    raise TypeError(f"the reference has no words for a field of type {hint!r}")


__all__ = ["part_name", "parts_of", "type_in_words"]
