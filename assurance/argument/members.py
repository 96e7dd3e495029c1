"""Whether each member of a set is argued: load cases, hazards and parts beneath a claim."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from assurance.argument.claims import argument_path, claim_links
from assurance.graph.order import Edges, reach
from assurance.model.argument_records import Argument, Check, ClaimRecord, Over
from assurance.model.kinds import SINGULAR
from assurance.model.verdicts import Cause, ReasonKind, Verdict
from assurance.standing.facts import Facts, cause


@dataclass(frozen=True, slots=True)
class Beneath:
    """What lies beneath an argument, or beneath a whole claim: records and the results it checks."""

    records: frozenset[str]
    results: frozenset[str]  # records whose results are checked there
    about: frozenset[str]  # what the claims among the records are about


def unargued(facts: Facts, kind: str, members: tuple[str, ...], beneath: Beneath) -> tuple[str, ...]:
    """The members that nothing beneath is about, and for which no checked result was worked out."""
    covered = set(beneath.about | beneath.records) if kind == "hazards" else set(beneath.about)
    for id_ in beneath.results:
        worked = facts.worked.get(id_)
        if worked is not None:
            covered |= set(worked.load_cases if kind == "load_cases" else worked.parts)
    return tuple(one for one in members if one not in covered)


def all_members(facts: Facts, kind: str) -> tuple[str, ...]:
    """All records of a kind that still count."""
    return tuple(id_ for id_ in facts.case.of_kind(kind) if id_ not in facts.retired)


def beneath_argument(facts: Facts, id_: str, argument: Argument, needs: Edges) -> Beneath:
    """What lies beneath one argument, the claim itself left out."""
    starts = claim_links(facts, argument)
    return beneath(facts, reach(starts, needs) - {id_}, argument.checks)


def beneath(facts: Facts, records: frozenset[str], checks: tuple[Check, ...] = ()) -> Beneath:
    """What these records come to, with what is checked by them and by these checks."""
    results, about = {record_of_result(check) for check in checks}, set[str]()
    for id_ in records:
        claim = facts.record(id_) if facts.kind(id_) == "claims" else None
        if isinstance(claim, ClaimRecord):
            about.update(claim.about)
            for argument in claim.each_argument().values():
                results.update([record_of_result(check) for check in argument.checks])
    return Beneath(records, frozenset(results), frozenset(about))


def record_of_result(check: Check) -> str:
    """The record whose result a check compares; nothing where it names none."""
    return (check.result or "").partition(".")[0]


def member_causes(facts: Facts, needs: Edges) -> dict[tuple[str, str], tuple[Cause, ...]]:
    """For each argument that speaks of a set: a cause for each member that is not argued."""
    found = {}
    for id_, entry in facts.case.entries.items():
        if not isinstance(entry.record, ClaimRecord):
            continue
        for name, argument in entry.record.each_argument().items():
            if argument.over is not None:
                found[id_, name] = tuple(_over(facts, id_, name, argument, argument.over, needs))
    return found


def _over(facts: Facts, id_: str, name: str, argument: Argument, over: Over, needs: Edges) -> Iterator[Cause]:
    record = facts.record(id_)
    path = (*argument_path(record, name), "over")
    if over.members is not None and not over.because:
        yield cause(
            facts, id_, ReasonKind.MEMBER_NOT_ARGUED, Verdict.OPEN,
            f"`{id_}` speaks of some {over.kind.replace('_', ' ')} only and gives no reason.",
            "Say under `because` why the others do not matter.", path=path,
        )  # fmt: skip
    members = all_members(facts, over.kind) if over.members is None else facts.known(over.members)
    for member in unargued(facts, over.kind, members, beneath_argument(facts, id_, argument, needs)):
        yield _not_argued(facts, id_, over.kind, member, (*path, "members", member))


def _not_argued(facts: Facts, id_: str, kind: str, member: str, path: tuple[str | int, ...]) -> Cause:
    return cause(
        facts, id_, ReasonKind.MEMBER_NOT_ARGUED, Verdict.OPEN,
        f"The {SINGULAR[kind]} `{member}` is not argued beneath `{id_}`.",
        "Name it under `about` of a claim beneath, or check a result worked out for it.", path=path,
    )  # fmt: skip


def top_members(
    facts: Facts, top: str, needs: Edges, named: Mapping[tuple[str, str], tuple[Cause, ...]]
) -> tuple[Cause, ...]:
    """Every hazard and load case that nothing beneath the top claim argues, each reported once."""
    records = reach([top], needs)
    under = beneath(facts, records)
    already = {str(one.path[-1]) for (claim, _), causes in named.items() if claim in records
               for one in causes if "members" in one.path}  # fmt: skip
    found = []
    for kind in ("hazards", "load_cases"):
        for member in unargued(facts, kind, all_members(facts, kind), under):
            if member not in already:
                found.append(_not_argued(facts, top, kind, member, ("members", member)))
    return tuple(found)
