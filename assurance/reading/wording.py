"""What the model refuses, said in words of the trade: one message and one remedy for each fault."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from assurance.model.fields import Record
from assurance.reading.faults import did_you_mean, listed, shown_value
from assurance.reading.plans import Path, plan_of, record_at

Words = tuple[str, str, str]  # rule, message, remedy
Problem = Mapping[str, Any]
WORDED = re.compile(r"'((?:[^'\\]|\\.)*)'")


def words_for(record: type[Record], problem: Problem, path: Path, *, name: str) -> Words:
    """Rule, message and remedy for one thing that the model refused at a path inside a record."""
    say = WORDINGS.get(problem["type"])
    return say(record, problem, path, name) if say else _otherwise(problem, path)


def _missing(_record: type[Record], _problem: Problem, path: Path, name: str) -> Words:
    field = path[-1]
    return "field-missing", f"`{field}` is missing in {_inside(path, name)}.", f"Add `{field}:`."


def _unknown(record: type[Record], _problem: Problem, path: Path, name: str) -> Words:
    holder = record_at(record, path[:-1])
    fields = plan_of(holder).fields if holder else ()
    key = str(path[-1])
    otherwise = f"Its keys are {listed(fields, 'and')}."
    remedy = did_you_mean(key, fields, otherwise=otherwise)
    return "key-unknown", f"{shown_value(key)} is not a key of {_inside(path, name)}.", remedy


def _text(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    given = problem["input"]
    if isinstance(given, (bool, int, float)):
        what = "true or false" if isinstance(given, bool) else "a number"
        message = f"{_field(path)} is {shown_value(given)}, {what}, where text is expected."
        return "value-wrong", message, f'Put it in quotes: `"{shown_value(given)[1:-1]}"`.'
    return _other_shape(given, path, "text")


def _list(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    return _other_shape(problem["input"], path, "a list")


def _mapping(_record: type[Record], problem: Problem, path: Path, name: str) -> Words:
    if path:
        return _other_shape(problem["input"], path, "a mapping of keys to values")
    message = f"{name[0].upper()}{name[1:]} holds {_kind_of(problem['input'])}, not keys and values."
    return "value-wrong", message, "Write its fields below it, indented."


def _other_shape(given: Any, path: Path, wanted: str) -> Words:
    message = f"{_field(path)} holds {_kind_of(given)} where {wanted} is expected."
    remedies = {
        "a list": "Write each item on a line of its own after `- `, or all in `[...]`.",
        "text": "Write one text.",
    }
    return "value-wrong", message, remedies.get(wanted, "Write `key: value` pairs.")


def _empty(_record: type[Record], _problem: Problem, path: Path, _name: str) -> Words:
    return "value-wrong", f"{_field(path)} is an empty text.", "Write the text, or take the key away."


def _long(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    most, length = problem["ctx"]["max_length"], len(problem["input"])
    message = f"{_field(path)} has {length} characters; at most {most} are read."
    return "value-wrong", message, "Shorten it, or put the long text in a file that evidence names."


def _pattern(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    if path and path[-1] != "sha256":
        return "value-wrong", f"{_field(path)} is blank.", "Write what it is, or leave the field out."
    message = f"{_field(path)} is {shown_value(problem['input'])}, which is not a sha256."
    return "value-wrong", message, "Write the 64 hex digits in small letters, as `sha256sum` prints them."


def _one_of(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    words = tuple(WORDED.findall(problem["ctx"]["expected"]))
    given = problem["input"]
    message = f"{_field(path)} is {shown_value(given)}, not one of {listed(words)}."
    near = did_you_mean(str(given), words, otherwise=f"Write {listed(words)}.")
    return "value-wrong", message, near


def _whole_number(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    given = problem["input"]
    if isinstance(given, (dict, tuple)) or given is None:
        return _other_shape(given, path, "a whole number")
    message = f"{_field(path)} is {shown_value(given)}, which is not a whole number."
    return "value-wrong", message, "Write a whole number without quotes or unit."


def _bound(word: str, bound: str) -> Callable[[type[Record], Problem, Path, str], Words]:
    def say(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
        limit = problem["ctx"][bound]
        message = f"{_field(path)} is {shown_value(problem['input'])}; {word} {limit} is allowed."
        return "value-wrong", message, f"Write a whole number of {word} {limit}."

    return say


def _value(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    fault, _, hint = str(problem["ctx"]["fault"]).partition("; ")
    given = problem["input"]
    subject = shown_value(given) if isinstance(given, (str, int, float)) else _kind_of(given)
    link = ": " if fault.startswith("`") else " "  # a fault that names its own subject follows a colon
    remedy = f"{hint[0].upper()}{hint[1:]}" if hint else _example(fault)
    ended = remedy if remedy.endswith(("?", ".")) else f"{remedy}."
    return "value-wrong", f"{_field(path)}: {subject}{link}{fault}.", ended


def _example(fault: str) -> str:
    if "date" in fault or "calendar" in fault:
        return "Write year, month and day, such as `2026-03-12`."
    if "range" in fault or "high to low" in fault:
        return "Write the lower end first, such as `50 to 120 kg`."
    return "Write a number and a unit of the list, such as `12.5 mm`."


def _otherwise(problem: Problem, path: Path) -> Words:
    message = f"{_field(path)} is {shown_value(problem['input'])}, which cannot stand here."
    return "value-wrong", message, "Look the field up with `schema`."


def _field(path: Path) -> str:
    """The field in words: its key, and for an item of a list which one."""
    if not path:
        return "The record"
    if isinstance(path[-1], int):
        owner = path[-2] if len(path) > 1 else "list"
        return f"Item {path[-1] + 1} of `{owner}`"
    return f"`{path[-1]}`"


def _inside(path: Path, name: str) -> str:
    """What holds the last key of a path, in words."""
    if len(path) <= 1:
        return name
    holder = _field(path[:-1])
    return f"{holder[0].lower()}{holder[1:]} of {name}"


def _kind_of(given: Any) -> str:
    if given is None:
        return "nothing"
    if isinstance(given, tuple):
        return "a list"
    return "a mapping" if isinstance(given, dict) else shown_value(given)


def id_words(wrong: str, what: str) -> Words:
    """Rule, message and remedy for a name that is no id."""
    message = f"{shown_value(wrong)} cannot be {what}."
    remedy = "Start with a letter; then letters, digits, `-` and `_`, at most 64 in all."
    return "id-wrong", message, remedy


WORDINGS: dict[str, Callable[[type[Record], Problem, Path, str], Words]] = {
    "missing": _missing,
    "extra_forbidden": _unknown,
    "string_type": _text,
    "string_too_short": _empty,
    "string_too_long": _long,
    "string_pattern_mismatch": _pattern,
    "tuple_type": _list,
    "model_type": _mapping,
    "model_attributes_type": _mapping,
    "dict_type": _mapping,
    "literal_error": _one_of,
    "int_type": _whole_number,
    "int_from_float": _whole_number,
    "greater_than_equal": _bound("at least", "ge"),
    "less_than_equal": _bound("at most", "le"),
    "value": _value,
}
