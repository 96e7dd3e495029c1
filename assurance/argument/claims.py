"""The formula of one claim: its arguments, what it assumes, its hazards, and what it leaves out."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from assurance.argument.checks import CheckPlace, MadeCheck, make_check
from assurance.graph.formula import All, Best, Formula, Guard, Laid, Link
from assurance.model.argument_records import Argument, Check, ClaimRecord
from assurance.model.engineering_records import EvidenceRecord
from assurance.model.verdicts import Cause, ReasonKind, Verdict
from assurance.standing.facts import Facts, Path, cause, challenged, common, laid_on_part


@dataclass(frozen=True, slots=True)
class BuiltClaim:
    """A claim's formula, the formula of each argument by name, and its checks as made."""

    formula: Formula
    arguments: Mapping[str, Formula]
    checks: tuple[MadeCheck, ...]


def claim_links(facts: Facts, argument: Argument) -> tuple[str, ...]:
    """What one argument needs: what it rests on, the records of its results and limits."""
    ids = [support.record for support in argument.rests_on]
    for check in argument.checks:
        ids.append((check.result or "").partition(".")[0])
        ids += [limit.record for limit in (check.at_least, check.at_most) if limit and limit.record]
    return tuple(dict.fromkeys(id_ for id_ in ids if facts.kind(id_)))


def parts_of_claim(facts: Facts, claim: ClaimRecord) -> frozenset[str]:
    """The parts a claim is about: those it names, and those of the evidence it rests on or checks."""
    found = {one for one in claim.about if facts.kind(one) == "parts"}
    for argument in claim.each_argument().values():
        for one in claim_links(facts, argument):
            record = facts.record(one)
            if isinstance(record, EvidenceRecord):
                found |= {tested.part for tested in record.parts}
    return frozenset(found)


def build_claim(
    facts: Facts,
    id_: str,
    *,
    members: Mapping[tuple[str, str], tuple[Cause, ...]],
    adverse_beneath: Mapping[tuple[str, str], tuple[str, ...]],
) -> BuiltClaim:
    """The formula of a claim.

    `members` holds, by claim and argument, the causes of sets not fully argued; `adverse_beneath`
    the keys of adverse evidence beneath an argument.
    """
    record = facts.record(id_)
    if not isinstance(record, ClaimRecord):
        return BuiltClaim(All(tuple(common(facts, id_))), {}, ())
    checks: list[MadeCheck] = []
    arguments: dict[str, Formula] = {}
    for name, argument in record.each_argument().items():
        made = [make_check(facts, place, check) for place, check in _checks(id_, record, name, argument)]
        checks += made
        arguments[name] = _argument(facts, id_, record, name, made, members.get((id_, name), ()))
    parts = [*common(facts, id_), *_around(facts, id_, record)]
    parts += _support(facts, id_, record, arguments, adverse_beneath)
    return BuiltClaim(All(tuple(parts)), arguments, tuple(checks))


def argument_path(record: ClaimRecord, name: str) -> Path:
    """The field that an argument stands in."""
    return ("argument",) if name == "argument" and record.argument else ("arguments", name)


def _checks(
    id_: str, record: ClaimRecord, name: str, argument: Argument
) -> Iterator[tuple[CheckPlace, Check]]:
    for index, check in enumerate(argument.checks):
        path = (*argument_path(record, name), "checks", index)
        yield CheckPlace(id_, name, index, path), check


def _argument(
    facts: Facts,
    id_: str,
    record: ClaimRecord,
    name: str,
    checks: list[MadeCheck],
    members: tuple[Cause, ...],
) -> Formula:
    argument = record.each_argument()[name]
    parts: list[Formula] = [Laid(one) for made in checks for one in made.causes]
    parts += [one for made in checks for one in made.backstops]
    parts += [Laid(one) for one in members]
    parts += [Link(one) for one in claim_links(facts, argument)]
    parts += laid_on_part(facts, id_, name)
    if not argument.rests_on and not argument.checks:
        parts.append(Laid(cause(
            facts, id_, ReasonKind.NOTHING_SUPPORTS_IT, Verdict.OPEN,
            f"The argument `{name}` of `{id_}` names neither evidence nor a check.",
            "Name evidence under `rests_on`, or mark the claim undeveloped.",
            path=argument_path(record, name),
        )))  # fmt: skip
    return All(tuple(parts))


def _around(facts: Facts, id_: str, record: ClaimRecord) -> Iterator[Formula]:
    for one in facts.known((*record.assumes, *record.context)):
        yield Link(one)
    for part in sorted(parts_of_claim(facts, record)):
        yield from challenged(facts, part)
    for hazard in facts.hazards_of.get(id_, ()):
        if hazard not in facts.retired:
            yield Link(hazard)


def _support(
    facts: Facts,
    id_: str,
    record: ClaimRecord,
    arguments: Mapping[str, Formula],
    adverse_beneath: Mapping[tuple[str, str], tuple[str, ...]],
) -> Iterator[Formula]:
    if record.undeveloped is not None:
        yield Laid(_undeveloped(facts, id_, record))
    elif not arguments:
        yield Laid(cause(
            facts, id_, ReasonKind.NOTHING_SUPPORTS_IT, Verdict.OPEN,
            f"Nothing supports the claim `{id_}` yet.",
            "Name evidence under `argument: rests_on`, or mark it undeveloped.",
        ))  # fmt: skip
    if record.holds_if == "all" or len(arguments) < 2:
        yield from arguments.values()
        return
    yield Best(tuple(arguments.values()))
    for name, formula in arguments.items():
        yield Guard(formula, _alternative(facts, id_, name), adverse_beneath.get((id_, name), ()))


def _undeveloped(facts: Facts, id_: str, record: ClaimRecord) -> Cause:
    assert record.undeveloped is not None
    because = record.undeveloped.because
    return cause(
        facts, id_, ReasonKind.UNDEVELOPED, Verdict.OPEN,
        f"The claim `{id_}` is not developed" + (f": {because.rstrip('.')}." if because else "."),
        "Argue it: name evidence under `argument: rests_on`.", path=("undeveloped",),
        due=record.undeveloped.due, owner=record.undeveloped.owner or "",
    )  # fmt: skip


def _alternative(facts: Facts, id_: str, name: str) -> Cause:
    return cause(
        facts, id_, ReasonKind.ALTERNATIVE_FAILS, Verdict.OPEN,
        f"The alternative `{name}` of `{id_}` fails or rests on adverse evidence.",
        "Put it right: one that holds does not outweigh one that speaks against it.",
        path=("arguments", name),
    )  # fmt: skip
