"""Records of what was measured, made and worked out: evidence, parts, materials, factors, calculations."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from assurance.model.fields import (
    Day,
    Factor,
    File,
    LoadCase,
    MaterialProperty,
    Owner,
    Part,
    Quantity,
    Record,
    Refers,
    Result,
    Sha256,
    Text,
)

Basis = Literal["A", "B", "S", "mean"]


class DataFile(Record):
    """A file and the digest it had when the evidence was issued."""

    short_form: ClassVar[tuple[str, ...]] = ("file",)
    file: File
    sha256: Sha256 | None = None


class TestedPart(Record):
    """Which part the evidence is about, in which issue, which serial."""

    short_form: ClassVar[tuple[str, ...]] = ("part",)
    part: Part
    issue: Text | None = None
    serial: Text | None = None
    quantity: Annotated[int | None, Field(ge=1, description="How many pieces.")] = None


class Anomaly(Record):
    """Something that was not as it should be. Its disposition counts once it has been accepted."""

    short_form: ClassVar[tuple[str, ...]] = ("what",)
    what: Text
    disposition: Text | None = None


class TypedResult(Record):
    """A value read from a report."""

    short_form: ClassVar[tuple[str, ...]] = ("value",)
    value: Quantity
    where: Text | None = None
    read_by: Owner | None = None


class EvidenceRecord(Record):
    """Something outside the argument: a test, an inspection, a report, a certificate."""

    title: Text
    kind: Literal["test", "inspection", "analysis", "certificate", "procedure", "review", "service", "data"]
    files: tuple[DataFile, ...] = ()
    revision: Text | None = None
    date: Day | None = None
    producer: Owner | None = None
    parts: tuple[TestedPart, ...] = ()
    quantity: Text | None = Field(None, description="One of the quantities of the case.")
    outcome: Literal["passed", "failed", "stopped early", "inconclusive"] | None = None
    anomalies: tuple[Anomaly, ...] = ()
    not_applicable: dict[Literal["part", "issue", "serial", "date"], Text] = Field(default_factory=dict)
    results: dict[str, TypedResult] = Field(default_factory=dict)
    state: Literal["draft", "issued", "superseded", "withdrawn"] = "draft"
    superseded_by: Annotated[str | None, Refers(("evidence",))] = None


class PartIssue(Record):
    """An issue of a part and what it changed."""

    short_form: ClassVar[tuple[str, ...]] = ("issue",)
    issue: Text
    changed: Text | None = None


class PartRecord(Record):
    """Something the item is made of."""

    title: Text
    issues: tuple[PartIssue, ...] = ()
    load_path: Literal["single", "redundant"] | None = None
    part_of: Annotated[str | None, Refers(("parts",))] = None
    material: Annotated[str | None, Refers(("materials",))] = None
    made_by: Owner | None = None


class Property(Record):
    """One property of a material, with the basis of the number and where it comes from."""

    value: Quantity | None = None
    result: Annotated[str | None, Refers(("calculations", "evidence"), "result")] = None
    basis: Basis | None = None
    origin: Annotated[str | None, Refers(("evidence", "calculations"))] = None
    source: Text | None = None


class Material(Record):
    """A material and its properties."""

    title: Text
    properties: dict[str, Property] = Field(default_factory=dict)


class AppliesTo(Record):
    """Where a factor applies; what is left out is not narrowed."""

    criteria: tuple[Text, ...] = ()
    parts: tuple[Part, ...] = ()
    load_cases: tuple[LoadCase, ...] = ()


class FactorRecord(Record):
    """A factor of safety, a special factor, or one more factor that multiplies."""

    title: Text
    kind: Literal["safety", "special", "multiply"]
    value: Quantity
    source: Text | None = None
    edition: Text | None = None
    applies_to: AppliesTo = AppliesTo()


class LoadCaseRecord(Record):
    """A load case, its limit load or where that comes from, and the factors already in it."""

    title: Text
    value: Quantity | None = None
    result: Annotated[str | None, Refers(("calculations", "evidence"), "result")] = None
    already_in: tuple[Factor, ...] = ()


class Input(Record):
    """What a method gets: a value, a reference, a word, or a column of a data file."""

    short_form: ClassVar[tuple[str, ...]] = ("value", "text")
    value: Quantity | None = None
    result: Annotated[str | None, Refers(("calculations", "evidence"), "result")] = None
    material: Annotated[str | None, Refers(("materials",), "property")] = None
    factor: Annotated[str | None, Refers(("factors",))] = None
    load_case: Annotated[str | None, Refers(("load_cases",))] = None
    text: Text | None = None
    file: File | None = None
    column: Text | None = None
    unit: str | None = Field(None, description="Unit of the column.")
    where: dict[str, Text] = Field(default_factory=dict, description="Rows to take, by column and word.")


class ResultTable(Record):
    """A table from a stress program: which columns mean what, in which unit."""

    file: File
    columns: dict[Literal["part", "load_case", "row", "sxx", "syy", "szz", "sxy", "syz", "szx"], Text] = (
        Field(description="The heading of each column that is used.")
    )
    unit: str = Field(description="Unit of the stress columns.")
    parts: dict[str, Part] = Field(default_factory=dict, description="Word in the table to part.")
    load_cases: dict[str, LoadCase] = Field(
        default_factory=dict, description="Word in the table to load case."
    )
    already_in: tuple[Factor, ...] = ()


class Allowable(Record):
    """What a stress is compared with."""

    short_form: ClassVar[tuple[str, ...]] = ("value", "material")
    value: Quantity | None = None
    material: MaterialProperty | None = None
    result: Result | None = None


class Criterion(Record):
    """One way in which a part can fail: which stress, against which allowable, for which parts."""

    criterion: Text
    stress: Text = Field(description="`von_mises`, `max_principal`, `max_shear`, or the heading of a column.")
    allowable: Allowable
    parts: tuple[Part, ...] = ()


class Calculation(Record):
    """A method and what it is given."""

    title: Text
    method: Text
    inputs: dict[str, Input] = Field(default_factory=dict)
    table: ResultTable | None = None
    criteria: tuple[Criterion, ...] = ()
    parts: tuple[Part, ...] = Field((), description="The parts it speaks of; all in the table if left out.")
    load_cases: tuple[LoadCase, ...] = ()
    author: Owner | None = None
    checker: Owner | None = None
