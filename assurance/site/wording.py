"""The words of the pages: answers, sentences, dates, counts, and who is meant."""

import math
from dataclasses import dataclass
from datetime import date

from assurance.model import numbers
from assurance.model.argument_records import Case
from assurance.model.assessment import Assessment, ResultValue
from assurance.model.verdicts import Verdict


@dataclass(frozen=True, slots=True)
class Definition:
    """A word and what it means."""

    term: str
    means: str


CAUTION = (
    "These pages order and check an argument. They do not replace competent judgement, "
    "local codes or licensed practice."
)
STRENGTH_WORDS = (
    Definition(
        "Reserve factor",
        "what the part can carry, divided by what is applied with every factor put on. A factor that is in "
        "the load already is taken out of it first, so that each counts once.",
    ),
    Definition("Margin of safety", "the reserve factor less one."),
)
FEW_CHARACTERS = 6  # a number that short is printed as it is
NOT_WORKED_OUT = "not worked out"
NOT_GOVERNED = "not defined"  # all went well, but nothing governs
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_COUNTED = (
    "No",
    "One",
    "Two",
    "Three",
    "Four",
    "Five",
    "Six",
    "Seven",
    "Eight",
    "Nine",
    "Ten",
    "Eleven",
    "Twelve",
)
_ANSWERS = {
    Verdict.HOLDS: ("Not before the statement of fitness for use is issued.", "Not before the statement"),
    Verdict.PROVISIONAL: ("Not without a dispensation.", "Not without a dispensation"),
    Verdict.OUT_OF_DATE: ("Not now.", "Not now"),
    Verdict.OPEN: ("Not yet.", "Not yet"),
    Verdict.FAILS: ("No.", "No"),
}


def answer(verdict: Verdict) -> str:
    """The answer to whether a person may use the item today.

    Never yes: that takes a statement of fitness for use in force.
    """
    return _ANSWERS[verdict][0]


def none_missing(verdict: Verdict, *, concluding: bool) -> str:
    """What stands where a list of what is missing has no line."""
    if not concluding:
        return "No claim concludes yet, so nothing is measured. Name one under `top_claims` of the case."
    if verdict is Verdict.HOLDS:
        return "Nothing is missing. Ask for the statement of fitness for use."
    return "Nothing beneath the conclusion is missing; what keeps it from holding stands on its own page."


def short_answer(verdict: Verdict) -> str:
    """The answer as the title block has room for it."""
    return _ANSWERS[verdict][1]


def day(given: date | None) -> str:
    """A date for a reader, such as 12 Mar 2026."""
    return (
        f"{given.day} {_MONTHS[given.month - 1]} {given.year}".replace(" ", numbers.NO_BREAK_SPACE)
        if given
        else ""
    )


def late(due: date | None, *, as_of: date | None) -> str:
    """How long ago it was due, or nothing."""
    if due is None or as_of is None or due >= as_of:
        return ""
    return f"{counted((as_of - due).days, 'day')} late"


def counted(count: int, noun: str, plural: str = "") -> str:
    """A count and its noun: 1 claim, 2 claims."""
    return f"{count:,}{numbers.NO_BREAK_SPACE}{noun if count == 1 else plural or noun + 's'}"


def do_not_hold(count: int) -> str:
    """What is said after a count of those that do not hold."""
    return "does not hold" if count == 1 else "do not hold"


def in_words(count: int) -> str:
    """A count at the head of a sentence."""
    return _COUNTED[count] if count < len(_COUNTED) else f"{count:,}"


def value(result: ResultValue, *, toward: str = "nearest") -> str:
    """A result with its unit, or that it could not be worked out; `toward` is where its limit lies."""
    if result.value is None:
        return NOT_GOVERNED if result.undefined else NOT_WORKED_OUT
    return numbers.with_unit(toward_limit(result.value, toward), result.unit)


def toward_limit(value: float, toward: str) -> str:
    """A number with all its digits where they are few, else rounded to one side."""
    exact = numbers.published(value)
    if math.isclose(exact, value, rel_tol=1e-15) and len(numbers.as_written(exact)) <= FEW_CHARACTERS:
        return numbers.as_written(exact)
    return numbers.shown(value, toward=toward)


def interval(result: ResultValue) -> str:
    """The interval of a result, rounded outward, or nothing."""
    if result.lower is None or result.upper is None:
        return ""
    lower = toward_limit(result.lower, "down")
    upper = toward_limit(result.upper, "up")
    return numbers.with_unit(f"{lower} to {upper}".replace(" ", numbers.NO_BREAK_SPACE), result.unit)


def sentence(text: str) -> str:
    """A text with a capital at its head and a full stop at its end."""
    text = text.strip()
    if not text:
        return ""
    head = text if text[0] == "`" else text[0].upper() + text[1:]
    return head if head[-1] in ".!?" else head + "."


def label(name: str) -> str:
    """A key as a column word: `load_case` becomes Load case."""
    words = name.replace("_", " ").replace("-", " ") if " " not in name else name
    return words[:1].upper() + words[1:]


class People:
    """Says who is meant by a name, a role or an organisation of the case."""

    def __init__(self, assessment: Assessment) -> None:
        record = assessment.entries[assessment.case].record if assessment.case in assessment.entries else None
        self._names: dict[str, str] = {}
        if isinstance(record, Case):
            self._names = {id_: one.name for id_, one in record.organisations.items()}
            self._names |= {id_: one.name for id_, one in record.people.items()}

    def __call__(self, given: str) -> str:
        """The name of a person or organisation; a role as a phrase; nobody for nothing."""
        return self._names.get(given) or (label(given) if given else "Nobody named")
