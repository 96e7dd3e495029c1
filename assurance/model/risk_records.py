"""Records of risk: hazards and their controls, failure modes, rating scales, the risk scheme."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from assurance.model.argument_records import ControlType, Retired
from assurance.model.fields import Claim, Ground, Owner, Part, Rating, Record, Refers, Text


class Risk(Record):
    """A severity and a likelihood, by the words or the codes of the scheme."""

    severity: Text | None = Field(None, description="How bad the harm is.")
    likelihood: Text | None = Field(None, description="How likely the harm is.")


class RiskWith(Record):
    """The risk with a stated set of controls in place."""

    severity: Text | None = Field(None, description="How bad the harm is with these controls.")
    likelihood: Text | None = Field(None, description="How likely the harm is with these controls.")
    controls: tuple[str, ...] = Field((), description="The controls this rating counts on.")


class Control(Record):
    """Something that holds a hazard back, and what shows that it is there and that it works."""

    text: Text = Field(description="What the control is.")
    type: ControlType | None = Field(None, description="Its kind, in order of precedence.")
    reduces: tuple[Literal["severity", "likelihood"], ...] = Field((), description="What it lowers.")
    check_interval: Text | None = Field(None, description="How often it is looked at.")
    implemented_by: tuple[Ground, ...] = Field((), description="What shows that it is there.")
    effective_by: tuple[Ground, ...] = Field((), description="What shows that it works.")


class HazardCause(Record):
    """What can lead to the hazard."""

    short_form: ClassVar[tuple[str, ...]] = ("text",)
    record: Annotated[str | None, Refers(("failure_modes",))] = Field(
        None, description="The failure mode that leads to it."
    )
    text: Text | None = Field(None, description="The cause in words, where no record describes it.")


class Hazard(Record):
    """What can hurt someone, before, now and after its controls."""

    title: Text = Field(description="The hazard in a few words.")
    harm: Text | None = Field(None, description="What happens to the person.")
    exposed: Text | None = Field(None, description="Who is exposed.")
    life_phase: Text | None = Field(None, description="When in the life of the item it can happen.")
    causes: tuple[HazardCause, ...] = Field((), description="What can lead to it.")
    before: Risk | None = Field(None, description="The risk with no control in place.")
    controls: dict[str, Control] = Field(default_factory=dict, description="What holds it back, by name.")
    after: RiskWith | None = Field(None, description="The risk aimed at, with the controls it counts on.")
    risk_with: tuple[RiskWith, ...] = Field((), description="The risk with other sets of controls in place.")
    options_rejected: tuple[Text, ...] = Field(
        (), description="What else was thought of, and why it was not taken."
    )
    claim: Claim | None = Field(None, description="The claim that says the hazard is controlled.")
    owner: Owner | None = Field(None, description="Whom to ask about it.")
    retired: Retired | None = Field(None, description="Says that the hazard no longer counts, and why.")


class Effect(Record):
    """What follows from the mode, and how bad that is."""

    short_form: ClassVar[tuple[str, ...]] = ("text",)
    text: Text = Field(description="What follows.")
    severity: Rating | None = Field(None, description="How bad that is, 1 to 10 on the named scale.")


class FailureCause(Record):
    """One cause of the mode with its ratings on the named scale."""

    text: Text = Field(description="The cause in words.")
    occurrence: Rating | None = Field(None, description="How often it happens, 1 to 10 on the named scale.")
    detection: Rating | None = Field(
        None, description="How late it would be noticed, 1 to 10 on the named scale."
    )
    controls: tuple[Text, ...] = Field((), description="What prevents or finds it today, in words.")


class FailureMode(Record):
    """How an item can fail, with what effect and from which causes."""

    title: Text = Field(description="The failure mode in a few words.")
    item: Part | None = Field(None, description="The part that fails.")
    function: Text | None = Field(None, description="What the part is there for.")
    mode: Text | None = Field(None, description="How it fails.")
    scale: Annotated[str | None, Refers(("rating_scales",))] = Field(
        None, description="The scale of its ratings."
    )
    effects: tuple[Effect, ...] = Field((), description="What follows, each with its severity.")
    causes: dict[str, FailureCause] = Field(
        default_factory=dict, description="Its causes by name, each with its ratings."
    )
    owner: Owner | None = Field(None, description="Whom to ask about it.")
    retired: Retired | None = Field(None, description="Says that the failure mode no longer counts, and why.")


class RatingScale(Record):
    """What each rating from 1 to 10 means."""

    title: Text = Field(description="What the scale is called.")
    source: Text | None = Field(None, description="Where the scale comes from.")
    severity: dict[str, Text] = Field(
        default_factory=dict, description="What each severity means, by number."
    )
    occurrence: dict[str, Text] = Field(
        default_factory=dict, description="What each occurrence means, by number."
    )
    detection: dict[str, Text] = Field(
        default_factory=dict, description="What each detection means, by number."
    )


class RiskScheme(Record):
    """A risk matrix as data; where the case has none, MIL-STD-882E applies."""

    title: Text = Field(description="What the scheme is called.")
    source: Text | None = Field(None, description="Where the scheme comes from.")
    severities: tuple[Text, ...] = Field(description="The words for severity, worst first.")
    likelihoods: tuple[Text, ...] = Field(description="The words for likelihood, most likely first.")
    levels: tuple[Text, ...] = Field(description="The words for the level of a risk, worst first.")
    matrix: dict[str, tuple[Text, ...]] = Field(
        description="For each likelihood the level of every severity, in their order."
    )
