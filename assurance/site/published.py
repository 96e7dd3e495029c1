"""What `assessment.json` holds, as models: the schema that other tools may rely on is made from them."""

import json
from datetime import date
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from assurance.model.verdicts import ReasonKind, Weight

VerdictWord = Literal["holds", "provisional", "out of date", "open", "fails"]


class Published(BaseModel):
    """A part of the published data; every key is described and none is left out."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class PublishedReason(Published):
    """Why a claim does not hold: a cause of its own, or of kind `needs` a record that it needs."""

    record: str = Field(description="Where the fault lies, or the record that is needed.")
    kind: ReasonKind = Field(description="What sort of fault; each but `needs` is a rule of the same name.")
    verdict: VerdictWord = Field(description="What it brings to the claim.")
    text: str = Field(description="What is wrong, in a sentence.")
    file: str = Field(description="The file in which the fault lies, from the folder of the case.")
    line: int = Field(description="Its line there, from 1; 0 where it has none.")


class PublishedClaim(Published):
    """A claim: what is concluded, and why."""

    statement: str = Field(description="The claim, as it is written.")
    verdict: VerdictWord = Field(description="What is concluded about it.")
    reasons: list[PublishedReason] = Field(description="Why it does not hold; empty where it does.")


class PublishedResult(Published):
    """A result; `value` is null where it could not be worked out."""

    value: float | None = Field(description="The number, or null.")
    unit: str = Field(description="Its unit; empty for a plain number.")
    lower: float | None = Field(description="Lower end of its interval, or null.")
    upper: float | None = Field(description="Upper end of its interval, or null.")
    tag: Literal["computed", "judged"] = Field(description="Worked out by the builder, or read by somebody.")
    by: str = Field(description="Who read a judged value.")
    why_not: str = Field(description="Why there is no value.")


class PublishedFinding(Published):
    """One thing that a rule or the reading reports."""

    rule: str = Field(description="The rule that reports it.")
    weight: Weight = Field(description="What `check` does about it.")
    record: str = Field(description="The record it speaks of; empty where it is none.")
    file: str = Field(description="The file, from the folder of the case.")
    line: int = Field(description="The line, from 1; 0 where it has none.")
    column: int = Field(description="The column, from 1; 0 where it has none.")
    message: str = Field(description="What is wrong, in a sentence.")
    remedy: str = Field(description="What puts it right.")


class PublishedMissing(Published):
    """One cause above which a top claim does not hold."""

    record: str = Field(description="Where the fault lies.")
    claim: str = Field(description="The nearest claim above the fault.")
    kind: ReasonKind = Field(description="What sort of fault; a rule has the same name.")
    text: str = Field(description="What is wrong, in a sentence.")
    remedy: str = Field(description="What puts it right.")
    owner: str = Field(description="Whose it is; empty where nobody is named.")
    due: date | None = Field(description="The day by which it is due, or null.")
    verdict: VerdictWord = Field(description="What it brings.")
    frees: int = Field(description="Claims whose verdict would rise if this cause alone were gone.")
    file: str = Field(description="The file in which it lies, from the folder of the case.")
    line: int = Field(description="Its line there, from 1; 0 where it has none.")


class PublishedRisk(Published):
    """A risk by the words of the scheme."""

    severity: str = Field(description="How bad the harm is.")
    likelihood: str = Field(description="How likely it is.")
    level: str = Field(description="The level of both together.")


class PublishedHazard(Published):
    """The risk of a hazard before its controls, now, and after; null where it is not rated."""

    title: str = Field(description="The hazard in a few words.")
    verdict: VerdictWord = Field(description="What is concluded about it.")
    risk_before: PublishedRisk | None = Field(description="Without any control.")
    risk_now: PublishedRisk | None = Field(description="With the controls that count.")
    risk_after: PublishedRisk | None = Field(description="As it is aimed at.")


class PublishedCause(Published):
    """One cause of a failure mode: severity times occurrence times detection, before and now."""

    id: str = Field(description="The name of the cause.")
    text: str = Field(description="The cause in words.")
    rpn_before: int | None = Field(description="The product before any action, or null.")
    rpn_now: int | None = Field(description="The product with the actions that count, or null.")


class PublishedFailureMode(Published):
    """A failure mode with the ratings of its causes."""

    title: str = Field(description="The failure mode in a few words.")
    verdict: VerdictWord = Field(description="What is concluded about it.")
    causes: list[PublishedCause] = Field(description="Its causes, with their products.")


class PublishedEvidence(Published):
    """An evidence record and who relies on it."""

    title: str = Field(description="What it is called.")
    verdict: VerdictWord = Field(description="What is concluded about it.")
    used_by: list[str] = Field(description="Ids of the records that rely on it.")


class PublishedAssessment(Published):
    """Everything concluded about a case on one day."""

    version: str = Field(description="Version of the program that worked this out.")
    case: str = Field(description="The id of the case.")
    as_of: date | None = Field(description="The day that is judged, or null.")
    top_claims: dict[str, str] = Field(description="The claim that concludes, by stage.")
    verdicts: dict[str, VerdictWord] = Field(description="The verdict of every record.")
    claims: dict[str, PublishedClaim] = Field(description="Every claim by its id.")
    results: dict[str, PublishedResult] = Field(description="By `record.result`.")
    findings: list[PublishedFinding] = Field(description="What the rules and the reading report.")
    missing: list[PublishedMissing] = Field(description="What stands between today and the use, worst first.")
    failure_modes: dict[str, PublishedFailureMode] = Field(description="Every failure mode by its id.")
    hazards: dict[str, PublishedHazard] = Field(description="Every hazard by its id.")
    evidence: dict[str, PublishedEvidence] = Field(description="Every evidence record by its id.")


def schema_text() -> str:
    """The schema as the file that the site carries; a test holds the file to it."""
    return json.dumps(published_schema(), ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def published_schema() -> dict[str, Any]:
    """The JSON Schema of `assessment.json`."""
    described = PublishedAssessment.model_json_schema(mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **described}
