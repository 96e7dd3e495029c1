"""The field types of records: quantities, ranges, dates, references and short forms."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError

from assurance.model import quantity

ID_PATTERN = r"[A-Za-z][A-Za-z0-9_-]{0,63}"
ID = re.compile(ID_PATTERN)
DAY_PATTERN = r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"


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


def has_field(record: Record | None, name: str) -> bool:
    """Whether a record is of a kind with that field; asking it for one that it lacks takes long."""
    return record is not None and name in _fields_of(type(record))


@cache
def _fields_of(kind: type[Record]) -> frozenset[str]:
    return frozenset(kind.model_fields)


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


@dataclass(frozen=True, slots=True)
class WrittenAs:
    """Says in the JSON Schema how a value is written; its pattern is worked out when it is asked for."""

    types: tuple[str, ...]
    pattern: Callable[[], str]
    description: str

    def __get_pydantic_json_schema__(
        self, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        types = self.types[0] if len(self.types) == 1 else list(self.types)
        wanted = f"Write {self.description[0].lower()}{self.description[1:]}"
        return {
            "type": types,
            "pattern": self.pattern(),
            "patternErrorMessage": wanted,  # editors show it instead of the pattern
            "description": self.description,
        }


def _as_fault(read: Any) -> Any:
    def validate(given: object) -> Any:
        try:
            return read(given)
        except ValueError as fault:
            raise PydanticCustomError("value", "{fault}", {"fault": str(fault)}) from None

    return validate


def _read_day(given: object) -> date:
    if isinstance(given, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", given):
        try:
            return date.fromisoformat(given)
        except ValueError:
            raise ValueError("is not a day of the calendar") from None
    raise ValueError("is not a date such as `2026-03-12`")


Quantity = Annotated[
    quantity.Quantity,
    BeforeValidator(_as_fault(quantity.read_quantity)),
    WrittenAs(
        ("string", "number"), quantity.quantity_pattern, "A number with a unit, such as `12.50 +/- 0.02 mm`."
    ),
]
Range = Annotated[
    quantity.Range,
    BeforeValidator(_as_fault(quantity.read_range)),
    WrittenAs(
        ("string",), quantity.range_pattern, "A range with its unit, ends included, such as `50 to 120 kg`."
    ),
]
Day = Annotated[
    date,
    BeforeValidator(_as_fault(_read_day)),
    WrittenAs(("string",), lambda: DAY_PATTERN, "A day such as `2026-03-12`."),
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
