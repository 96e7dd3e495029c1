"""The argument drawn: the neighbourhood of one claim, and the whole from the conclusion to its evidence."""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.assessment import Assessment
from assurance.model.verdicts import Verdict
from assurance.site import cards, drawing
from assurance.site.argument_tree import (
    Branch,
    absent_of,
    any_of,
    card_of,
    children_of,
    counts_below,
    missing_card,
)
from assurance.site.cards import Card
from assurance.site.links import Links, name_of

MOST_CARDS = 60  # above this, branches in which all holds are folded
FEW = 2  # held side by side with their own cards; more of them share one
FEW_AT_THE_TOP = 12
MOST_ABOVE = 5  # cards on the side that relies on a claim
MOST_BELOW = 12
TALL = 640.0  # a drawing taller than a screen starts at its head, with the conclusion in sight
_STEP = cards.CARD_WIDTH + cards.GAP
_HEAD = 28.0
_EDGE = 6.0


def neighbourhood(assessment: Assessment, links: Links, id_: str) -> Markup:
    """Relied on by, this claim, rests on: from left to right."""
    above = [
        one for one in assessment.used_by.get(id_, ())
        if one in assessment.entries and assessment.entries[one].kind in ("claims", "hazards")
    ]  # fmt: skip
    left = [card_of(assessment, links, one) for one in above[:MOST_ABOVE]]
    below = children_of(assessment, id_)
    right = [missing_card(text, verdict) for text, verdict in absent_of(assessment, id_)]
    right += [card_of(assessment, links, one) for one in _worst_first(assessment, below)[:MOST_BELOW]]
    here = card_of(assessment, links, id_, here=True)
    more = (len(above) - MOST_ABOVE, len(below) - MOST_BELOW)
    return _three_columns(left, here, right, more=more, any_one=any_of(assessment, id_))


def _worst_first(assessment: Assessment, ids: list[str]) -> list[str]:
    """As written while all are shown, else those that do not hold first."""
    if len(ids) <= MOST_BELOW:
        return ids
    return sorted(ids, key=lambda one: -assessment.verdicts.get(one, Verdict.HOLDS))


def _three_columns(
    left: list[Card], here: Card, right: list[Card], *, more: tuple[int, int], any_one: bool
) -> Markup:
    columns = [left, [here], right]
    tall = max(_column_height(column) for column in columns)
    tops = [[_HEAD + _EDGE + at for at in _stack(column, tall)] for column in columns]
    xs = [_EDGE, _EDGE + _STEP, _EDGE + 2 * _STEP] if left else [_EDGE, _EDGE, _EDGE + _STEP]
    middle = tops[1][0] + cards.height(here) / 2
    drawn = _headings(xs, left=bool(left), right=bool(right))
    if left:
        drawn.append(_joined_from_left(left, tops[0], x=xs[0], middle=middle, troubled=here.troubled))
    if right:
        meets = [(top + cards.height(one) / 2, one.troubled) for one, top in zip(right, tops[2], strict=True)]
        drawn.append(cards.bracket(xs[1] + cards.CARD_WIDTH, middle, meets, any_of=any_one))
        drawn.append(cards.bracket_label(xs[1] + cards.CARD_WIDTH, middle, any_of=any_one, count=len(right)))
    for column, at, x in zip(columns, tops, xs, strict=True):
        drawn += [cards.draw(card, x, top) for card, top in zip(column, at, strict=True)]
    bottom = _HEAD + 2 * _EDGE + tall
    drawn += _more_words(xs, bottom, more)
    width = xs[2] + cards.SLIP_WIDTH + _EDGE if right else xs[1] + cards.CARD_WIDTH + _EDGE
    troubled = sum(card.troubled for card in right)
    says = f"{len(left)} rely on this; it rests on {len(right)}; {troubled} do not hold"
    return drawing.picture(width, bottom + (18 if max(more) > 0 else 0), drawn, says=says)


def _headings(xs: Sequence[float], *, left: bool, right: bool) -> list[str]:
    words = [("Relied on by", left), ("This claim", True), ("Rests on", right)]
    return [drawing.text(x, 14, word, css="b") for x, (word, shown) in zip(xs, words, strict=True) if shown]


def _more_words(xs: Sequence[float], y: float, more: tuple[int, int]) -> list[str]:
    return [
        drawing.text(x, y + 10, f"and {count} more", css="q")
        for x, count in ((xs[0], more[0]), (xs[2], more[1]))
        if count > 0
    ]


def _column_height(column: Sequence[Card]) -> float:
    return sum(cards.height(card) for card in column) + cards.BETWEEN * max(0, len(column) - 1)


def _stack(column: Sequence[Card], tall: float) -> list[float]:
    """The top of each card of a column that is centred in a height."""
    top = (tall - _column_height(column)) / 2
    tops = []
    for card in column:
        tops.append(top)
        top += cards.height(card) + cards.BETWEEN
    return tops


def _joined_from_left(left: list[Card], tops: list[float], *, x: float, middle: float, troubled: bool) -> str:
    c = drawing.coordinate
    start = x + cards.CARD_WIDTH
    turn, end = start + 12, start + cards.GAP
    lines = [
        f"M{c(start)} {c(top + cards.height(card) / 2)}H{c(turn)}V{c(middle)}H{c(end)}"
        for card, top in zip(left, tops, strict=True)
    ]
    return drawing.path("".join(lines), "d-trouble" if troubled else "d-held")


