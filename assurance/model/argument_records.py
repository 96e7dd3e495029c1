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
    name: Text = Field(description="Name as the pages show it.")
    organisation: Text | None = Field(None, description="The organisation this person works for.")
    roles: tuple[Text, ...] = Field(
        (), description="Words for what the person does in the case; a role may stand wherever a person may."
    )


class Organisation(Record):
    """A body that makes, tests or works something out."""

    short_form: ClassVar[tuple[str, ...]] = ("name",)
    name: Text = Field(description="Name as the pages show it.")


class Case(Record):
    """The case: what the item is, which claim concludes, as of which day, and who takes part."""

    title: Text = Field(description="What the case is called.")
    item: Text | None = Field(None, description="The thing the case is about.")
    issue: Text | None = Field(None, description="Issue of the case.")
    notice: Text | None = Field(None, description="A line shown on top of every page.")
    top_claims: dict[Literal["use"], Claim] = Field(
        default_factory=dict, description="The claim that concludes, for each stage; `use` without stages."
    )
    as_of: Day | None = Field(None, description="The day for which the verdicts are worked out.")
    quantities: tuple[Text, ...] = Field((), description="The words for what is tested or worked out.")
    organisations: dict[str, Organisation] = Field(
        default_factory=dict, description="Who makes, tests or works something out, by id."
    )
    people: dict[str, Person] = Field(
        default_factory=dict, description="Who owns, checks and produces, by id."
    )


class Condition(Record):
    """One parameter of the conditions of use."""

    title: Text = Field(description="The parameter in words.")
    range: Range | None = Field(None, description="Allowed range with its unit, ends included.")
    values: tuple[Text, ...] = Field((), description="Allowed words, where it is no number.")
    kept_by: Text | None = Field(None, description="What keeps the use inside.")
    measured_by: Text | None = Field(None, description="How it is measured on the day.")
    fails_outside: Text | None = Field(None, description="What goes wrong outside.")


class Requirement(Record):
    """What is asked, by whom, and the value that a check may use as its limit."""

    statement: Text = Field(description="What is asked, in one sentence.")
    value: Quantity | None = Field(None, description="The value that a check may use as its limit.")
    source: Text | None = Field(None, description="Who asks: the standard or document.")
    edition: Text | None = Field(None, description="Edition of the source.")
    clause: Text | None = Field(None, description="Clause, table or page of the source.")
    verified_by: Text | None = Field(None, description="How it is shown to be met.")


class Limit(Record):
    """What a result is compared with: a quantity, or the id of a requirement or factor."""

    short_form: ClassVar[tuple[str, ...]] = ("value", "record")
    value: Quantity | None = Field(None, description="The limit as a number with a unit.")
    record: Annotated[str | None, Refers(("requirements", "factors"))] = Field(
        None, description="The requirement or factor that gives the limit."
    )


class Check(Record):
    """One comparison of a result with a limit."""

    result: Result | None = Field(None, description="The result to compare, as `record.result`.")
    at_least: Limit | None = Field(
        None, description="Lowest value that passes: a quantity, a requirement or a factor."
    )
    at_most: Limit | None = Field(
        None, description="Highest value that passes: a quantity, a requirement or a factor."
    )
    because: Text | None = Field(None, description="Why this limit, or why the nominal value is judged.")
    judge_by: Literal["adverse", "nominal"] = Field(
        "adverse",
        description="Which end of a stated uncertainty is compared; `nominal` needs a `because`.",
    )


class Support(Record):
    """Something an argument rests on, what it shows and where that stands."""

    short_form: ClassVar[tuple[str, ...]] = ("record",)
    record: Ground = Field(description="The claim, evidence or calculation that the argument rests on.")
    shows: Text | None = Field(None, description="What it shows that matters here.")
    where: Text | None = Field(None, description="Where in the document that stands.")


class Over(Record):
    """A set of records, each member of which the argument must reach."""

    short_form: ClassVar[tuple[str, ...]] = ("kind",)
    kind: Literal["load_cases", "hazards", "parts"] = Field(
        description="The kind of record that the set is made of."
    )
    members: tuple[Annotated[str, Refers(("load_cases", "hazards", "parts"))], ...] | None = Field(
        None, description="The members, where they are not all records of that kind."
    )
    because: Text | None = Field(None, description="Why these members are enough.")


class Argument(Record):
    """Why the claim should be believed."""

    because: Text | None = Field(None, description="Why the claim follows from what stands below it.")
    over: Over | None = Field(None, description="A set of records, each of which the argument must reach.")
    checks: tuple[Check, ...] = Field((), description="Results compared with limits.")
    rests_on: tuple[Support, ...] = Field(
        (), description="Claims, evidence and calculations that it rests on."
    )


class Undeveloped(Record):
    """A claim whose argument is still to come."""

    because: Text | None = Field(None, description="Why the argument is still to come.")
    owner: Owner | None = Field(None, description="Who is to write it.")
    due: Day | None = Field(None, description="The day by which it is to be there.")


