"""One record: from its YAML nodes to the model's record, with every fault at its place."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import ValidationError

from assurance.model.fields import ID, Record
from assurance.model.names import nearest_name
from assurance.reading.faults import Fault
from assurance.reading.places import Written, key_spot, path_written, scalar_at, spot_at
from assurance.reading.plain_values import PlainBuilder
from assurance.reading.plans import Nested, Path, plan_of, record_at
from assurance.reading.short_forms import speller
from assurance.reading.wording import KEY_STEP, id_words, words_for

MOST_FAULTS = 200  # of one record that are listed one by one
IN_RECORD = 3  # a record stands below its id, its kind and the file


@dataclass(frozen=True, slots=True)
class ReadRecord:
    """A record, or none where it could not be read whole, its faults, and the plain value it is made from."""

    record: Record | None
    faults: tuple[Fault, ...]
    plain: Any = None


def read_record(kind: type[Record], written: Written, builder: PlainBuilder, *, name: str) -> ReadRecord:
    """The record of that class that is written there. `name` is how messages speak of it."""
    built = builder.build(written.value, IN_RECORD)
    spelt = speller(kind)(built.value)
    faults = (*built.faults, *_wrong_names(kind, spelt, written))
    if not isinstance(built.value, dict) and built.faults:
        return ReadRecord(None, faults)
    try:
        record = kind.model_validate(spelt)
    except ValidationError as refused:
        told = {fault.spot for fault in built.faults}  # a value that was not read is not also wrong
        also = (fault for fault in _refused(kind, refused, written, name) if fault.spot not in told)
        return ReadRecord(None, (*faults, *also))
    return ReadRecord(None if faults else record, faults, spelt)


def _refused(kind: type[Record], refused: ValidationError, written: Written, name: str) -> tuple[Fault, ...]:
    problems = _told_once(kind, refused.errors(include_url=False))
    faults = tuple(_fault(kind, problem, written, name) for problem in problems[:MOST_FAULTS])
    left = len(problems) - len(faults)
    if not left:
        return faults
    message = f"{name[0].upper()}{name[1:]} has {left:,} more faults, which are not listed."
    more = Fault("value-wrong", spot_at(written, ()), message, "Put right the ones listed first.")
    return (*faults, more)


def _told_once(kind: type[Record], problems: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """The problems without a missing field that an unknown key is a misspelling of: one slip, one fault."""
    misspelt = set()
    for problem in problems:
        if problem["type"] == "extra_forbidden":
            *above, key = problem["loc"]
            holder = record_at(kind, tuple(above))
            misspelt.add((*above, nearest_name(str(key), holder.model_fields if holder else ())))
    return [dict(one) for one in problems if one["type"] != "missing" or one["loc"] not in misspelt]


def _fault(kind: type[Record], problem: dict[str, Any], written: Written, name: str) -> Fault:
    at_key = KEY_STEP in problem["loc"]
    path: Path = tuple(step for step in problem["loc"] if step != KEY_STEP)
    path = path_written(written, path)
    if isinstance(problem["input"], (bool, int, float)):  # a number is shown as it is written
        problem["written"] = scalar_at(written, path)
    rule, message, remedy = words_for(kind, problem, path, name=name)
    if rule == "key-unknown" or at_key:
        spot = key_spot(written, path)
    else:
        spot = spot_at(written, path[:-1] if rule == "field-missing" else path)
    return Fault(rule, spot, message, remedy)


def _wrong_names(kind: type[Record], value: Any, written: Written, path: Path = ()) -> Iterator[Fault]:
    """Names of parts of a record that are no ids."""
    if not isinstance(value, dict):
        return
    for nested in _with_names(kind):
        inner = value.get(nested.field)
        here = (*path, nested.field)
        if nested.holds == "one":
            yield from _wrong_names(nested.record, inner, written, here)
        elif nested.holds == "list" and isinstance(inner, tuple):
            for index, item in enumerate(inner):
                yield from _wrong_names(nested.record, item, written, (*here, index))
        elif nested.holds == "names" and isinstance(inner, dict):
            for name, item in inner.items():
                yield from _wrong_name(name, written, (*here, name))
                yield from _wrong_names(nested.record, item, written, (*here, name))


@cache
def _with_names(kind: type[Record]) -> tuple[Nested, ...]:
    """The fields of a class of record that hold records by name, or records that do."""
    return tuple(n for n in plan_of(kind).nested if n.holds == "names" or _with_names(n.record))


def _wrong_name(name: str, written: Written, path: Path) -> Iterator[Fault]:
    if not ID.fullmatch(name):
        rule, message, remedy = id_words(name, f"a name under `{path[-2]}`")
        yield Fault(rule, key_spot(written, path), message, remedy)
