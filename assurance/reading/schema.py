"""The JSON Schema of a YAML file of records, made from the model, for completion in an editor."""

import re
from collections.abc import Mapping
from typing import Any

from pydantic.json_schema import models_json_schema

from assurance.methods.registry import METHODS
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation, Input, ResultTable
from assurance.model.fields import ID_PATTERN, Record
from assurance.model.kinds import KINDS, SINGULAR
from assurance.model.methods import Method
from assurance.model.quantity import LOOKS_LIKE_QUANTITY
from assurance.model.units import units
from assurance.reading.plans import Holds, plan_of
from assurance.reading.schema_names import AnyNames, CaseNames, Names

DIALECT = "https://json-schema.org/draft/2020-12/schema"
REFERENCE = "#/$defs/{model}"
WHOLE_ID = f"^{ID_PATTERN}$"
VISIBLE = r"\S"  # what every dialect of patterns understands of "something that can be seen"
NAME = {
    "pattern": WHOLE_ID,
    "patternErrorMessage": "Start with a letter; then letters, digits, `-` and `_`, at most 64 in all.",
}
CAPITAL = re.compile(r"(?<!^)(?=[A-Z])")
NULL = {"type": "null"}
Schema = dict[str, Any]


def records_schema(
    case: CaseText | None = None, *, columns: Mapping[str, tuple[str, ...]] | None = None
) -> Schema:
    """The schema of one YAML file under `claims/` or `hazards/`: each kind a mapping from id to record.

    Given a case, a field that names something lists what there is to name today; given the headings
    of data files by name, so does a field that names a column.
    """
    kinds = [(record, "validation") for record in KINDS.values()]
    by_record, described = models_json_schema(kinds, ref_template=REFERENCE)  # type: ignore[arg-type]
    names: Names = AnyNames() if case is None else CaseNames(case)
    parts = {name: _tidy(part) for name, part in described["$defs"].items()}
    for record in _classes(tuple(KINDS.values())):
        parts[record.__name__] = _completed(record, parts[record.__name__], names)
    _add_inputs(parts[Calculation.__name__])
    _add_columns(parts, columns or {})
    return {
        "$schema": DIALECT,
        "title": "Records of an assurance case",
        "description": "One file under `claims/` or `hazards/`.",
        "type": ["object", "null"],
        "additionalProperties": False,
        "properties": {
            kind: _section(kind, by_record[record, "validation"]) for kind, record in KINDS.items()
        },
        "$defs": dict(sorted({**parts, **names.definitions}.items())),
    }


def _section(kind: str, reference: Schema) -> Schema:
    return {
        "description": f"Each {SINGULAR[kind]} by its id.",
        "type": ["object", "null"],
        "propertyNames": NAME,
        "additionalProperties": reference,
    }


def _classes(waiting: tuple[type[Record], ...]) -> tuple[type[Record], ...]:
    """Every class of record that these hold, themselves included."""
    found: list[type[Record]] = []
    while waiting:
        record, *rest = waiting
        if record not in found:
            found.append(record)
            rest += [nested.record for nested in plan_of(record).nested]
        waiting = tuple(rest)
    return tuple(found)


def _tidy(part: Any) -> Any:
    """The same schema without what only repeats a key, and with a pattern for names of records."""
    if isinstance(part, list):
        return [_tidy(item) for item in part]
    if not isinstance(part, dict):
        return part
    kept = {key: _tidy(item) for key, item in part.items() if not _says_nothing(key, item)}
    if r"\p{" in str(kept.get("pattern", "")):
        kept["pattern"] = VISIBLE
    held = part.get("additionalProperties")
    if isinstance(held, dict) and "$ref" in held and "propertyNames" not in part:
        kept["propertyNames"] = NAME
    return kept


def _says_nothing(key: str, item: Any) -> bool:
    return (key == "title" and isinstance(item, str)) or (
        key == "default" and (item is None or item == [] or isinstance(item, dict))
    )


