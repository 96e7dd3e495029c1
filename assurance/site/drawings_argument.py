"""The argument around one claim drawn: what relies on it at the left, what it rests on at the right."""

from collections.abc import Sequence

from markupsafe import Markup

from assurance.model.assessment import Assessment
from assurance.model.verdicts import Verdict
from assurance.site import cards, drawing
from assurance.site.argument_tree import absent_of, any_of, card_of, children_of, missing_card
from assurance.site.cards import Card
from assurance.site.links import Links

MOST_ABOVE = 5  # cards on the side that relies on a claim
MOST_BELOW = 12
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
