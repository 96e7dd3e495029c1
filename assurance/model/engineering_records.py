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
    file: File = Field(description="The file, named from the YAML file it is written in.")
    sha256: Sha256 | None = Field(None, description="The sha256 of the file when it was issued, in hex.")


class TestedPart(Record):
    """Which part the evidence is about, in which issue, which serial."""

    short_form: ClassVar[tuple[str, ...]] = ("part",)
    part: Part = Field(description="The part that was tested or looked at.")
    issue: Text | None = Field(None, description="Its issue then.")
    serial: Text | None = Field(None, description="Its serial number.")
    quantity: Annotated[int | None, Field(ge=1, description="How many pieces.")] = None


class Anomaly(Record):
    """Something that was not as it should be. Its disposition counts once it has been accepted."""

    short_form: ClassVar[tuple[str, ...]] = ("what",)
    what: Text = Field(description="What was not as it should be.")
    disposition: Text | None = Field(None, description="What was decided about it, and why.")


class TypedResult(Record):
    """A value read from a report."""

    short_form: ClassVar[tuple[str, ...]] = ("value",)
    value: Quantity = Field(description="The value with its unit, and its uncertainty where that is known.")
    where: Text | None = Field(None, description="Section, table or page of the report.")
    read_by: Owner | None = Field(None, description="Who read it there.")


class EvidenceRecord(Record):
    """Something outside the argument: a test, an inspection, a report, a certificate."""

    title: Text = Field(description="What it is called.")
    kind: Literal[
        "test", "inspection", "analysis", "certificate", "procedure", "review", "service", "data"
    ] = Field(description="What sort of record it is.")
    files: tuple[DataFile, ...] = Field((), description="The files that hold it, each with its sha256.")
    revision: Text | None = Field(None, description="Revision of the document.")
    date: Day | None = Field(None, description="The day of the test or of the document.")
    producer: Owner | None = Field(None, description="Who made it.")
    parts: tuple[TestedPart, ...] = Field((), description="Which parts it is about, with issue and serial.")
    quantity: Text | None = Field(None, description="One of the quantities of the case.")
    outcome: Literal["passed", "failed", "stopped early", "inconclusive"] | None = Field(
        None, description="How it ended; a test, inspection or review without one counts as adverse."
    )
    anomalies: tuple[Anomaly, ...] = Field((), description="What was not as it should be.")
    not_applicable: dict[Literal["part", "issue", "serial", "date"], Text] = Field(
        default_factory=dict, description="Why part, issue, serial or date is left out, by that word."
    )
    results: dict[str, TypedResult] = Field(default_factory=dict, description="Values read from it, by name.")
    state: Literal["draft", "issued", "superseded", "withdrawn"] = Field(
        "draft", description="Where it stands; `issued` needs a file or a result."
    )
    superseded_by: Annotated[str | None, Refers(("evidence",))] = Field(
        None, description="The evidence that takes its place."
    )


class PartIssue(Record):
    """An issue of a part and what it changed."""

    short_form: ClassVar[tuple[str, ...]] = ("issue",)
    issue: Text = Field(description="Its letter or number.")
    changed: Text | None = Field(None, description="What it changed.")


class PartRecord(Record):
    """Something the item is made of."""

    title: Text = Field(description="What the part is called.")
    issues: tuple[PartIssue, ...] = Field((), description="Its issues, oldest first.")
    load_path: Literal["single", "redundant"] | None = Field(
        None,
        description="Whether another path carries the load if it fails; `single` needs A-basis strengths.",
    )
    part_of: Annotated[str | None, Refers(("parts",))] = Field(
        None, description="The assembly it belongs to."
    )
    material: Annotated[str | None, Refers(("materials",))] = Field(
        None, description="The material it is made of."
    )
    made_by: Owner | None = Field(None, description="Who makes it.")


class Property(Record):
    """One property of a material, with the basis of the number and where it comes from."""

    value: Quantity | None = Field(None, description="The value with its unit.")
    result: Annotated[str | None, Refers(("calculations", "evidence"), "result")] = Field(
        None, description="The result that gives the value, instead of `value`."
    )
    basis: Basis | None = Field(
        None,
        description=(
            "What the number promises: `A` 99 % and `B` 90 % of all pieces at 95 % confidence, "
            "`S` the minimum of a specification, or `mean`."
        ),
    )
    origin: Annotated[str | None, Refers(("evidence", "calculations"))] = Field(
        None, description="The evidence or calculation that the value comes from."
    )
    source: Text | None = Field(None, description="The handbook or specification that the value comes from.")


class Material(Record):
    """A material and its properties."""

    title: Text = Field(description="What the material is called.")
    properties: dict[str, Property] = Field(default_factory=dict, description="Its properties by name.")


