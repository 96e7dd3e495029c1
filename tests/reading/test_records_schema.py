"""The JSON Schema of a YAML file says what the model says."""

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest

from assurance.methods.registry import METHODS
from assurance.model.kinds import KINDS
from assurance.model.quantity import read_quantity
from assurance.model.units import units
from assurance.reading.schema import records_schema

SCHEMA = records_schema()
SHORT = {
    "Allowable",
    "Anomaly",
    "DataFile",
    "Effect",
    "HazardCause",
    "Input",
    "Limit",
    "Organisation",
    "Over",
    "PartIssue",
    "Person",
    "Support",
    "TestedPart",
    "TypedResult",
}


def parts(schema: Any) -> Iterator[dict[str, Any]]:
    if isinstance(schema, dict):
        yield schema
        for inner in schema.values():
            yield from parts(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from parts(inner)


def definition(kind: str) -> dict[str, Any]:
    name = SCHEMA["properties"][kind]["additionalProperties"]["$ref"].removeprefix("#/$defs/")
    found: dict[str, Any] = SCHEMA["$defs"][name]
    return found


def test_the_schema_is_json() -> None:
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_every_reference_leads_to_a_definition() -> None:
    references = {part["$ref"] for part in parts(SCHEMA) if isinstance(part.get("$ref"), str)}

    assert references
    assert all(ref.removeprefix("#/$defs/") in SCHEMA["$defs"] for ref in references)


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_has_the_fields_of_its_record_and_no_other(kind: str) -> None:
    described = definition(kind)

    assert set(described["properties"]) == set(KINDS[kind].model_fields)
    assert described["additionalProperties"] is False
    needed = {name for name, field in KINDS[kind].model_fields.items() if field.is_required()}
    assert set(described.get("required", [])) == needed


def test_an_id_is_asked_for_by_its_pattern() -> None:
    pattern = SCHEMA["properties"]["claims"]["propertyNames"]["pattern"]

    assert re.search(pattern, "blade-strength")
    assert not any(re.search(pattern, wrong) for wrong in ("2nd", "a.b", "a b", "", "b" * 65))
    assert definition("evidence")["properties"]["results"]["propertyNames"]["pattern"] == pattern


def test_a_short_form_is_allowed_where_the_record_has_one() -> None:
    for name, described in SCHEMA["$defs"].items():
        objects = [one.get("type") == "object" for one in described.get("anyOf", [])]
        assert (objects[-1:] == [True] and not all(objects)) == (name in SHORT), name


def test_every_field_says_what_it_is() -> None:
    unsaid = [
        f"{name}.{field}"
        for name, described in SCHEMA["$defs"].items()
        for one in [described, *described.get("anyOf", [])]
        for field, part in one.get("properties", {}).items()
        if len(part.get("description", "")) < len("What.")
    ]
    assert not unsaid


def test_a_class_of_record_has_a_title_in_words_and_a_field_none() -> None:
    titles = {part["title"] for part in parts(SCHEMA["$defs"]) if isinstance(part.get("title"), str)}

    assert {"claim", "load case", "tested part", "support"} <= titles
    assert not {"Statement", "What", "Owner"} & titles


def test_the_words_of_a_closed_list_are_listed() -> None:
    assert definition("evidence")["properties"]["kind"]["enum"][:2] == ["test", "inspection"]
    assert definition("calculations")["properties"]["method"]["enum"] == sorted(METHODS)


def test_the_pattern_of_a_quantity_knows_every_unit_of_the_list_and_no_other() -> None:
    pattern = definition("factors")["properties"]["value"]["pattern"]

    assert all(re.search(pattern, f"12.5 +/- 0.1 {unit} (k=1)") for unit in units())
    assert not any(re.search(pattern, wrong) for wrong in ("1 mmm", "1,5 mm", "1 mm x", "mm", "", "1 +/- mm"))


@pytest.mark.parametrize(
    "text",
    [
        "12.5",
        "12.5mm",
        " 1 mm ",
        "-3e-4 degC",
        "5 °C",
        "3 µm",
        "1 ± 0.1 N m",
        "1 +/- 0.1 mm (limits)",
        ".5",
        "2 %",
    ],
)
def test_what_the_pattern_of_a_quantity_fits_is_read(text: str) -> None:
    assert re.search(definition("factors")["properties"]["value"]["pattern"], text)
    read_quantity(text)


def test_each_method_says_which_inputs_it_takes() -> None:
    told = {
        one["if"]["properties"]["method"]["const"]: one["then"] for one in definition("calculations")["allOf"]
    }

    for name, method in METHODS.items():
        inputs = told[name]["properties"]["inputs"]
        assert inputs["propertyNames"]["enum"] == [spec.name for spec in method.inputs]
        assert all(inputs["properties"][spec.name]["description"] for spec in method.inputs)