def _completed(record: type[Record], part: Schema, names: Names) -> Schema:
    """The schema of a class of record in which each field says what may be named there."""
    described, *_ = part.get("anyOf", [part])
    described["title"] = _in_words(record)
    fields: dict[str, Schema] = described["properties"]
    for marked in plan_of(record).marked:
        name = names.name_for(marked.mark)
        if name:
            reference = {"$ref": REFERENCE.format(model=name)}
            fields[marked.field] = _replaced(fields[marked.field], marked.holds, reference)
    for field, words in {**_closed(record), **names.words(record)}.items():
        fields[field] = _replaced(fields[field], "one", {"type": "string", "enum": words})
    if not record.short_form:
        return part
    return {**part, "anyOf": [*_short_forms(record, fields), described]}  # editors speak of the first


def _closed(record: type[Record]) -> Mapping[str, list[str]]:
    """The fields of a class of record whose words are a closed list outside the model."""
    if record is Calculation:
        return {"method": sorted(METHODS)}
    return {"unit": sorted(units())} if record in (Input, ResultTable) else {}


def _said(leaf: Schema) -> Schema:
    return {"description": leaf["description"]} if "description" in leaf else {}


def _replaced(field: Schema, holds: Holds, leaf: Schema) -> Schema:
    """A field with another schema where its text stands: alone, in a list, or under names."""
    if "anyOf" in field:
        options = [one if one == NULL else _replaced(one, holds, leaf) for one in field["anyOf"]]
        return {**field, "anyOf": options}
    if holds == "one":
        return _said(field) | leaf
    return {**field, "items" if holds == "list" else "additionalProperties": leaf}


def _short_forms(record: type[Record], fields: Mapping[str, Schema]) -> list[Schema]:
    """What may stand instead of the whole record: the value of the one field, or of the two, it is short for.

    Where there are two, a text that looks like a number with a unit is meant as the first.
    """
    forms = [_without_null(fields[name]) for name in record.short_form]
    if len(forms) > 1 and "$ref" not in forms[1]:
        forms[1] = {**forms[1], "not": {"pattern": LOOKS_LIKE_QUANTITY}}
    return forms


def _without_null(field: Schema) -> Schema:
    options: list[Schema] = field.get("anyOf", [field])
    return _said(field) | next(one for one in options if one != NULL)


def _add_inputs(calculation: Schema) -> None:
    """Says for each method which inputs it takes and what they are."""
    calculation["allOf"] = [
        {
            "if": {"properties": {"method": {"const": name}}, "required": ["method"]},
            "then": {"properties": {"inputs": _inputs_of(method)}},
        }
        for name, method in sorted(METHODS.items())
    ]


def _inputs_of(method: Method) -> Schema:
    described = {spec.name: {"description": _sentence(spec.what)} for spec in method.inputs}
    return {"properties": described, "propertyNames": {"enum": list(described)}}


def _add_columns(parts: Mapping[str, Schema], columns: Mapping[str, tuple[str, ...]]) -> None:
    """Says for each data file which columns it has, where one is named."""
    *_, one_input = parts[Input.__name__]["anyOf"]
    for name, headings in sorted(columns.items()):
        listed = {"enum": sorted(set(headings))}
        takes = {"column": listed, "where": {"propertyNames": listed}}
        one_input.setdefault("allOf", []).append(_where_file(name, takes))
        table = {"columns": {"additionalProperties": listed}}
        parts[ResultTable.__name__].setdefault("allOf", []).append(_where_file(name, table))


def _where_file(name: str, fields: Schema) -> Schema:
    named = {"properties": {"file": {"const": name}}, "required": ["file"]}
    return {"if": named, "then": {"properties": fields}}


def _in_words(record: type[Record]) -> str:
    """A class of record as editors speak of it: `TestedPart` is a `tested part`."""
    kind = next((kind for kind, held in KINDS.items() if held is record), None)
    return SINGULAR[kind] if kind else CAPITAL.sub(" ", record.__name__).lower()


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."
