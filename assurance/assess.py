"""The one graph of a case: every record with what it needs; walked once, then the rules."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from assurance.argument.adverse import laid_on_claims
from assurance.argument.claims import BuiltClaim, build_claim, claim_links
from assurance.argument.members import member_causes, top_members
from assurance.argument.reasons import Places, missing, needs_that_do_not_hold, own_causes, reasons, record_of
from assurance.graph.formula import All, Formula, Laid, Link, verdict
from assurance.graph.order import reach
from assurance.graph.walk import graph_of, needs_of, walk
from assurance.model.argument_records import Action, ClaimRecord
from assurance.model.assessment import (
    ArgumentOutcome,
    Assessment,
    CheckOutcome,
    Fault,
    Scheme,
)
from assurance.model.case import CaseText
from assurance.model.engineering_records import LoadCaseRecord, Material
from assurance.model.risk_records import FailureMode, Hazard, RiskScheme
from assurance.model.verdicts import Cause, ReasonKind, Verdict
from assurance.results import Results, work_out_case
from assurance.risk.failure_modes import cause_outcomes, failure_mode_formula
from assurance.risk.hazards import hazard_formula, hazard_outcome
from assurance.risk.scheme import own_scheme, standard_scheme
from assurance.rules import run_rules
from assurance.standing.evidence import evidence_formula
from assurance.standing.facts import Facts, broken_input, cause, common
from assurance.standing.gather import case_record, gather
from assurance.standing.words import action_formula, assumption_formula, challenge_formula, refuted
from assurance.store import Store

NEEDED_BY_THE_TOP = ("claims", "hazards", "assumptions", "failure_modes", "challenges")
Edges = dict[str, tuple[str, ...]]


def assess(
    case: CaseText, *, as_of: date | None = None, store: Store | None = None, results: Results | None = None
) -> Assessment:
    """Everything concluded about a case on the day `as_of`, or on the day the case names.

    `results` are those of the case, where they have been worked out already.
    """
    case_id, record = case_record(case)
    day = as_of or (record.as_of if record else None)
    found = results or work_out_case(case, store)
    facts = gather(case, day, results=found.values, worked=found.worked)
    scheme, scheme_causes = _scheme(facts)
    formulas, claims, edges = _formulas(facts, scheme, scheme_causes, found.uses)
    tops = {id_: formulas[id_] for id_ in facts.top_claims.values()}
    graph = graph_of(formulas, {**edges, **needs_of(tops)})
    verdicts = walk(graph)
    causes = own_causes(graph, verdicts, facts)
    needs = needs_that_do_not_hold(graph, verdicts)
    places = Places(case)
    relied_on = _relied_on(facts, edges)
    assessment = Assessment(
        case=case_id,
        as_of=day,
        entries=case.entries,
        top_claims=facts.top_claims,
        verdicts=verdicts,
        reasons=reasons(verdicts, causes, needs, case, places),
        depends=relied_on,
        used_by=_used_by(relied_on),
        reached=frozenset(record_of(id_) for id_ in reach(facts.top_claims.values(), edges)),
        worked=found.worked,
        results=found.values,
        checks=_checks(claims),
        arguments=_arguments(facts, claims, verdicts),
        hazards={id_: hazard_outcome(facts, id_, entry.record, scheme, verdicts)
                 for id_, entry in case.of_kind("hazards").items() if isinstance(entry.record, Hazard)},
        failure_modes={id_: cause_outcomes(facts, id_, entry.record, verdicts)
                       for id_, entry in case.of_kind("failure_modes").items()
                       if isinstance(entry.record, FailureMode)},
        scheme=scheme,
        missing=missing(graph, verdicts, causes, needs, facts, places),
        input_findings=case.findings,
    )  # fmt: skip
    return replace(assessment, findings=run_rules(assessment, case))


def _scheme(facts: Facts) -> tuple[Scheme, dict[str, tuple[Cause, ...]]]:
    """The scheme in force, and what is wrong with those the case brings."""
    records = {id_: entry.record for id_, entry in facts.case.of_kind("risk_scheme").items()
               if isinstance(entry.record, RiskScheme)}  # fmt: skip
    faults: dict[str, tuple[Cause, ...]] = {}
    chosen = None
    for id_, record in records.items():
        try:
            scheme = own_scheme(record)
        except ValueError as fault:
            text, remedy = f"The risk scheme `{id_}` cannot be used: {fault}.", "Complete the matrix."
            faults[id_] = (_scheme_cause(facts, id_, text, remedy),)
            continue
        if chosen is not None:
            text = f"The risk scheme `{id_}` is a second one; only one can be in force."
            faults[id_] = (_scheme_cause(facts, id_, text, "Keep one."),)
        chosen = chosen or scheme
    return chosen or standard_scheme(), faults


def _scheme_cause(facts: Facts, id_: str, text: str, remedy: str) -> Cause:
    return cause(facts, id_, ReasonKind.RISK_NOT_RATED, Verdict.OPEN, text, remedy)


def _formulas(
    facts: Facts,
    scheme: Scheme,
    scheme_causes: Mapping[str, tuple[Cause, ...]],
    uses: Mapping[str, tuple[str, ...]],
) -> tuple[dict[str, Formula], dict[str, BuiltClaim], Edges]:
    """The formula of every record; a claim is built again where the edges tell something to lay on it."""
    formulas = _other_formulas(facts, scheme, uses)
    claims = {id_: build_claim(facts, id_, members={}, adverse_beneath={}) for id_ in _claims(facts)}
    edges = needs_of({**formulas, **{id_: one.formula for id_, one in claims.items()}})
    members = member_causes(facts, edges)
    beneath = _adverse_beneath(facts, edges)
    for id_ in dict.fromkeys(claim for claim, _ in (*members, *beneath)):
        claims[id_] = build_claim(facts, id_, members=members, adverse_beneath=beneath)
    formulas |= {id_: one.formula for id_, one in claims.items()}
    needed = _still_needed(facts, edges)
    for laid in (_laid(facts, edges, needed), scheme_causes):
        for id_, causes in laid.items():
            formulas[id_] = All((formulas[id_], *(Laid(one) for one in causes)))
    unreached = _unreached(facts, edges, needed)
    for top in set(facts.top_claims.values()):
        named = [Laid(one) for one in top_members(facts, top, edges, members)]
        formulas[top] = All((formulas[top], *_top(facts), *named, *(Link(one) for one in unreached)))
    return formulas, claims, edges


def _claims(facts: Facts) -> tuple[str, ...]:
    return tuple(facts.case.of_kind("claims"))


def _other_formulas(facts: Facts, scheme: Scheme, uses: Mapping[str, tuple[str, ...]]) -> dict[str, Formula]:
    """The formulas of all records but claims, and of each material property."""
    found: dict[str, Formula] = {}
    for id_ in facts.case.in_order:
        kind, record = facts.kind(id_), facts.record(id_)
        if kind == "hazards":
            found[id_] = hazard_formula(facts, id_, scheme)
        elif kind == "calculations":
            found[id_] = _calculation_formula(facts, id_, uses.get(id_, ()))
        elif kind == "evidence":
            found[id_] = evidence_formula(facts, id_)
        elif kind in _BY_KIND:
            found[id_] = _BY_KIND[kind](facts, id_)
        elif kind != "claims":
            found[id_] = All((*common(facts, id_), *_plain_links(facts, record)))
        if isinstance(record, Material):
            found.update(_property_formulas(facts, id_, record))
    return found


_BY_KIND = {
    "assumptions": assumption_formula,
    "challenges": challenge_formula,
    "actions": action_formula,
    "failure_modes": failure_mode_formula,
}


def _plain_links(facts: Facts, record: object) -> tuple[Link, ...]:
    """What a load case needs: the result it comes from and the factors that are in it."""
    if not isinstance(record, LoadCaseRecord):
        return ()
    return tuple(Link(one) for one in facts.known((record_of(record.result or ""), *record.already_in)))


def _property_formulas(facts: Facts, id_: str, record: Material) -> dict[str, Formula]:
    found: dict[str, Formula] = {}
    for name, one in record.properties.items():
        named = facts.known((id_, record_of(one.result or ""), one.origin or ""))
        found[f"{id_}.{name}"] = All(tuple(Link(need) for need in dict.fromkeys(named)))
    return found


def _calculation_formula(facts: Facts, id_: str, uses: tuple[str, ...]) -> Formula:
    worked = facts.worked.get(id_)
    causes = [] if worked is None else [_fault_cause(facts, id_, one) for one in worked.faults]
    if worked is not None:
        causes += [
            cause(facts, id_, ReasonKind.OUTSIDE_METHOD_LIMITS, Verdict.OPEN, one.text, one.remedy,
                  path=("method", one.limit))
            for one in worked.remarks if one.outside
        ]  # fmt: skip
    linked = dict.fromkeys(_node(facts, one) for one in uses if facts.kind(record_of(one)))
    return All((*common(facts, id_), *(Laid(one) for one in causes), *(Link(one) for one in linked)))


def _node(facts: Facts, used: str) -> str:
    """The node of what a calculation uses: the property, or the material where it has no such one."""
    material, _, name = used.partition(".")
    record = facts.record(material)
    return used if isinstance(record, Material) and name in record.properties else material


def _fault_cause(facts: Facts, id_: str, fault: Fault) -> Cause:
    return cause(facts, id_, fault.kind, fault.verdict, fault.text, fault.remedy, path=fault.path)


def _laid(
    facts: Facts, edges: Mapping[str, tuple[str, ...]], needed: set[str]
) -> dict[str, tuple[Cause, ...]]:
    """Typed facts laid on records before the walk: adverse evidence, what was refuted, what is retired."""
    found = {id_: list(causes) for id_, causes in laid_on_claims(facts).items()}
    for source, causes in refuted(facts).items():
        declaring = [id_ for id_ in _claims(facts) if source in edges[id_]]
        for id_ in reach(declaring, edges):
            if facts.kind(id_) == "claims":
                found.setdefault(id_, []).extend(causes)
    for id_ in sorted(needed):
        if id_ in facts.retired:
            found.setdefault(id_, []).append(_retired_cause(facts, id_))
    return {id_: tuple({one.key: one for one in causes}.values()) for id_, causes in found.items()}


def _still_needed(facts: Facts, edges: Mapping[str, tuple[str, ...]]) -> set[str]:
    """What living records rest on, and the hazards that living claims speak of or are named by."""
    needed = set(facts.top_claims.values())
    for id_ in edges:
        if id_ in facts.retired:
            continue
        needed.update(edges[id_])
        needed.update(facts.hazards_of.get(id_, ()))
        record = facts.record(id_)
        if isinstance(record, ClaimRecord):
            needed.update(record.about)
    return needed


def _retired_cause(facts: Facts, id_: str) -> Cause:
    return cause(
        facts, id_, ReasonKind.RETIRED_BUT_NEEDED, Verdict.OPEN,
        f"`{id_}` is retired, but something still rests on it.",
        "Take out the links to it, or bring it back.", path=("retired",),
    )  # fmt: skip


def _adverse_beneath(
    facts: Facts, edges: Mapping[str, tuple[str, ...]]
) -> dict[tuple[str, str], tuple[str, ...]]:
    """The keys of adverse evidence beneath each alternative of a claim."""
    found = {}
    for id_ in _claims(facts):
        record = facts.record(id_)
        if not facts.adverse or not isinstance(record, ClaimRecord) or record.holds_if == "all":
            continue
        for name, argument in record.each_argument().items():
            beneath = reach(claim_links(facts, argument), edges)
            hit = [one.key for one_id in sorted(beneath) for one in facts.adverse.get(one_id, ())]
            found[id_, name] = tuple(hit)
    return found


def _unreached(facts: Facts, edges: Mapping[str, tuple[str, ...]], needed: set[str]) -> tuple[str, ...]:
    """What the top claims need because nothing else does: so that leaving a link out never helps."""
    reached = reach(facts.top_claims.values(), edges)
    return tuple(
        id_ for kind in NEEDED_BY_THE_TOP for id_ in facts.case.of_kind(kind)
        if id_ not in reached and (id_ in needed or id_ not in facts.retired)
    )  # fmt: skip


def _top(facts: Facts) -> list[Formula]:
    """What every top claim needs: the case record, all conditions, a date, and whole input."""
    case_id, _ = case_record(facts.case)
    parts: list[Formula] = [Laid(broken_input(finding)) for finding in facts.case.findings]
    parts += [Link(one) for one in (case_id, *facts.case.of_kind("conditions")) if one]
    if facts.as_of is None:
        parts.append(Laid(cause(
            facts, case_id, ReasonKind.DATE_MISSING, Verdict.OPEN,
            "The case names no day, so nothing can be said of today.", "Give `as_of`, or use `--on`.",
        )))  # fmt: skip
    return parts


def _relied_on(facts: Facts, edges: Mapping[str, tuple[str, ...]]) -> Edges:
    """What each record names or needs, as records, in order of writing."""
    found: dict[str, list[str]] = {}
    for id_, needs in edges.items():
        found.setdefault(record_of(id_), []).extend([record_of(need) for need in needs])
    for id_ in facts.case.entries:
        record = facts.record(id_)
        if isinstance(record, Action):
            found.setdefault(id_, []).extend(facts.known(record.closing_evidence))
    return {id_: tuple(one for one in dict.fromkeys(needs) if one != id_) for id_, needs in found.items()}


def _used_by(relied_on: Edges) -> Edges:
    found: dict[str, list[str]] = {}
    for id_ in sorted(relied_on):
        for need in relied_on[id_]:
            found.setdefault(need, []).append(id_)
    return {id_: tuple(users) for id_, users in found.items()}


def _checks(claims: Mapping[str, BuiltClaim]) -> dict[str, tuple[CheckOutcome, ...]]:
    return {id_: tuple(outcome for made in built.checks for outcome in made.outcomes)
            for id_, built in claims.items()}  # fmt: skip


def _arguments(
    facts: Facts, claims: Mapping[str, BuiltClaim], verdicts: Mapping[str, Verdict]
) -> dict[str, tuple[ArgumentOutcome, ...]]:
    found = {}
    for id_, built in claims.items():
        record = facts.record(id_)
        if not isinstance(record, ClaimRecord):
            continue
        judged = {name: verdict(formula, verdicts) for name, formula in built.arguments.items()}
        best = min(judged, key=lambda name: judged[name], default="")
        found[id_] = tuple(
            ArgumentOutcome(name, judged[name], argument.because or "",
                            stands=record.holds_if == "all" or name == best)
            for name, argument in record.each_argument().items()
        )  # fmt: skip
    return found


__all__ = ["assess"]
