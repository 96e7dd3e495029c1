"""A fault found in the text of a case, before it is known in which file it stands."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from assurance.model.entry import SINGULAR
from assurance.model.names import nearest_name
from assurance.model.verdicts import Finding, Place, Weight

LONGEST_SHOWN = 60  # characters of a value that a message repeats
BLANKS = re.compile(r"[ \t\r\n]+")


@dataclass(frozen=True, slots=True)
class Spot:
    """Line and column in a text, both from 1."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong at one spot of a file."""

    rule: str
    spot: Spot
    message: str
    remedy: str


def as_finding(fault: Fault, *, file: str, record: str = "") -> Finding:
    """The finding that a fault gives in that file; all findings of the reading block."""
    place = Place(file, fault.spot.line, fault.spot.column)
    return Finding(fault.rule, Weight.BLOCKING, record, place, fault.message, fault.remedy)


def shown_value(given: object) -> str:
    """A value as a message repeats it: one line, in backticks, shortened where it is long.

    Blanks at its ends, which nobody would see, are shown in quotes; so is an empty text.
    """
    if given is None:
        return "nothing"
    text = BLANKS.sub(" ", _as_yaml(given).replace("`", "'").strip("\r\n"))
    if len(text) > LONGEST_SHOWN:
        text = text[: LONGEST_SHOWN - 1] + "…"
    return f'`"{printable(text)}"`' if text != text.strip(" ") or not text else f"`{printable(text)}`"


def printable(text: str) -> str:
    """A text in which every character that cannot be printed is written as its escape."""
    return "".join(one if one.isprintable() else repr(one)[1:-1] for one in text)


def _as_yaml(given: object) -> str:
    if isinstance(given, bool):
        return "true" if given else "false"
    if isinstance(given, dict):
        return "{" + ", ".join(f"{key}: ..." for key in given) + "}"
    if isinstance(given, tuple):
        return f"[{len(given)} items]"
    return str(given)


def did_you_mean(wrong: str, names: Sequence[str], *, otherwise: str = "") -> str:
    """`Did you mean ...?` with the nearest real name, or what to do where none is near."""
    near = nearest_name(wrong, names)
    return f"Did you mean `{near}`?" if near else otherwise


def listed(names: Sequence[str], last: str = "or") -> str:
    """Names in backticks, with `or` or `and` before the last."""
    quoted = [f"`{name}`" for name in names]
    return f" {last} ".join([", ".join(quoted[:-1]), quoted[-1]]) if len(quoted) > 1 else "".join(quoted)


def of_kind(kind: str) -> str:
    """One record of a kind in words: `a claim`, `an action`; evidence goes without article."""
    word = SINGULAR[kind]
    if word == "evidence":
        return word
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"
