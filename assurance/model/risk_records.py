"""Records of risk: hazards and their controls, failure modes, rating scales, the risk scheme."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from assurance.model.argument_records import ControlType, Retired
from assurance.model.fields import Claim, Ground, Owner, Part, Rating, Record, Refers, Text


class Risk(Record):
    """A severity and a likelihood, by the words or the codes of the scheme."""

    severity: Text | None = None
    likelihood: Text | None = None


class RiskWith(Record):
    """The risk with a stated set of controls in place."""

    severity: Text | None = None
    likelihood: Text | None = None
    controls: tuple[str, ...] = Field((), description="The controls this rating counts on.")


class Control(Record):
    """Something that holds a hazard back, and what shows that it is there and that it works."""

    text: Text
    type: ControlType | None = None
    reduces: tuple[Literal["severity", "likelihood"], ...] = ()
    check_interval: Text | None = None
    implemented_by: tuple[Ground, ...] = ()
    effective_by: tuple[Ground, ...] = ()


class HazardCause(Record):
    """What can lead to the hazard."""

    short_form: ClassVar[tuple[str, ...]] = ("text",)
    record: Annotated[str | None, Refers(("failure_modes",))] = None
    text: Text | None = None


class Hazard(Record):
    """What can hurt someone, before, now and after its controls."""

    title: Text
    harm: Text | None = None
    exposed: Text | None = Field(None, description="Who is exposed.")
    life_phase: Text | None = None
    causes: tuple[HazardCause, ...] = ()
    before: Risk | None = None
    controls: dict[str, Control] = Field(default_factory=dict)
    after: RiskWith | None = None
    risk_with: tuple[RiskWith, ...] = ()
    options_rejected: tuple[Text, ...] = ()
    claim: Claim | None = None
    owner: Owner | None = None
    retired: Retired | None = None


class Effect(Record):
    """What follows from the mode, and how bad that is."""

    short_form: ClassVar[tuple[str, ...]] = ("text",)
    text: Text
    severity: Rating | None = None


class FailureCause(Record):
    """One cause of the mode with its ratings on the named scale."""

    text: Text
    occurrence: Rating | None = None
    detection: Rating | None = None
    controls: tuple[Text, ...] = ()


class FailureMode(Record):
    """How an item can fail, with what effect and from which causes."""

    title: Text
    item: Part | None = None
    function: Text | None = None
    mode: Text | None = None
    scale: Annotated[str | None, Refers(("rating_scales",))] = None
    effects: tuple[Effect, ...] = ()
    causes: dict[str, FailureCause] = Field(default_factory=dict)
    owner: Owner | None = None
    retired: Retired | None = None


class RatingScale(Record):
    """What each rating from 1 to 10 means."""

    title: Text
    source: Text | None = None
    severity: dict[str, Text] = Field(default_factory=dict)
    occurrence: dict[str, Text] = Field(default_factory=dict)
    detection: dict[str, Text] = Field(default_factory=dict)


class RiskScheme(Record):
    """A risk matrix as data; where the case has none, MIL-STD-882E applies."""

    title: Text
    source: Text | None = None
    severities: tuple[Text, ...] = Field(description="Worst first.")
    likelihoods: tuple[Text, ...] = Field(description="Most likely first.")
    levels: tuple[Text, ...] = Field(description="Worst first.")
    matrix: dict[str, tuple[Text, ...]] = Field(
        description="For each likelihood the level of every severity, in their order."
    )
