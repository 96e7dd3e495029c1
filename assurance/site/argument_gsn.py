"""The argument in the words of the goal structuring notation: goals, strategies, solutions and contexts.

A claim becomes a goal, the reason of an argument a strategy above the claims beneath it, evidence and
calculations solutions under the goal itself: a strategy may not lead to a solution. A hazard, a context
and what else narrows a claim become contexts. Assumptions and the reasons of limits keep their own shapes.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from assurance.model.argument_records import Argument, ClaimRecord
from assurance.model.assessment import Assessment
from assurance.model.kinds import SINGULAR
from assurance.model.verdicts import Verdict
from assurance.site.argument_tree import children_of
from assurance.site.links import name_of

NodeKind = Literal["goal", "strategy", "solution", "context", "assumption", "justification", "away goal"]
LinkKind = Literal["supported by", "in context of"]
# GSN Community Standard, version 3 (2021), part 1, core notation; the list is from memory.
PERMITTED: frozenset[tuple[LinkKind, NodeKind, NodeKind]] = frozenset(
    [("supported by", *pair) for pair in (
        ("goal", "goal"), ("goal", "away goal"), ("goal", "strategy"), ("goal", "solution"),
        ("strategy", "goal"), ("strategy", "away goal"),
    )] + [("in context of", source, target) for source in ("goal", "strategy")
          for target in ("context", "assumption", "justification")]
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Node:
    """One element of the notation; `undeveloped` puts the diamond under a goal.

    `module` is the goal at the head of the drawing on which an away goal stands.
    """

    key: str
    kind: NodeKind
    name: str
    text: str
    undeveloped: bool = False
    module: str = ""


@dataclass(frozen=True, slots=True)
class Link:
    """What leads from one element to another."""

    kind: LinkKind
    source: str
    target: str


@dataclass(slots=True)
class Piece:
    """A goal with all that hangs directly under it, and the goals that it leads to."""

    nodes: dict[str, Node] = field(default_factory=dict)
    links: dict[Link, None] = field(default_factory=dict)
    goals: dict[str, None] = field(default_factory=dict)

    def add(self, node: Node, kind: LinkKind, source: str) -> None:
        """An element with the link that leads to it."""
        self.nodes[node.key] = node
        self.links[Link(kind, source, node.key)] = None


def goal_of(assessment: Assessment, id_: str) -> Node:
    """A claim as a goal."""
    entry = assessment.entries[id_]
    verdict = assessment.verdicts.get(id_, Verdict.OPEN)
    name = id_ if verdict is Verdict.HOLDS else f"{id_}, {verdict.word}"
    record = entry.record
    waits = isinstance(record, ClaimRecord) and record.undeveloped is not None
    leads_on = any(_is_support(assessment, one) for one in children_of(assessment, id_))
    return Node(id_, "goal", name, name_of(assessment, id_), undeveloped=waits or not leads_on)


def _is_support(assessment: Assessment, id_: str) -> bool:
    return assessment.entries[id_].kind in ("claims", "evidence", "calculations", "hazards")


def piece_of(assessment: Assessment, id_: str) -> Piece:
    """A claim with its strategies, solutions and contexts; what it leads to is named in `goals`."""
    piece = Piece({id_: goal_of(assessment, id_)})
    record = assessment.entries[id_].record
    left = dict.fromkeys(children_of(assessment, id_))
    if isinstance(record, ClaimRecord):
        arguments = record.each_argument()
        own = {name: [one for one in _named(argument) if one in left] for name, argument in arguments.items()}
        for name, argument in arguments.items():
            reason = _reason(record, name, argument, several=len(arguments) > 1)
            _argued(assessment, piece, id_, name, own[name], reason)
            unsaid = reason if len(arguments) > 1 and f"{id_}.{name}" not in piece.nodes else ""
            _justified(piece, id_, name, argument, alternative=unsaid)
        left = {one: None for one in left if not any(one in grounds for grounds in own.values())}
        _narrowed(assessment, piece, id_, record)
    _argued(assessment, piece, id_, "", left, "")
    return piece


def _named(argument: Argument) -> list[str]:
    """The records that an argument names: what it rests on, then where its checked results come from."""
    named = [one.record for one in argument.rests_on]
    named += [(one.result or "").partition(".")[0] for one in argument.checks]
    return list(dict.fromkeys(one for one in named if one))


def _reason(record: ClaimRecord, name: str, argument: Argument, *, several: bool) -> str:
    said = argument.because or ""
    if not several:
        return said
    enough = "any one of several is enough" if record.holds_if == "any" else "one of several"
    return f"{said} ({name}: {enough})".strip()


def _argued(
    assessment: Assessment, piece: Piece, goal: str, name: str, grounds: Iterable[str], reason: str
) -> None:
    """One argument under its goal: a strategy above claims, solutions under the goal itself."""
    claims: dict[str, None] = {}
    for kind, one in _grounds(assessment, grounds):
        if kind == "claims":
            claims[one] = None
        elif kind in ("evidence", "calculations"):
            node = Node(one, "solution", one, name_of(assessment, one))
            piece.add(node, "supported by", goal)
        else:
            said = f"{SINGULAR[kind]}: {name_of(assessment, one)}"
            piece.add(Node(one, "context", one, said), "in context of", goal)
    beneath = [one for one in claims if name or one not in piece.goals]  # what is left over is drawn once
    above = f"{goal}.{name}" if reason and beneath else goal
    if above != goal:
        piece.add(Node(above, "strategy", above, reason), "supported by", goal)
    for one in beneath:
        piece.goals[one] = None
        piece.links[Link("supported by", above, one)] = None


def _grounds(assessment: Assessment, ids: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Each ground with its kind, and what stands behind a calculation or a hazard; each once."""
    seen: set[str] = set()
    waiting = list(reversed(list(ids)))
    while waiting:
        id_ = waiting.pop()
        if id_ in seen or id_ not in assessment.entries:
            continue
        seen.add(id_)
        kind = assessment.entries[id_].kind
        yield kind, id_
        if kind in ("calculations", "hazards"):
            waiting += reversed(children_of(assessment, id_))


def _justified(piece: Piece, goal: str, name: str, argument: Argument, *, alternative: str) -> None:
    """The written reasons of limits, of sets that leave something out, and of an alternative on evidence."""
    reasons = [alternative] if alternative else []
    reasons += [one.because for one in argument.checks if one.because]
    if argument.over is not None and argument.over.because:
        reasons.append(argument.over.because)
    for count, said in enumerate(dict.fromkeys(reasons), 1):
        key = f"{goal}.{name}.because-{count}"
        piece.add(Node(key, "justification", "", said), "in context of", goal)


def _narrowed(assessment: Assessment, piece: Piece, goal: str, record: ClaimRecord) -> None:
    """The contexts and assumptions that a claim declares."""
    kinds: tuple[tuple[NodeKind, tuple[str, ...]], ...] = (
        ("context", record.context),
        ("assumption", record.assumes),
    )
    for kind, ids in kinds:
        for one in ids:
            if one in assessment.entries:
                piece.add(Node(one, kind, one, name_of(assessment, one)), "in context of", goal)