class Retired(Record):
    """A record that is kept but no longer counts, once reason, person and date are all given."""

    because: Text | None = Field(None, description="Why the record no longer counts.")
    by: Owner | None = Field(None, description="Who decided that.")
    date: Day | None = Field(None, description="When that was decided.")


class ClaimRecord(Record):
    """A statement that is true or false, with the argument for it."""

    statement: Text = Field(description="The claim: one sentence that is true or false.")
    about: tuple[Annotated[str, Refers(("parts", "hazards", "load_cases"))], ...] = Field(
        (), description="The parts, hazards and load cases that it speaks of."
    )
    quantity: Text | None = Field(None, description="One of the quantities of the case.")
    argument: Argument | None = Field(None, description="Why it should be believed.")
    arguments: dict[str, Argument] = Field(
        default_factory=dict, description="Several arguments by name, instead of one."
    )
    holds_if: Literal["all", "any"] = Field(
        "all", description="Whether all of several arguments must hold, or any one of them."
    )
    context: tuple[Annotated[str, Refers(("contexts",))], ...] = Field(
        (), description="The contexts it is read within."
    )
    assumes: tuple[Annotated[str, Refers(("assumptions",))], ...] = Field(
        (), description="The assumptions it makes."
    )
    undeveloped: Undeveloped | None = Field(
        None, description="Stands instead of an argument that is still to come."
    )
    retired: Retired | None = Field(None, description="Says that the claim no longer counts, and why.")
    owner: Owner | None = Field(None, description="Whom to ask about it.")

    def each_argument(self) -> dict[str, Argument]:
        """Its arguments by name; the single one has the name `argument`."""
        return {"argument": self.argument, **self.arguments} if self.argument else self.arguments


class Assumption(Record):
    """Something taken as true."""

    statement: Text = Field(description="What is taken as true, in one sentence.")
    owner: Owner | None = Field(None, description="Whom to ask about it.")
    state: Literal["unconfirmed", "confirmed", "refuted"] = Field(
        "unconfirmed",
        description="What is known of it; `confirmed` counts only while all under `confirmed_by` hold.",
    )
    confirmed_by: tuple[Ground, ...] = Field((), description="What shows that it is true.")
    review_date: Day | None = Field(
        None, description="The day until which it may be relied on without another look."
    )
    retired: Retired | None = Field(None, description="Says that the assumption no longer counts, and why.")


class Context(Record):
    """A definition, scope or reference that claims are read within."""

    statement: Text = Field(description="The definition, scope or reference, in words.")


class Challenge(Record):
    """A doubt or counter-evidence against a record or one argument of a claim."""

    against: Annotated[str, Refers(("*",), "any")] = Field(
        description="The record that is doubted, or `claim.argument` for one argument."
    )
    doubt: Text = Field(description="The doubt, or what speaks against the record.")
    state: Literal["raised", "answered", "upheld"] = Field(
        "raised",
        description="Where it stands; `answered` counts only while all under `answer_rests_on` hold.",
    )
    raised_by: Owner | None = Field(None, description="Who raised it.")
    date: Day | None = Field(None, description="When it was raised.")
    owner: Owner | None = Field(None, description="Who is to answer it.")
    due: Day | None = Field(None, description="The day by which it is to be answered.")
    answer: Text | None = Field(None, description="The answer in words.")
    answer_rests_on: tuple[Ground, ...] = Field((), description="What the answer rests on.")
    closed_by: Owner | None = Field(None, description="Who accepted the answer.")
    dissent: Text | None = Field(None, description="What is still disputed.")


class ActionThen(Record):
    """What an action changes once it is done and shown."""

    severity: int | None = Field(None, ge=1, le=10, description="Severity from then on, 1 to 10.")
    occurrence: int | None = Field(None, ge=1, le=10, description="Occurrence from then on, 1 to 10.")
    detection: int | None = Field(None, ge=1, le=10, description="Detection from then on, 1 to 10.")


class Action(Record):
    """Something to do on a record."""

    what: Text = Field(description="What is to be done.")
    on: Annotated[str, Refers(("*",), "any")] = Field(
        description="The record it works on; `mode.cause` for one cause of a failure mode."
    )
    type: ControlType | None = Field(None, description="The kind of change, in order of precedence.")
    then: ActionThen | None = Field(None, description="The ratings it changes, once it is done and shown.")
    owner: Owner | None = Field(None, description="Who is to do it.")
    due: Day | None = Field(None, description="The day by which it is to be done.")
    needed_before: Literal["use"] | None = Field(
        None, description="The stage that may not begin before it is done and shown."
    )
    done: Day | None = Field(None, description="The day on which it was done.")
    closing_evidence: tuple[Evidence, ...] = Field((), description="Evidence that it was done.")
