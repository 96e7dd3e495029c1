"""Gathers the typed facts of a case: what points where, what is broken, what is adverse."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from assurance.model import numbers
from assurance.model.argument_records import Action, Case, Challenge
from assurance.model.assessment import ResultValue, Worked
from assurance.model.case import CaseText
from assurance.model.engineering_records import EvidenceRecord
from assurance.model.risk_records import Hazard
from assurance.model.verdicts import Finding
from assurance.standing.evidence import adverse_causes
from assurance.standing.facts import Facts, retired_records


def case_record(case: CaseText) -> tuple[str, Case | None]:
    """The case record and its id; the first by id where there are several."""
    for id_, entry in case.of_kind("case").items():
        if isinstance(entry.record, Case):
            return id_, entry.record
    return "", None


def typed_results(case: CaseText) -> dict[str, ResultValue]:
    """The values that evidence records state, each judged by whoever read it."""
    found = {}
    for id_, entry in case.of_kind("evidence").items():
        record = entry.record
        if not isinstance(record, EvidenceRecord):
            continue
        for name, result in record.results.items():
            value, width = result.value.value, result.value.half_width
            found[f"{id_}.{name}"] = ResultValue(
                value,
                result.value.unit,
                None if width is None else numbers.published(value - width),
                None if width is None else numbers.published(value + width),
                tag="judged",
                by=result.read_by or record.producer or "",
            )
    return found


def gather(
    case: CaseText,
    as_of: date | None,
    *,
    results: Mapping[str, ResultValue],
    worked: Mapping[str, Worked],
) -> Facts:
    """The facts of a case on a day."""
    _, record = case_record(case)
    claims = case.of_kind("claims")
    named = record.top_claims.items() if record else ()
    tops: dict[str, str] = {stage: claim for stage, claim in named if claim in claims}
    challenges, actions, hazards = _back_references(case)
    facts = Facts(
        case, as_of, tops, results, worked, _broken(case), challenges, actions, hazards, adverse={},
        retired=retired_records(case, as_of),
    )  # fmt: skip
    adverse = {id_: adverse_causes(facts, id_) for id_ in case.of_kind("evidence")}
    return replace(facts, adverse={id_: causes for id_, causes in adverse.items() if causes})


def _back_references(case: CaseText) -> tuple[dict[str, tuple[str, ...]], ...]:
    challenges: dict[str, tuple[str, ...]] = {}
    actions: dict[str, tuple[str, ...]] = {}
    hazards: dict[str, tuple[str, ...]] = {}
    for id_ in sorted(case.entries):
        record = case.entries[id_].record
        if isinstance(record, Challenge):
            challenges[record.against] = (*challenges.get(record.against, ()), id_)
        elif isinstance(record, Action):
            actions[record.on] = (*actions.get(record.on, ()), id_)
        elif isinstance(record, Hazard) and record.claim:
            hazards[record.claim] = (*hazards.get(record.claim, ()), id_)
    return challenges, actions, hazards


def _broken(case: CaseText) -> dict[str, tuple[Finding, ...]]:
    """Findings of the reading by record; a stub without one has those of its file."""
    found: dict[str, list[Finding]] = {}
    of_file: dict[str, list[Finding]] = {}
    for finding in case.findings:
        found.setdefault(finding.record, []).append(finding)
        if not finding.record:
            of_file.setdefault(finding.place.file, []).append(finding)
    for id_, entry in case.entries.items():
        if entry.record is None and id_ not in found:
            found[id_] = of_file.get(entry.place.file, [])
    return {id_: tuple(findings) for id_, findings in found.items()}
