"""What the model refuses, said in words of the trade: one message and one remedy for each fault."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from assurance.model.fields import Record
from assurance.model.names import LEAST_ALIKE, nearest_name
from assurance.reading.faults import did_you_mean, listed, shown_value
from assurance.reading.plans import Path, plan_of, record_at

Words = tuple[str, str, str]  # rule, message, remedy
Problem = Mapping[str, Any]
WORDED = re.compile(r"'((?:[^'\\]|\\.)*)'")
STARTS_WITH_DIGIT = re.compile(r"[0-9]")
NOT_IN_AN_ID = re.compile(r"[^A-Za-z0-9_-]")
LONG_WORD = 7  # letters; `training` is no slip of the pen for `warning`, though two letters in three agree
ALIKE_IF_LONG = 0.75
KEY_STEP = "[key]"  # how the model marks a fault of a key and not of what it holds


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
    otherwise = f"Write one of its keys: {listed(fields)}."
    if STARTS_WITH_DIGIT.match(key):
        otherwise = "Write a decimal point, or use quotes: in `{...}` and `[...]` a comma parts two items."
    remedy = did_you_mean(key, fields, otherwise=otherwise)
    return "key-unknown", f"{shown_value(key)} is not a key of {_inside(path, name)}.", remedy


def _text(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    given = problem["input"]
    if isinstance(given, (bool, int, float)):
        what = "true or false" if isinstance(given, bool) else "a number"
        shown = _shown(problem)
        message = f"{_field(path)} is {shown}, {what}, where text is expected."
        quoted = "Put it in quotes." if shown.endswith("…`") else f'Put it in quotes: `"{shown[1:-1]}"`.'
        return "value-wrong", message, quoted
    return _other_shape(given, path, "text")


def _list(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    return _other_shape(problem["input"], path, "a list")


def _mapping(record: type[Record], problem: Problem, path: Path, name: str) -> Words:
    remedy = _as_keys(record, path)
    if path:
        message = f"{_field(path)} holds {_kind_of(problem['input'])} where keys and values are expected."
        return "value-wrong", message, remedy
    message = f"{name[0].upper()}{name[1:]} holds {_kind_of(problem['input'])}, not keys and values."
    return "value-wrong", message, remedy


def _as_keys(record: type[Record], path: Path) -> str:
    """How a record inside another is written: its first key, or one value where that stands for it."""
    holder = record_at(record, path)
    if holder is None:
        return "Write `key: value` pairs."
    needed = (name for name, field in holder.model_fields.items() if field.is_required())
    first = next(iter(holder.short_form or needed), "")
    also = "one value, or " if holder.short_form and path else ""
    return f"Write {also}its keys below it, indented, such as `{first}:`." if first else "Write its keys."


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
    also = ", or put the long text in a file that evidence names" if path[-1] != "file" else ""
    return "value-wrong", message, f"Shorten it{also}."


def _pattern(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    if path and path[-1] != "sha256":
        return "value-wrong", f"{_field(path)} is blank.", "Write what it is, or leave the field out."
    message = f"{_field(path)} is {shown_value(problem['input'])}, which is not a sha256."
    return "value-wrong", message, "Write the 64 hex digits in small letters, as `sha256sum` prints them."


def _one_of(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    words = tuple(WORDED.findall(problem["ctx"]["expected"]))
    given = problem["input"]
    at_key = KEY_STEP in problem["loc"] and len(path) > 1
    message = (
        f"{shown_value(given)} stands under `{path[-2]}`, where only {listed(words)} can stand."
        if at_key
        else f"{_field(path)} is {_shown(problem)}, not one of {listed(words)}."
    )
    alike = ALIKE_IF_LONG if len(str(given)) >= LONG_WORD else LEAST_ALIKE
    near = nearest_name(str(given), words, alike=alike)
    guess = f"Did you mean `{near}`?" if near else f"Write {listed(words)}."
    return "value-wrong", message, guess


def _whole_number(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    given = problem["input"]
    if isinstance(given, (dict, tuple)) or given is None:
        return _other_shape(given, path, "a whole number")
    what = "the text " if isinstance(given, str) else ""
    message = f"{_field(path)} is {what}{_shown(problem)}, which is not a whole number."
    return "value-wrong", message, "Write a whole number without quotes or unit."


def _bound(word: str, bound: str) -> Callable[[type[Record], Problem, Path, str], Words]:
    def say(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
        limit = problem["ctx"][bound]
        message = f"{_field(path)} is {_shown(problem)}; {word} {limit} is allowed."
        return "value-wrong", message, f"Write a whole number of {word} {limit}."

    return say


def _value(_record: type[Record], problem: Problem, path: Path, _name: str) -> Words:
    fault, _, hint = str(problem["ctx"]["fault"]).partition("; ")
    given = problem["input"]
    subject = _shown(problem) if isinstance(given, (str, int, float)) else _kind_of(given)
    link = ": " if fault.startswith("`") else " "  # a fault that names its own subject follows a colon
    remedy = f"{hint[0].upper()}{hint[1:]}" if hint else _example(fault)
    ended = remedy if remedy.endswith(("?", ".")) else f"{remedy}."
    return "value-wrong", f"{_field(path)}: {subject}{link}{fault}.", ended


def _example(fault: str) -> str:
    if "date" in fault or "calendar" in fault:
        return "Write year, month and day, such as `2026-03-12`."
    if "range" in fault or "high to low" in fault:
        return "Write both ends with one unit, the lower first, such as `50 to 120 kg`."
    return "Write a number and a unit of the list, such as `12.5 mm`."


def _otherwise(problem: Problem, path: Path) -> Words:
    message = f"{_field(path)} is {_shown(problem)}, which cannot stand here."
    return "value-wrong", message, "Look the field up with `schema`."


def _shown(problem: Problem) -> str:
    """The value at fault; a number word for word, so that `1.10` is not told as `1.1`."""
    return shown_value(problem.get("written") or problem["input"])


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
    message = f"{shown_value(wrong)} cannot be {what}: it {_why_no_id(wrong)}."
    remedy = "Start with a letter; then letters, digits, `-` and `_`, at most 64 in all."
    return "id-wrong", message, remedy


def _why_no_id(wrong: str) -> str:
    foreign = NOT_IN_AN_ID.search(wrong)
    if foreign:
        return f"holds {_character(foreign[0])}"
    if not wrong:
        return "is empty"
    return f"has {len(wrong)} characters" if wrong[0].isalpha() else f"starts with `{wrong[0]}`"


def _character(one: str) -> str:
    """A character in words; one that is none of a keyboard's own with its number."""
    if one == " ":
        return "a blank"
    if one.isascii() and one.isprintable():
        return shown_value(one)
    number = f"U+{ord(one):04X}"
    return f"{shown_value(one)} ({number})" if one.isprintable() else f"the unseen character {number}"


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
