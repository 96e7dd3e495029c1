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
    kind: ReasonKind
    verdict: VerdictWord
    text: str
    file: str
    line: int


class PublishedClaim(Published):
    """A claim: what is concluded, and why."""

    statement: str
    verdict: VerdictWord
    reasons: list[PublishedReason]


class PublishedResult(Published):
    """A result; `value` is null where it could not be worked out."""

    value: float | None
    unit: str
    lower: float | None
    upper: float | None
    tag: Literal["computed", "judged"]
    by: str = Field(description="Who read a judged value.")
    why_not: str = Field(description="Why there is no value.")


class PublishedFinding(Published):
    """One thing that a rule or the reading reports."""

    rule: str
    weight: Weight
    record: str
    file: str
    line: int
    column: int
    message: str
    remedy: str


class PublishedMissing(Published):
    """One cause above which a top claim does not hold."""

    record: str
    claim: str
    kind: ReasonKind
    text: str
    remedy: str
    owner: str
    due: date | None
    verdict: VerdictWord
    frees: int = Field(description="Claims whose verdict would rise if this cause alone were gone.")
    file: str
    line: int


class PublishedRisk(Published):
    """A risk by the words of the scheme."""

    severity: str
    likelihood: str
    level: str


class PublishedHazard(Published):
    """The risk of a hazard before its controls, now, and after; null where it is not rated."""

    title: str
    verdict: VerdictWord
    risk_before: PublishedRisk | None
    risk_now: PublishedRisk | None
    risk_after: PublishedRisk | None


class PublishedCause(Published):
    """One cause of a failure mode: severity times occurrence times detection, before and now."""

    id: str
    text: str
    rpn_before: int | None
    rpn_now: int | None


class PublishedFailureMode(Published):
    """A failure mode with the ratings of its causes."""

    title: str
    verdict: VerdictWord
    causes: list[PublishedCause]


class PublishedEvidence(Published):
    """An evidence record and who relies on it."""

    title: str
    verdict: VerdictWord
    used_by: list[str]


class PublishedAssessment(Published):
    """Everything concluded about a case on one day."""

    version: str = Field(description="Version of the program that worked this out.")
    case: str
    as_of: date | None
    top_claims: dict[str, str]
    verdicts: dict[str, VerdictWord] = Field(description="The verdict of every record.")
    claims: dict[str, PublishedClaim]
    results: dict[str, PublishedResult] = Field(description="By `record.result`.")
    findings: list[PublishedFinding]
    missing: list[PublishedMissing]
    failure_modes: dict[str, PublishedFailureMode]
    hazards: dict[str, PublishedHazard]
    evidence: dict[str, PublishedEvidence]


def schema_text() -> str:
    """The schema as the file that the site carries; a test holds the file to it."""
    return json.dumps(published_schema(), ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def published_schema() -> dict[str, Any]:
    """The JSON Schema of `assessment.json`."""
    described = PublishedAssessment.model_json_schema(mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **described}
