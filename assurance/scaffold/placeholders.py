"""What stands in a new record until its author writes it: valid, and visibly not finished."""

from collections.abc import Mapping
from typing import Any

from assurance.model.argument_records import Case
from assurance.model.case import CaseText
from assurance.model.kinds import KINDS
from assurance.model.quantity import Quantity
from assurance.reading.plans import leaf_of
from assurance.reading.scalars import plain_value
from assurance.risk.scheme import LEVELS, LIKELIHOODS, MATRIX, SEVERITIES
from assurance.scaffold.record_text import TO_WRITE

NEEDED: Mapping[str, Mapping[str, Any]] = {
    "evidence": {"kind": "analysis"},  # a test without an outcome would count as adverse
    "factors": {"kind": "multiply", "value": 1.0},  # multiplies nothing until it is written
    "calculations": {"method": "reserve_factors"},
    "risk_scheme": {  # that of MIL-STD-882E, which holds anyway, so that no rating changes by it
        "severities": SEVERITIES,
        "likelihoods": LIKELIHOODS,
        "levels": LEVELS,
        "matrix": MATRIX,
    },
}
POINTS_AT = {"challenges": "against", "actions": "on"}  # what must name a record of the case


def placeholders(case: CaseText, kind: str, given: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a new record of a kind: what was given, and a placeholder for all else it needs.

    A kind with an owner has the one given, or the only person of the case; nobody is guessed.
    """
    fields = KINDS[kind].model_fields
    needed: dict[str, Any] = {name: TO_WRITE for name, field in fields.items() if field.is_required()}
    needed |= NEEDED.get(kind, {})
    if kind in POINTS_AT:
        needed[POINTS_AT[kind]] = _what_concludes(case)
    owner = {"owner": given["owner"]} if "owner" in given else _only_person(case)
    if kind == "claims":
        needed["undeveloped"] = {"because": TO_WRITE, **owner}
    if "owner" in fields:
        needed |= owner
    return {**needed, **{field: _plain(kind, field, value) for field, value in given.items()}}


def _plain(kind: str, field: str, value: Any) -> Any:
    """A value from the command line as it is written in YAML: a quantity without unit as a number."""
    return plain_value(value) if leaf_of(KINDS[kind], field).kind is Quantity else value


def _case(case: CaseText) -> Case | None:
    records = (entry.record for entry in case.of_kind("case").values())
    return next((record for record in records if isinstance(record, Case)), None)


def _only_person(case: CaseText) -> dict[str, str]:
    record = _case(case)
    people = tuple(record.people) if record else ()
    return {"owner": people[0]} if len(people) == 1 else {}


def _what_concludes(case: CaseText) -> str:
    """The top claim, else the case itself."""
    record = _case(case)
    if record is not None and record.top_claims:
        return min(record.top_claims.values())
    return min(case.of_kind("case"))
