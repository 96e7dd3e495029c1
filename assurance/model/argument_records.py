"""Records of the case itself and of its argument: claims, assumptions, contexts, challenges, actions."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from assurance.model.fields import (
    Claim,
    Day,
    Evidence,
    Ground,
    Owner,
    Quantity,
    Range,
    Record,
    Refers,
    Result,
    Text,
)

PRECEDENCE = ("design", "safeguard", "warning", "procedure", "protective")
ControlType = Literal["design", "safeguard", "warning", "procedure", "protective"]


class Person(Record):
    """Somebody of the case."""

    short_form: ClassVar[tuple[str, ...]] = ("name",)
    name: Text
    organisation: Text | None = None
    roles: tuple[Text, ...] = ()


class Organisation(Record):
    """A body that makes, tests or works something out."""

    short_form: ClassVar[tuple[str, ...]] = ("name",)
    name: Text


class Case(Record):
    """The case: what the item is, which claim concludes, as of which day, and who takes part."""

    title: Text
    item: Text | None = Field(None, description="The thing the case is about.")
    issue: Text | None = Field(None, description="Issue of the case.")
    notice: Text | None = Field(None, description="A line shown on top of every page.")
    top_claims: dict[Literal["use"], Claim] = Field(
        default_factory=dict, description="The claim that concludes, for each stage; `use` without stages."
    )
    as_of: Day | None = Field(None, description="The day for which the verdicts are worked out.")
    quantities: tuple[Text, ...] = Field((), description="The words for what is tested or worked out.")
    organisations: dict[str, Organisation] = Field(default_factory=dict)
    people: dict[str, Person] = Field(default_factory=dict)


class Condition(Record):
    """One parameter of the conditions of use."""

    title: Text
    range: Range | None = None
    values: tuple[Text, ...] = ()
    kept_by: Text | None = Field(None, description="What keeps the use inside.")
    measured_by: Text | None = Field(None, description="How it is measured on the day.")
    fails_outside: Text | None = Field(None, description="What goes wrong outside.")


class Requirement(Record):
    """What is asked, by whom, and the value that a check may use as its limit."""

    statement: Text
    value: Quantity | None = None
    source: Text | None = None
    edition: Text | None = None
    clause: Text | None = None
    verified_by: Text | None = None


class Limit(Record):
    """What a result is compared with: a quantity, or the id of a requirement or factor."""

    short_form: ClassVar[tuple[str, ...]] = ("value", "record")
    value: Quantity | None = None
    record: Annotated[str | None, Refers(("requirements", "factors"))] = None


class Check(Record):
    """One comparison of a result with a limit."""

    result: Result | None = None
    at_least: Limit | None = None
    at_most: Limit | None = None
    because: Text | None = Field(None, description="Why this limit, or why the nominal value is judged.")
    judge_by: Literal["adverse", "nominal"] = "adverse"


class Support(Record):
    """Something an argument rests on, what it shows and where that stands."""

    short_form: ClassVar[tuple[str, ...]] = ("record",)
    record: Ground
    shows: Text | None = None
    where: Text | None = None


class Over(Record):
    """A set of records, each member of which the argument must reach."""

    short_form: ClassVar[tuple[str, ...]] = ("kind",)
    kind: Literal["load_cases", "hazards", "parts"]
    members: tuple[Annotated[str, Refers(("load_cases", "hazards", "parts"))], ...] | None = None
    because: Text | None = None


class Argument(Record):
    """Why the claim should be believed."""

    because: Text | None = None
    over: Over | None = None
    checks: tuple[Check, ...] = ()
    rests_on: tuple[Support, ...] = ()


class Undeveloped(Record):
    """A claim whose argument is still to come."""

    because: Text | None = None
    owner: Owner | None = None
    due: Day | None = None


class Retired(Record):
    """A record that is kept but no longer counts, once reason, person and date are all given."""

    because: Text | None = None
    by: Owner | None = None
    date: Day | None = None


class ClaimRecord(Record):
    """A statement that is true or false, with the argument for it."""

    statement: Text
    about: tuple[Annotated[str, Refers(("parts", "hazards", "load_cases"))], ...] = ()
    quantity: Text | None = Field(None, description="One of the quantities of the case.")
    argument: Argument | None = None
    arguments: dict[str, Argument] = Field(default_factory=dict)
    holds_if: Literal["all", "any"] = "all"
    context: tuple[Annotated[str, Refers(("contexts",))], ...] = ()
    assumes: tuple[Annotated[str, Refers(("assumptions",))], ...] = ()
    undeveloped: Undeveloped | None = None
    retired: Retired | None = None
    owner: Owner | None = None

    def each_argument(self) -> dict[str, Argument]:
        """Its arguments by name; the single one has the name `argument`."""
        return {"argument": self.argument, **self.arguments} if self.argument else self.arguments


class Assumption(Record):
    """Something taken as true."""

    statement: Text
    owner: Owner | None = None
    state: Literal["unconfirmed", "confirmed", "refuted"] = "unconfirmed"
    confirmed_by: tuple[Ground, ...] = ()
    review_date: Day | None = None
    retired: Retired | None = None


class Context(Record):
    """A definition, scope or reference that claims are read within."""

    statement: Text


class Challenge(Record):
    """A doubt or counter-evidence against a record or one argument of a claim."""

    against: Annotated[str, Refers(("*",), "any")]
    doubt: Text
    state: Literal["raised", "answered", "upheld"] = "raised"
    raised_by: Owner | None = None
    date: Day | None = None
    owner: Owner | None = None
    due: Day | None = None
    answer: Text | None = None
    answer_rests_on: tuple[Ground, ...] = ()
    closed_by: Owner | None = None
    dissent: Text | None = None


class ActionThen(Record):
    """What an action changes once it is done and shown."""

    severity: int | None = Field(None, ge=1, le=10)
    occurrence: int | None = Field(None, ge=1, le=10)
    detection: int | None = Field(None, ge=1, le=10)


class Action(Record):
    """Something to do on a record."""

    what: Text
    on: Annotated[str, Refers(("*",), "any")]
    type: ControlType | None = Field(None, description="The kind of change, in order of precedence.")
    then: ActionThen | None = None
    owner: Owner | None = None
    due: Day | None = None
    needed_before: Literal["use"] | None = None
    done: Day | None = None
    closing_evidence: tuple[Evidence, ...] = ()
