"""Which kinds of record a case may hold, by the top-level key they are written under."""

from assurance.model import argument_records as argument
from assurance.model import engineering_records as engineering
from assurance.model import risk_records as risk
from assurance.model.entry import SINGULAR, Entry, by_kind
from assurance.model.fields import Record

KINDS: dict[str, type[Record]] = {
    "case": argument.Case,
    "conditions": argument.Condition,
    "requirements": argument.Requirement,
    "claims": argument.ClaimRecord,
    "assumptions": argument.Assumption,
    "contexts": argument.Context,
    "challenges": argument.Challenge,
    "evidence": engineering.EvidenceRecord,
    "calculations": engineering.Calculation,
    "parts": engineering.PartRecord,
    "materials": engineering.Material,
    "factors": engineering.FactorRecord,
    "load_cases": engineering.LoadCaseRecord,
    "hazards": risk.Hazard,
    "failure_modes": risk.FailureMode,
    "rating_scales": risk.RatingScale,
    "risk_scheme": risk.RiskScheme,
    "actions": argument.Action,
}

__all__ = ["KINDS", "SINGULAR", "Entry", "by_kind"]
