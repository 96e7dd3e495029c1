"""Walks a record for the fields that name something: a record, a person, a file."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from assurance.model.fields import Record
from assurance.reading.plans import Holds, Mark, Path, plan_of


@dataclass(frozen=True, slots=True)
class Naming:
    """A text in a record that names something, with its place inside the record."""

    path: Path
    mark: Mark
    text: str


def namings(record: Record, path: Path = ()) -> Iterator[Naming]:
    """Everything that a record names, in the order of its fields."""
    plan = plan_of(type(record))
    for marked in plan.marked:
        given = getattr(record, marked.field)
        if given is not None:
            for here, text in _held(given, marked.holds, (*path, marked.field)):
                yield Naming(here, marked.mark, text)
    for field, holds in _looked_into(type(record)):
        given = getattr(record, field)
        if given is not None:
            for here, inner in _held(given, holds, (*path, field)):
                yield from namings(inner, here)


def _held(given: Any, holds: Holds, path: Path) -> Iterator[tuple[Path, Any]]:
    if holds == "one":
        yield path, given
    elif holds == "list":
        for index, item in enumerate(given):
            yield (*path, index), item
    else:
        for name, item in given.items():
            yield (*path, name), item


@cache
def _names_something(record: type[Record]) -> bool:
    plan = plan_of(record)
    return bool(plan.marked) or any(_names_something(nested.record) for nested in plan.nested)


@cache
def _looked_into(record: type[Record]) -> tuple[tuple[str, Holds], ...]:
    nested = plan_of(record).nested
    return tuple((each.field, each.holds) for each in nested if _names_something(each.record))
