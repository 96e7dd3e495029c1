"""The strokes and texts that all drawings are made of, styled by class alone."""

from collections.abc import Iterable
from functools import lru_cache

from markupsafe import Markup, escape

from assurance.model.verdicts import Verdict
from assurance.site import marks

BUILT_WIDTH = 6.6  # of a character of 12 px, with room for a face that runs 15 % wider
SAID_WIDTH = 6.9  # of a character of the authored face at 14 px
CODE_WIDTH = 7.2  # of a character of the fixed face at 12 px


@lru_cache(maxsize=8192)
def coordinate(value: float) -> str:
    """A coordinate with one decimal at most."""
    return f"{value:.1f}".rstrip("0").rstrip(".")


def text(x: float, y: float, words: str, *, css: str = "", anchor: str = "") -> str:
    """Words at a point; `anchor` is start, middle or end."""
    attributes = (f' class="{css}"' if css else "") + (f' text-anchor="{anchor}"' if anchor else "")
    return f'<text x="{coordinate(x)}" y="{coordinate(y)}"{attributes}>{escape(words)}</text>'


def path(d: str, css: str) -> str:
    """A line of a kind."""
    return f'<path class="{css}" d="{d}"/>'


def rect(x: float, y: float, width: float, height: float, css: str) -> str:
    """A plate or sheet."""
    c = coordinate
    return f'<rect class="{css}" x="{c(x)}" y="{c(y)}" width="{c(width)}" height="{c(height)}"/>'


def verdict_mark(x: float, y: float, verdict: Verdict, *, titled: bool = False) -> str:
    """The mark of a verdict with its left upper corner at a point."""
    title = f"<title>{verdict.word}</title>" if titled else ""
    drawn = f'<path fill-rule="evenodd" d="{marks.VERDICT_PATHS[verdict]}"/>'
    place = f"translate({coordinate(x)} {coordinate(y)})"
    return f'<g class="fill-{marks.css_class(verdict)}" transform="{place}">{title}{drawn}</g>'


def linked(href: str, drawn: str) -> str:
    """A drawn thing that leads somewhere, where there is somewhere to lead."""
    return f'<a href="{escape(href)}">{drawn}</a>' if href else drawn


def picture(width: float, height: float, drawn: Iterable[str], *, says: str, css: str = "") -> Markup:
    """A whole drawing with the sentence that stands for it; links inside can be reached."""
    c = coordinate
    body = "".join(drawn)
    role = "group" if "<a " in body else "img"
    size = f'width="{c(width)}" height="{c(height)}" viewBox="0 0 {c(width)} {c(height)}"'
    return Markup(f'<svg class="draw {css}" {size} role="{role}" aria-label="{escape(says)}">{body}</svg>')


@lru_cache(maxsize=4096)
def wrapped(words: str, *, width: float, per_character: float, lines: int) -> tuple[str, ...]:
    """A text broken into lines that fit; the last one ends in an ellipsis where there is more."""
    room = max(4, int(width / per_character))
    broken: list[str] = []
    for word in words.split():
        while len(word) > room:  # a word longer than the line is cut
            broken.append(word[: room - 1] + "…")
            word = word[room - 1 :]
        if broken and not broken[-1].endswith("…") and len(broken[-1]) + 1 + len(word) <= room:
            broken[-1] += " " + word
        elif word:
            broken.append(word)
        if len(broken) > lines:
            break
    if len(broken) <= lines:
        return tuple(broken)
    last = broken[lines - 1].rstrip("…")
    if len(last) > room - 2:  # ends with a whole word where it has more than one
        last = last[: room - 2].rpartition(" ")[0] or last[: room - 2]
    return (*broken[: lines - 1], last.rstrip(" ,.;") + " …")


def cut(words: str, *, width: float, per_character: float) -> str:
    """A text on one line, ended by an ellipsis where it does not fit."""
    room = max(4, int(width / per_character))
    return words if len(words) <= room else words[: room - 1].rstrip(" ,.;") + "…"