@dataclass(frozen=True, slots=True)
class _Placed:
    position: int
    card: Card
    x: float
    y: float

    @property
    def middle(self) -> float:
        return self.y + cards.height(self.card) / 2


def whole(assessment: Assessment, links: Links, branches: Sequence[Branch]) -> Markup:
    """The whole argument, left rests on right. What is folded says how much lies beneath."""
    opened, folded = _unfolded(branches)
    made = {
        position: _card(assessment, links, branches[position], folded=position not in opened)
        for position in _reached(opened)
        if position < len(branches)
    }
    made |= {position: _held_card(branches, held) for position, held in folded.items()}
    placed = _place(made, opened)
    strokes = [
        _bracket_of(placed, position, beneath, any_one=any_of(assessment, branches[position].id))
        for position, beneath in sorted(opened.items())
    ]
    sheets = [cards.draw(one.card, one.x, one.y) for one in placed.values()]
    width = max(one.x for one in placed.values()) + cards.CARD_WIDTH + _EDGE
    tall = max(one.y + cards.height(one.card) for one in placed.values()) + _EDGE
    troubled = sum(one.verdict is not Verdict.HOLDS for one in branches if not one.see and not one.missing)
    says = (
        f"The argument from the conclusion at the left to its evidence at the right; {troubled} do not hold"
    )
    return drawing.picture(width, tall, [*strokes, *sheets], says=says)


def _unfolded(branches: Sequence[Branch]) -> tuple[dict[int, list[int]], dict[int, list[int]]]:
    """Which branches are drawn open with which children, and which children stand on one card.

    A card for several has a position beyond those of the branches.
    """
    fits = len(branches) <= MOST_CARDS
    opened: dict[int, list[int]] = {}
    together: dict[int, list[int]] = {}
    shown, waiting = 1, deque([0])
    while waiting:
        position = waiting.popleft()
        branch = branches[position]
        if not branch.children or not (fits or branch.troubled or position == 0):
            continue
        held = [] if fits else [one for one in branch.children if not branches[one].troubled]
        apart = (
            [one for one in branch.children if one not in held]
            if len(held) > (FEW if position else FEW_AT_THE_TOP)
            else branch.children
        )
        if shown + len(apart) > MOST_CARDS and not fits and position:
            continue
        opened[position] = list(apart)
        if len(apart) < len(branch.children):
            opened[position].append(len(branches) + position)
            together[len(branches) + position] = held
        shown += len(opened[position])
        waiting.extend(sorted(apart, key=lambda one: -branches[one].verdict))
    return opened, together


def _held_card(branches: Sequence[Branch], held: list[int]) -> Card:
    """One card for several that hold, with all that lies beneath them."""
    below = sum(branches[one].below for one in held)
    beneath = f", {below:,} below" if below else ""
    return Card(
        "other", Verdict.HOLDS, f"{len(held)} hold{beneath}", "in the outline", "#outline", said=False
    )


def _reached(opened: dict[int, list[int]]) -> list[int]:
    return [0, *(child for position in sorted(opened) for child in opened[position])]


def _card(assessment: Assessment, links: Links, branch: Branch, *, folded: bool) -> Card:
    if branch.missing:
        return missing_card(branch.missing, branch.verdict)
    if branch.see:
        name = name_of(assessment, branch.id)
        return Card("see", branch.verdict, name, branch.id, links.record(branch.id), f"see {branch.see}")
    corner = counts_below(branch) if folded or branch.depth == 0 else branch.number
    return card_of(assessment, links, branch.id, corner=corner)


def _place(made: dict[int, Card], opened: dict[int, list[int]]) -> dict[int, _Placed]:
    """Columns by depth. A card stands in the middle of what it rests on, at its head where that is tall."""
    blocks: dict[int, float] = {}
    for position in sorted(made, key=lambda one: (one in opened, -one)):
        beneath = opened.get(position, ())
        tall = sum(blocks[child] for child in beneath) + cards.BETWEEN * max(0, len(beneath) - 1)
        blocks[position] = max(cards.height(made[position]), tall)
    placed: dict[int, _Placed] = {}
    waiting = [(0, _EDGE, _EDGE)]
    while waiting:
        position, x, y = waiting.pop()
        beneath = opened.get(position, [])
        own = cards.height(made[position])
        lower = (blocks[position] - own) / 2 if blocks[0] <= TALL else 0.0
        placed[position] = _Placed(position, made[position], x, y + lower)
        taken = sum(blocks[child] for child in beneath) + cards.BETWEEN * max(0, len(beneath) - 1)
        top = y + ((blocks[position] - taken) / 2 if blocks[0] <= TALL else 0.0)
        for child in beneath:
            waiting.append((child, x + _STEP, top))
            top += blocks[child] + cards.BETWEEN
    return dict(sorted(placed.items()))


def _bracket_of(placed: dict[int, _Placed], position: int, beneath: Sequence[int], *, any_one: bool) -> str:
    here = placed[position]
    meets = [(placed[child].middle, placed[child].card.troubled) for child in beneath]
    x = here.x + cards.CARD_WIDTH
    drawn = cards.bracket(x, here.middle, meets, any_of=any_one)
    return drawn + cards.bracket_label(x, here.middle, any_of=any_one, count=len(meets))
