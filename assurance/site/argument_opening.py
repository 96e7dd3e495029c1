"""What of the argument stands open at first: the way to every cause, and what holds on one card."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from assurance.model.assessment import Assessment
from assurance.model.verdicts import Verdict
from assurance.site.argument_tree import Branch

MOST_CARDS = 60  # above this, only the ways to what frees most stand open
SMALL = 24  # an argument of so few places stands open whole
FEW_HELD = 2  # what holds, side by side with their own cards; more of them share one
FEW_AT_THE_TOP = 12


@dataclass(frozen=True, slots=True)
class Opening:
    """The places that stand open at first, and how many causes lie in branches that do not."""

    opened: frozenset[int]
    more_causes: int


def together(branches: Sequence[Branch], position: int) -> tuple[int, ...]:
    """Which places beneath one share a card, because all holds in them."""
    if len(branches) <= SMALL:
        return ()
    held = tuple(one for one in branches[position].children if not branches[one].troubled)
    return held if len(held) > (FEW_HELD if position else FEW_AT_THE_TOP) else ()


def opening(assessment: Assessment, branches: Sequence[Branch]) -> Opening:
    """The way to each cause, those first whose removal frees most, as far as the cards reach."""
    if len(branches) <= SMALL:
        return Opening(frozenset(n for n, one in enumerate(branches) if one.children), 0)
    opened, cards, left = {0}, 1 + _cards_beneath(branches, 0), 0
    for cause in _causes(assessment, branches):
        way = [one for one in _above(branches, cause) if one not in opened]
        more = sum(_cards_beneath(branches, one) for one in way)
        if cards + more > MOST_CARDS:
            left += 1
            continue
        cards += more
        opened.update(way)
    return Opening(frozenset(opened), left)


def _cards_beneath(branches: Sequence[Branch], position: int) -> int:
    held = len(together(branches, position))
    return len(branches[position].children) - max(0, held - 1)


def _above(branches: Sequence[Branch], position: int) -> Iterator[int]:
    while (position := branches[position].parent) >= 0:
        yield position


def _causes(assessment: Assessment, branches: Sequence[Branch]) -> list[int]:
    """The places at which a cause starts, what frees most first, then the worst, then as numbered."""
    frees: dict[str, int] = {}
    for one in assessment.missing:
        for id_ in (one.record, one.claim):
            frees[id_] = max(frees.get(id_, 0), one.frees)
    found = [position for position, one in enumerate(branches) if one.cause]
    return sorted(found, key=lambda at: (-frees.get(branches[at].id, 0), -branches[at].verdict, at))


def beneath(branches: Sequence[Branch], position: int) -> str:
    """How many stand directly beneath a place, and how many of each verdict but `holds`."""
    children = [branches[one].verdict for one in branches[position].children]
    said = [f"{len(children):,} below"]
    for verdict in sorted(Verdict, reverse=True):
        if verdict is not Verdict.HOLDS and verdict in children:
            said.append(f"{children.count(verdict):,} {verdict.word}")
    return ", ".join(said)
