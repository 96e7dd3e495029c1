"""Which goals stand on which drawing: one for the whole, or one a branch where the whole is too large."""

from collections.abc import Sequence
from dataclasses import dataclass

from assurance.model.assessment import Assessment
from assurance.site.argument_gsn import Link, Node, Piece, goal_of, piece_of
from assurance.site.argument_tree import Branch

MOST_NODES = 60  # on one drawing; of more, the crossing links are more than the eye can follow
FEW_NODES = 12  # a branch as small stays on the drawing of the goal above it
MOST_DRAWINGS = 24  # of one case; those with trouble come first


@dataclass(frozen=True, slots=True)
class Module:
    """One drawing: a goal, what stands beneath it here, and the goals that are drawn elsewhere."""

    root: str
    nodes: tuple[Node, ...]
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class Modules:
    """The drawings of a case, that of the conclusion first, and how many were left out."""

    drawn: tuple[Module, ...]
    left_out: int


def modules(assessment: Assessment, branches: Sequence[Branch]) -> Modules:
    """The drawings of an argument; a goal that stands on another one is an away goal."""
    claims = [
        one for one in branches
        if not one.see and not one.missing and assessment.entries[one.id].kind == "claims"
    ]  # fmt: skip
    pieces = {one.id: piece_of(assessment, one.id) for one in claims}
    homes = _homes(branches, pieces)
    rank = {one.id: (not one.troubled, one.depth, order) for order, one in enumerate(claims)}
    roots = list(dict.fromkeys(homes[one.id] for one in claims))
    first, rest = roots[:1], sorted(roots[1:], key=lambda one: rank[one])
    kept = [*first, *rest][:MOST_DRAWINGS]
    drawn = tuple(_module(assessment, root, pieces, homes) for root in kept)
    return Modules(drawn, len(roots) - len(kept))


def _homes(branches: Sequence[Branch], pieces: dict[str, Piece]) -> dict[str, str]:
    """For each claim the goal at the head of its drawing."""
    above = _claim_above(branches, pieces)
    if len({key for piece in pieces.values() for key in piece.nodes}) <= MOST_NODES:
        return dict.fromkeys(pieces, next(iter(pieces), ""))
    sizes = {id_: len(piece.nodes) for id_, piece in pieces.items()}
    for id_ in reversed(list(pieces)):  # children come after their parents
        if above[id_]:
            sizes[above[id_]] += sizes[id_]
    homes: dict[str, str] = {}
    for id_ in pieces:
        parent = above[id_]
        apart = not parent or (
            sizes[homes[parent]] > MOST_NODES and sizes[parent] > MOST_NODES and sizes[id_] > FEW_NODES
        )
        homes[id_] = id_ if apart else homes[parent]
    return homes


def _claim_above(branches: Sequence[Branch], pieces: dict[str, Piece]) -> dict[str, str]:
    """The nearest claim above each claim, through hazards and calculations."""
    found: dict[str, str] = {}
    nearest: list[str] = []
    for branch in branches:
        above = nearest[branch.parent] if branch.parent >= 0 else ""
        own = branch.id in pieces and not branch.see and not branch.missing
        nearest.append(branch.id if own else above)
        if own:
            found[branch.id] = above
    return found


def _module(assessment: Assessment, root: str, pieces: dict[str, Piece], homes: dict[str, str]) -> Module:
    nodes: dict[str, Node] = {}
    links: dict[Link, None] = {}
    for id_, piece in pieces.items():
        if homes[id_] == root:
            nodes |= piece.nodes
            links |= piece.links
    for link in links:
        if link.target not in nodes:
            nodes[link.target] = _away(assessment, link.target, homes)
    return Module(root, tuple(nodes[key] for key in sorted(nodes)), tuple(links))


def _away(assessment: Assessment, id_: str, homes: dict[str, str]) -> Node:
    """A goal that is drawn elsewhere; its name says on which drawing."""
    goal = goal_of(assessment, id_)
    return Node(id_, "away goal", goal.name, goal.text, module=homes.get(id_, id_))
