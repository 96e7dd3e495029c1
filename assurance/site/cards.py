"""Claims as cards and leaves as slips, and the brackets between them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from assurance.model.verdicts import Verdict
from assurance.site import drawing, marks

CARD_WIDTH = 204.0  # three columns and their brackets make the chart width of 712
SLIP_WIDTH = CARD_WIDTH
GAP = 50.0  # between columns, for the bracket
BETWEEN = 12.0  # between the cards of a column
_LINE = 17.0
_INSET = 14.0
_TURN = 8.0  # from the upright of a bracket to the card
CardKind = Literal["claim", "evidence", "calculation", "other", "missing"]


@dataclass(frozen=True, slots=True)
class Card:
    """One claim, leaf or missing thing as it is drawn."""

    kind: CardKind
    verdict: Verdict
    text: str
    id: str = ""
    href: str = ""
    lines: tuple[tuple[str, str], ...] = ()  # words and class: tightest check, assumption, challenge
    here: bool = False
    said: bool = True  # whether a person wrote the text

    @property
    def troubled(self) -> bool:
        """Whether trouble comes through it."""
        return self.verdict is not Verdict.HOLDS


def height(card: Card) -> float:
    """The height that a card takes."""
    if card.kind == "claim":
        return 24 + _LINE * len(_statement(card)) + 16 * len(card.lines) + 20
    return 26 + 14 * len(_slip_words(card))


def draw(card: Card, x: float, y: float) -> str:
    """A card with its left upper corner at a point."""
    drawn = _claim(card, x, y) if card.kind == "claim" else _slip(card, x, y)
    return drawing.linked(card.href, drawn)


def _statement(card: Card) -> tuple[str, ...]:
    return drawing.wrapped(
        card.text, width=CARD_WIDTH - 2 * _INSET, per_character=drawing.SAID_WIDTH, lines=3
    )


def _slip_words(card: Card) -> tuple[str, ...]:
    return drawing.wrapped(card.text, width=SLIP_WIDTH - 44, per_character=drawing.BUILT_WIDTH, lines=2)


def _claim(card: Card, x: float, y: float) -> str:
    tall = height(card)
    drawn = [drawing.rect(x - 4, y - 4, CARD_WIDTH + 8, tall + 8, "d-here")] if card.here else []
    drawn += [
        drawing.rect(x, y, CARD_WIDTH, tall, "d-sheet"),
        drawing.rect(x, y, 6, tall, f"fill-{marks.css_class(card.verdict)}"),
        drawing.path(f"M{drawing.coordinate(x)} {drawing.coordinate(y + tall)}h{CARD_WIDTH:g}", "d-hair"),
        drawing.verdict_mark(x + _INSET, y + 6, card.verdict),
        drawing.text(
            x + _INSET + 18, y + 17, card.verdict.word, css=f"b fill-{marks.css_class(card.verdict)}"
        ),
    ]
    line = y + 34
    for words in _statement(card):
        drawn.append(drawing.text(x + _INSET, line, words, css="said"))
        line += _LINE
    for words, css in card.lines:
        room = CARD_WIDTH - _INSET - 8
        fitted = drawing.cut(words, width=room, per_character=drawing.BUILT_WIDTH)
        drawn.append(drawing.text(x + _INSET, line, fitted, css=css))
        line += 16
    drawn.append(_id(card, x + _INSET, line, CARD_WIDTH - _INSET - 8))
    return "".join(drawn)


def _id(card: Card, x: float, y: float, room: float) -> str:
    fitted = drawing.cut(card.id, width=room, per_character=drawing.CODE_WIDTH)
    return drawing.text(x, y, fitted, css="code")


def _slip(card: Card, x: float, y: float) -> str:
    words, tall = _slip_words(card), height(card)
    said = "said s" if card.said else ""
    drawn = [_edge(card, x, y, tall), drawing.verdict_mark(x + 10, y + 6, card.verdict, titled=True)]
    drawn += [drawing.text(x + 28, y + 17 + 14 * row, line, css=said) for row, line in enumerate(words)]
    drawn.append(_id(card, x + 28, y + tall - 8, SLIP_WIDTH - 36))
    return "".join(drawn)


def _edge(card: Card, x: float, y: float, tall: float) -> str:
    """A folded corner for evidence, a double rule under a calculation, dashes for what is missing."""
    c = drawing.coordinate
    right, bottom = x + SLIP_WIDTH, y + tall
    if card.kind == "evidence":
        outline = f"M{c(x)} {c(y)}H{c(right - 12)}l12 12V{c(bottom)}H{c(x)}z"
        return drawing.path(outline, "d-slip") + drawing.path(f"M{c(right - 12)} {c(y)}v12h12", "d-fold")
    if card.kind == "calculation":
        rules = f"M{c(x)} {c(bottom - 3)}H{c(right)}M{c(x)} {c(bottom)}H{c(right)}"
        return drawing.rect(x, y, SLIP_WIDTH, tall, "d-plain") + drawing.path(rules, "d-sum")
    if card.kind == "missing":
        css = f"d-missing d-{marks.css_class(card.verdict)}"
        return drawing.rect(x + 1, y + 1, SLIP_WIDTH - 2, tall - 2, css)
    return drawing.rect(x, y, SLIP_WIDTH, tall, "d-slip")


def bracket(x: float, y: float, children: Sequence[tuple[float, bool]], *, any_of: bool = False) -> str:
    """The bracket from a card to what it rests on: thick where trouble comes through.

    `children` are the heights at which it meets them, each with whether it is troubled.
    """
    c = drawing.coordinate
    middle, end = x + GAP - _TURN, x + GAP
    thin = [f"M{c(middle)} {c(y)}V{c(at)}H{c(end)}" for at, troubled in children if not troubled]
    thick = [f"M{c(middle)} {c(y)}V{c(at)}H{c(end)}" for at, troubled in children if troubled]
    stub = f"M{c(x)} {c(y)}H{c(middle)}"
    drawn = drawing.path("".join((*thin, "" if thick else stub)), "d-held") if thin or not thick else ""
    if thick:
        drawn += drawing.path("".join((stub, *thick)), "d-trouble")
    if any_of:
        drawn += drawing.path(f"M{c(x)} {c(y + 5)}H{c(middle)}", "d-held")
    return drawn


def bracket_label(x: float, y: float, *, any_of: bool, count: int) -> str:
    """What stands on a bracket to several: all of them, or any one."""
    if count < 2:
        return ""
    middle = x + (GAP - _TURN) / 2
    if not any_of:
        return drawing.text(middle, y - 6, "all of", css="halo", anchor="middle")
    above = drawing.text(middle, y - 6, "any", css="halo", anchor="middle")
    return above + drawing.text(middle, y + 18, "one of", css="halo", anchor="middle")
