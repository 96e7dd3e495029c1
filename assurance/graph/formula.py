"""What a verdict is made of: causes laid on a record and links to what it needs, in groups.

A formula is data. Evaluating it again with one cause gone tells what that cause holds up.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from assurance.model.verdicts import Cause, Verdict

H, P, T, O, F = Verdict  # noqa: E741 - the five verdicts, best first
Through = tuple[Verdict, Verdict, Verdict, Verdict, Verdict]
AS_IT_IS: Through = (H, P, T, O, F)
GROUND_OF_A_WORD: Through = (H, P, O, O, O)  # an answer: a weaker ground takes the word away
GROUND_OF_A_CONFIRMATION: Through = (H, P, P, P, O)  # back to unconfirmed; one that fails opens
ALL_MUST_HOLD: Through = (H, O, O, O, O)  # what closes an action


@dataclass(frozen=True, slots=True)
class Laid:
    """A cause at this record."""

    cause: Cause


@dataclass(frozen=True, slots=True)
class Link:
    """Another record that this one needs; `through` says what its verdict does here."""

    id: str
    through: Through = AS_IT_IS


@dataclass(frozen=True, slots=True)
class All:
    """The worst of its parts."""

    parts: tuple["Formula", ...]


@dataclass(frozen=True, slots=True)
class Best:
    """The best of its parts: alternatives."""

    parts: tuple["Formula", ...]


@dataclass(frozen=True, slots=True)
class Guard:
    """A cause that counts only while an alternative fails, or one of these faults lies beneath it."""

    part: "Formula"
    cause: Cause
    adverse: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unless:
    """A cause that counts while a record holds: where that one does not, it says enough by itself."""

    id: str
    cause: Cause


Formula = Laid | Link | All | Best | Guard | Unless
Verdicts = Mapping[str, Verdict]
NOTHING_GONE: frozenset[str] = frozenset()


def verdict(formula: Formula, verdicts: Verdicts, gone: frozenset[str] = NOTHING_GONE) -> Verdict:
    """The verdict that a formula gives, with the causes of these keys gone."""
    if isinstance(formula, Link):
        return formula.through[verdicts[formula.id]]
    if isinstance(formula, Laid):
        return H if formula.cause.key in gone else formula.cause.verdict
    if isinstance(formula, Guard):
        return formula.cause.verdict if _guard_counts(formula, verdicts, gone) else H
    if isinstance(formula, Unless):
        return H if gone or verdicts[formula.id] != H else formula.cause.verdict
    if not formula.parts:
        return H
    each = [verdict(part, verdicts, gone) for part in formula.parts]
    return max(each) if isinstance(formula, All) else min(each)


def _guard_counts(guard: Guard, verdicts: Verdicts, gone: frozenset[str]) -> bool:
    if guard.cause.key in gone:
        return False
    if any(key not in gone for key in guard.adverse):
        return True
    return verdict(guard.part, verdicts, gone) == F


def links(formula: Formula) -> Iterator[Link]:
    """Every link of a formula, in order of writing."""
    if isinstance(formula, Link):
        yield formula
    elif isinstance(formula, Guard):
        yield from links(formula.part)
    elif isinstance(formula, Unless):
        yield Link(formula.id)
    elif isinstance(formula, All | Best):
        for part in formula.parts:
            yield from links(part)


def keys(formula: Formula) -> Iterator[str]:
    """The key of every fault that the verdict of a formula can depend on."""
    if isinstance(formula, Laid | Unless):
        yield formula.cause.key
    elif isinstance(formula, Guard):
        yield formula.cause.key
        yield from formula.adverse
        yield from keys(formula.part)
    elif isinstance(formula, All | Best):
        for part in formula.parts:
            yield from keys(part)


def grounds(formula: Formula, verdicts: Verdicts) -> Iterator[Laid | Link | Guard | Unless]:
    """The parts for which a formula does not hold: its own causes and what it needs.

    Of alternatives only those of the one that stands; a guard that counts is a cause by itself.
    """
    if isinstance(formula, Best):
        if formula.parts:
            yield from grounds(min(formula.parts, key=lambda part: verdict(part, verdicts)), verdicts)
    elif isinstance(formula, All):
        for part in formula.parts:
            yield from grounds(part, verdicts)
    elif verdict(formula, verdicts) != H:
        yield formula
