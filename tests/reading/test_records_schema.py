"""The JSON Schema of a YAML file says what the model says."""

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest

from assurance.model.kinds import KINDS
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
        shapes = [one.get("type") for one in described.get("anyOf", [])]
        assert (["string", "number"] in shapes) == (name in SHORT), name
