"""The field types of records: quantities, ranges, dates, references and short forms."""

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema, PydanticCustomError

from assurance.model import quantity

ID_PATTERN = r"[A-Za-z][A-Za-z0-9_-]{0,63}"
ID = re.compile(ID_PATTERN)


class Record(BaseModel):
    """A frozen part of a case. Unknown keys are refused, nothing is converted silently.

    `short_form` names the field that a bare value stands for; with two names a value that looks
    like a quantity goes to the first, anything else to the second. Reading spells it out, so the
    model itself has no unions.
    """

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")
    short_form: ClassVar[tuple[str, ...]] = ()

    @classmethod
    def __get_pydantic_json_schema__(
        cls, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        described = handler(core_schema)
        if not cls.short_form:
            return described
        return {"anyOf": [described, {"type": ["string", "number"]}]}


@dataclass(frozen=True, slots=True)
class Refers:
    """Marks a text field that names something: a record of one of these kinds, or a part of one.

    `part` says what follows the dot: nothing, a `result`, a `property`, or `any` (optional).
    """

    kinds: tuple[str, ...]
    part: Literal["", "result", "property", "any"] = ""


@dataclass(frozen=True, slots=True)
class FileName:
    """Marks a text field that names a file, relative to the YAML file it is written in."""


@dataclass(frozen=True, slots=True)
class Who:
    """Marks a text field that names a person, a role or an organisation of the case."""


def _as_fault(read: Any) -> Any:
    def validate(given: object) -> Any:
        try:
            return read(given)
        except ValueError as fault:
            raise PydanticCustomError("value", "{fault}", {"fault": str(fault)}) from None

    return validate


def _read_day(given: object) -> date:
    if isinstance(given, str) and re.fullmatch(r"\d{4}-\d{2}-\d{2}", given):
        try:
            return date.fromisoformat(given)
        except ValueError:
            raise ValueError("is not a day of the calendar") from None
    raise ValueError("is not a date such as `2026-03-12`")


Quantity = Annotated[
    quantity.Quantity,
    BeforeValidator(_as_fault(quantity.read_quantity)),
    WithJsonSchema(
        {
            "type": ["string", "number"],
            "pattern": quantity.NUMBER,
            "description": "A number with a unit, such as `12.50 +/- 0.02 mm`.",
        }
    ),
]
Range = Annotated[
    quantity.Range,
    BeforeValidator(_as_fault(quantity.read_range)),
    WithJsonSchema(
        {
            "type": "string",
            "pattern": f"{quantity.NUMBER}\\s+to\\s+{quantity.NUMBER}",
            "description": "A range with its unit, ends included, such as `50 to 120 kg`.",
        }
    ),
]
Day = Annotated[
    date,
    BeforeValidator(_as_fault(_read_day)),
    WithJsonSchema({"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$", "description": "2026-03-12"}),
]
Text = Annotated[str, Field(min_length=1, max_length=5000, pattern=r"[\p{L}\p{N}\p{P}\p{S}]")]
File = Annotated[
    str, Field(min_length=1, max_length=500, description="A file, named from this one."), FileName()
]
Sha256 = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$", description="sha256 of the file, in hex.")]
Owner = Annotated[str, Field(description="A person, role or organisation of the case."), Who()]
Rating = Annotated[int, Field(ge=1, le=10)]


Claim = Annotated[str, Field(description="The id of a claim."), Refers(("claims",))]
Evidence = Annotated[str, Field(description="The id of an evidence record."), Refers(("evidence",))]
Part = Annotated[str, Field(description="The id of a part."), Refers(("parts",))]
LoadCase = Annotated[str, Field(description="The id of a load case."), Refers(("load_cases",))]
Factor = Annotated[str, Field(description="The id of a factor."), Refers(("factors",))]
Ground = Annotated[
    str,
    Field(description="The id of a claim, evidence or calculation."),
    Refers(("claims", "evidence", "calculations")),
]
Result = Annotated[
    str,
    Field(description="`record.result` of a calculation or an evidence record."),
    Refers(("calculations", "evidence"), "result"),
]
MaterialProperty = Annotated[
    str, Field(description="`material.property`."), Refers(("materials",), "property")
]