class AppliesTo(Record):
    """Where a factor applies; what is left out is not narrowed."""

    criteria: tuple[Text, ...] = Field(default=(), description="The criteria it applies to.")
    parts: tuple[Part, ...] = Field(default=(), description="The parts it applies to.")
    load_cases: tuple[LoadCase, ...] = Field(default=(), description="The load cases it applies to.")


class FactorRecord(Record):
    """A factor of safety, a special factor, or one more factor that multiplies."""

    title: Text = Field(description="What the factor is called.")
    kind: Literal["safety", "special", "multiply"] = Field(
        description="`safety` applies once, of all `special` only the highest, every `multiply`."
    )
    value: Quantity = Field(description="The factor, a plain number.")
    source: Text | None = Field(None, description="The standard or document that asks for it.")
    edition: Text | None = Field(None, description="Edition, clause or table of the source.")
    applies_to: AppliesTo = Field(AppliesTo(), description="Where it applies; everywhere if left out.")


class LoadCaseRecord(Record):
    """A load case, its limit load or where that comes from, and the factors already in it."""

    title: Text = Field(description="What the load case is called.")
    value: Quantity | None = Field(None, description="The limit load, with its unit.")
    result: Annotated[str | None, Refers(("calculations", "evidence"), "result")] = Field(
        None, description="The result that gives the limit load, instead of `value`."
    )
    already_in: tuple[Factor, ...] = Field(
        (), description="Factors that the load already holds and that are not put on again."
    )


class Input(Record):
    """What a method gets: a value, a reference, a word, or a column of a data file."""

    short_form: ClassVar[tuple[str, ...]] = ("value", "text")
    value: Quantity | None = Field(None, description="A number with its unit.")
    result: Annotated[str | None, Refers(("calculations", "evidence"), "result")] = Field(
        None, description="A result of another record."
    )
    material: Annotated[str | None, Refers(("materials",), "property")] = Field(
        None, description="A property of a material."
    )
    factor: Annotated[str | None, Refers(("factors",))] = Field(None, description="A factor, for its value.")
    load_case: Annotated[str | None, Refers(("load_cases",))] = Field(
        None, description="A load case, for its limit load."
    )
    text: Text | None = Field(None, description="A word, where the method asks for one.")
    file: File | None = Field(None, description="A data file, named from this YAML file.")
    column: Text | None = Field(None, description="The heading of the column to take.")
    unit: str | None = Field(None, description="Unit of the column.")
    where: dict[str, Text] = Field(
        default_factory=dict, description="Only rows that hold this word, by the heading of the column."
    )


class ResultTable(Record):
    """A table from a stress program: which columns mean what, in which unit."""

    file: File = Field(description="The CSV or Parquet file, named from this YAML file.")
    columns: dict[Literal["part", "load_case", "row", "sxx", "syy", "szz", "sxy", "syz", "szx"], Text] = (
        Field(description="The heading of each column that is used.")
    )
    unit: str = Field(description="Unit of the stress columns.")
    parts: dict[str, Part] = Field(
        default_factory=dict, description="The part that each word of the table means."
    )
    load_cases: dict[str, LoadCase] = Field(
        default_factory=dict, description="The load case that each word of the table means."
    )
    already_in: tuple[Factor, ...] = Field(
        (), description="Factors that the stresses already hold and that are not put on again."
    )


class Allowable(Record):
    """What a stress is compared with."""

    short_form: ClassVar[tuple[str, ...]] = ("value", "material")
    value: Quantity | None = Field(None, description="The allowable with its unit.")
    material: MaterialProperty | None = Field(None, description="The material property it is.")
    result: Result | None = Field(None, description="The result that gives it.")


class Criterion(Record):
    """One way in which a part can fail: which stress, against which allowable, for which parts."""

    criterion: Text = Field(description="The name of the criterion, such as `yield`.")
    stress: Text = Field(description="`von_mises`, `max_principal`, `max_shear`, or the heading of a column.")
    allowable: Allowable = Field(description="What the stress is compared with.")
    parts: tuple[Part, ...] = Field((), description="The parts it is asked of; all if left out.")


class Calculation(Record):
    """A method and what it is given."""

    title: Text = Field(description="What is worked out.")
    method: Text = Field(description="The name of the method.")
    inputs: dict[str, Input] = Field(
        default_factory=dict, description="What the method gets, by the name of the input."
    )
    table: ResultTable | None = Field(None, description="A table of stresses to read, for `reserve_factors`.")
    criteria: tuple[Criterion, ...] = Field(
        (), description="The ways to fail that are worked out for each row of the table."
    )
    parts: tuple[Part, ...] = Field((), description="The parts it speaks of; all in the table if left out.")
    load_cases: tuple[LoadCase, ...] = Field(
        (), description="The load cases it speaks of; all in the table if left out."
    )
    author: Owner | None = Field(None, description="Who set it up.")
    checker: Owner | None = Field(None, description="Who checked it; not the author.")
