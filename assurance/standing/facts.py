"""Typed facts of a case, gathered before the walk: who challenges what, what is broken, what is adverse."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from assurance.graph.formula import Formula, Laid, Link
from assurance.model.argument_records import Challenge
from assurance.model.assessment import ResultValue, Worked
from assurance.model.case import CaseText
from assurance.model.fields import has_field
from assurance.model.kinds import KINDS, SINGULAR
from assurance.model.verdicts import Cause, Finding, ReasonKind, Verdict

Path = tuple[str | int, ...]
RETIRABLE = tuple(kind for kind, record in KINDS.items() if "retired" in record.model_fields)
ANSWERING = ("owner", "producer", "author")
OWNED_KINDS = frozenset({"claims", "assumptions", "hazards", "actions", "challenges"})


@dataclass(frozen=True)
class Facts:
    """Everything that the formulas of verdicts are built from."""

    case: CaseText
    as_of: date | None
    top_claims: Mapping[str, str]
    results: Mapping[str, ResultValue]
    worked: Mapping[str, Worked]
    broken: Mapping[str, tuple[Finding, ...]]  # findings of the reading, by record; "" for files
    challenges: Mapping[str, tuple[str, ...]]  # by what they are against, `record` or `record.part`
    actions: Mapping[str, tuple[str, ...]]  # by what they work on
    hazards_of: Mapping[str, tuple[str, ...]]  # by claim
    adverse: Mapping[str, tuple[Cause, ...]]  # by evidence
    retired: frozenset[str]  # records that no longer count

    def record(self, id_: str) -> Any:
        """The record of that id, or None where there is none that can be read."""
        entry = self.case.entries.get(id_)
        return entry.record if entry else None

    def kind(self, id_: str) -> str:
        """The kind of the record of that id, or nothing."""
        entry = self.case.entries.get(id_)
        return entry.kind if entry else ""

    def known(self, ids: tuple[str, ...], *, kinds: tuple[str, ...] = ()) -> tuple[str, ...]:
        """Those of the ids that name a record of these kinds; the reading reports the others."""
        return tuple(id_ for id_ in ids if self.kind(id_) and (not kinds or self.kind(id_) in kinds))

    def owner(self, id_: str) -> str:
        """Who answers for a record: its owner, the producer of evidence, the author of a calculation."""
        record = self.record(id_)
        for name in ANSWERING:
            if has_field(record, name) and getattr(record, name):
                return str(getattr(record, name))
        return ""


def cause(
    facts: Facts,
    record: str,
    kind: ReasonKind,
    verdict: Verdict,
    text: str,
    remedy: str,
    *,
    path: Path = (),
    due: date | None = None,
    owner: str = "",
) -> Cause:
    """A cause at a record, with the key that names it, owned by whoever answers for the record."""
    key = ":".join([record, kind.value, *(str(step) for step in path)])
    return Cause(key, kind, verdict, record, text, remedy, path, owner=owner or facts.owner(record), due=due)


def common(facts: Facts, id_: str) -> Iterator[Formula]:
    """What is laid on a record of any kind: broken input, challenges, actions, a missing owner."""
    for finding in facts.broken.get(id_, ()):
        yield Laid(broken_input(finding))
    yield from challenged(facts, id_)
    for action in facts.actions.get(id_, ()):
        yield Link(action)
    record = facts.record(id_)
    if record is not None and facts.kind(id_) in OWNED_KINDS and not record.owner:
        yield Laid(_owner_missing(facts, id_))


def challenged(facts: Facts, target: str) -> Iterator[Link]:
    """A link to each challenge against a record, or against a named part of one."""
    for challenge in facts.challenges.get(target, ()):
        yield Link(challenge)


def laid_on_part(facts: Facts, id_: str, name: str) -> Iterator[Link]:
    """Challenges and actions on a named part of a record: an argument, a control, a cause."""
    yield from challenged(facts, f"{id_}.{name}")
    for action in facts.actions.get(f"{id_}.{name}", ()):
        yield Link(action)


def _owner_missing(facts: Facts, id_: str) -> Cause:
    return cause(
        facts,
        id_,
        ReasonKind.OWNER_MISSING,
        Verdict.OPEN,
        f"The {SINGULAR[facts.kind(id_)]} `{id_}` has no owner.",
        "Name a person or a role under `owner`.",
    )


def broken_input(finding: Finding) -> Cause:
    """The cause that a finding of the reading is, wherever it is laid."""
    place = finding.place
    return Cause(
        key=f"input:{place}:{finding.rule}",
        kind=ReasonKind.INPUT_BROKEN,
        verdict=Verdict.OPEN,
        record=finding.record,
        text=finding.message,
        remedy=finding.remedy,
        place=place,
    )


def upheld_against(facts: Facts, target: str) -> tuple[str, ...]:
    """The upheld challenges against a record."""
    return tuple(one for one in facts.challenges.get(target, ()) if _state(facts, one) == "upheld")


def _state(facts: Facts, challenge: str) -> str:
    record = facts.record(challenge)
    return record.state if isinstance(record, Challenge) else "raised"


def retired_records(case: CaseText, day: date | None) -> frozenset[str]:
    """The records of a case that no longer count on a day."""
    may_be = (entry for kind in RETIRABLE for entry in case.of_kind(kind).values())
    return frozenset(entry.id for entry in may_be if is_retired(entry.record, day))


def is_retired(record: Any, day: date | None) -> bool:
    """Whether a record says, with reason, person and a date that has come, that it no longer counts."""
    retired = record.retired if has_field(record, "retired") else None
    if not (retired and retired.because and retired.by and retired.date):
        return False
    return day is None or retired.date <= day
