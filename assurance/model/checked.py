"""What `check` answers, in every format: small enough to be kept and told again while nothing changed."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from assurance.model.verdicts import Finding, Place, Verdict


@dataclass(frozen=True, slots=True)
class ClaimVerdict:
    """The verdict of one claim, and where the claim is written."""

    id: str
    verdict: Verdict
    place: Place


@dataclass(frozen=True, slots=True)
class Checked:
    """The findings of a case on one day, with the verdict of every claim.

    `top_claims` names the top claim of each stage; `claims` are in order of their ids.
    """

    case: str
    as_of: date | None
    top_claims: Mapping[str, str]
    claims: tuple[ClaimVerdict, ...]
    findings: tuple[Finding, ...]
