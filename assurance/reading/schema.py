"""The JSON Schema of a YAML file of records, made from the model, for completion in an editor."""

from typing import Any

from pydantic.json_schema import models_json_schema

from assurance.model.fields import ID_PATTERN
from assurance.model.kinds import KINDS, SINGULAR

DIALECT = "https://json-schema.org/draft/2020-12/schema"
REFERENCE = "#/$defs/{model}"
WHOLE_ID = f"^{ID_PATTERN}$"


def records_schema() -> dict[str, Any]:
    """The schema of one YAML file under `claims/` or `hazards/`: each kind a mapping from id to record."""
    kinds = [(record, "validation") for record in KINDS.values()]
    by_record, described = models_json_schema(kinds, ref_template=REFERENCE)  # type: ignore[arg-type]
    return {
        "$schema": DIALECT,
        "title": "Records of an assurance case",
        "description": "One file under `claims/` or `hazards/`.",
        "type": ["object", "null"],
        "additionalProperties": False,
        "properties": {
            kind: _section(kind, by_record[record, "validation"]) for kind, record in KINDS.items()
        },
        "$defs": {name: _with_names(part) for name, part in sorted(described["$defs"].items())},
    }


def _section(kind: str, reference: dict[str, Any]) -> dict[str, Any]:
    return {
        "description": f"Each {SINGULAR[kind]} by its id.",
        "type": ["object", "null"],
        "propertyNames": {"pattern": WHOLE_ID},
        "additionalProperties": reference,
    }


def _with_names(part: Any) -> Any:
    """The same schema, in which every mapping from name to record says what a name may be."""
    if isinstance(part, list):
        return [_with_names(item) for item in part]
    if not isinstance(part, dict):
        return part
    named = {key: _with_names(item) for key, item in part.items()}
    held = part.get("additionalProperties")
    if isinstance(held, dict) and "$ref" in held and "propertyNames" not in part:
        named["propertyNames"] = {"pattern": WHOLE_ID}
    return named
