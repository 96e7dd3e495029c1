"""The data of the site as plain objects: what `assessment.json` and `check --format json` hold."""

import json
import math
from typing import Any

from assurance import __version__
from assurance.model import numbers
from assurance.model.assessment import Assessment, HazardOutcome, Rated, ResultValue
from assurance.model.case import CaseText
from assurance.model.verdicts import Finding, Missing, Reason


def assessment_json(assessment: Assessment, case: CaseText) -> dict[str, Any]:
    """Everything concluded, as plain values in a fixed order."""
    return {
        "version": __version__,
        "case": assessment.case or case.folder.name,
        "as_of": assessment.as_of.isoformat() if assessment.as_of else None,
        "top_claims": dict(sorted(assessment.top_claims.items())),
        "verdicts": {id_: assessment.verdicts[id_].word for id_ in sorted(assessment.verdicts)},
        "claims": {id_: _claim(assessment, id_) for id_ in assessment.of_kind("claims")},
        "results": {name: _result(assessment.results[name]) for name in sorted(assessment.results)},
        "findings": [_finding(one) for one in assessment.findings],
        "missing": [_missing(one) for one in assessment.missing],
        "failure_modes": {id_: _failure_mode(assessment, id_) for id_ in assessment.of_kind("failure_modes")},
        "hazards": {id_: _hazard(assessment, id_) for id_ in assessment.of_kind("hazards")},
        "evidence": {id_: _evidence(assessment, id_) for id_ in assessment.of_kind("evidence")},
    }


def as_text(data: dict[str, Any]) -> str:
    """The data as JSON text that is the same for the same case, each record on a line of its own."""
    return "{\n" + ",\n".join(f"{_json(key)}: {_in_lines(value)}" for key, value in data.items()) + "\n}\n"


def _in_lines(value: Any) -> str:
    if isinstance(value, dict) and value:
        return "{\n " + ",\n ".join(f"{_json(key)}: {_json(one)}" for key, one in value.items()) + "\n}"
    if isinstance(value, list) and value:
        return "[\n " + ",\n ".join(_json(one) for one in value) + "\n]"
    return _json(value)


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _word(assessment: Assessment, id_: str) -> str:
    return assessment.verdicts[id_].word if id_ in assessment.verdicts else "open"


def _text(assessment: Assessment, id_: str, field: str) -> str:
    return str(getattr(assessment.entries[id_].record, field, "") or "")


def _claim(assessment: Assessment, id_: str) -> dict[str, Any]:
    return {
        "statement": _text(assessment, id_, "statement"),
        "verdict": _word(assessment, id_),
        "reasons": [_reason(one) for one in assessment.reasons.get(id_, ())],
    }


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "record": reason.record,
        "kind": reason.kind.value,
        "verdict": reason.verdict.word,
        "text": reason.text,
        "file": reason.place.file,
        "line": reason.place.line,
    }


def _result(result: ResultValue) -> dict[str, Any]:
    def number(value: float | None) -> float | None:
        if value is None or not math.isfinite(value):
            return None  # JSON has no word for a number that is not defined
        return numbers.published(value, solved=result.solved)

    return {
        "value": number(result.value),
        "unit": result.unit,
        "lower": number(result.lower),
        "upper": number(result.upper),
        "tag": result.tag,
        "by": result.by,
        "why_not": result.why_not,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "weight": finding.weight.value,
        "record": finding.record,
        "file": finding.place.file,
        "line": finding.place.line,
        "column": finding.place.column,
        "message": finding.message,
        "remedy": finding.remedy,
    }


def _missing(missing: Missing) -> dict[str, Any]:
    return {
        "record": missing.record,
        "claim": missing.claim,
        "kind": missing.kind.value,
        "text": missing.text,
        "remedy": missing.remedy,
        "owner": missing.owner,
        "due": missing.due.isoformat() if missing.due else None,
        "verdict": missing.verdict.word,
        "frees": missing.frees,
        "file": missing.place.file,
        "line": missing.place.line,
    }


def _risk(rated: Rated | None) -> dict[str, str] | None:
    if rated is None:
        return None
    return {"severity": rated.severity, "likelihood": rated.likelihood, "level": rated.level}


def _hazard(assessment: Assessment, id_: str) -> dict[str, Any]:
    outcome = assessment.hazards.get(id_) or HazardOutcome(None, None, None, (), (), "")
    return {
        "title": _text(assessment, id_, "title"),
        "verdict": _word(assessment, id_),
        "risk_before": _risk(outcome.before),
        "risk_now": _risk(outcome.now),
        "risk_after": _risk(outcome.after),
    }


def _failure_mode(assessment: Assessment, id_: str) -> dict[str, Any]:
    return {
        "title": _text(assessment, id_, "title"),
        "verdict": _word(assessment, id_),
        "causes": [
            {"id": one.id, "text": one.text, "rpn_before": one.rpn_before, "rpn_now": one.rpn_now}
            for one in assessment.failure_modes.get(id_, ())
        ],
    }


def _evidence(assessment: Assessment, id_: str) -> dict[str, Any]:
    return {
        "title": _text(assessment, id_, "title"),
        "verdict": _word(assessment, id_),
        "used_by": sorted(assessment.used_by.get(id_, ())),
    }
