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


def floor(formula: Formula) -> Verdict:
    """The verdict that a formula is not better than, whichever one of its causes is gone.

    That is the second worst among the causes that count whatever else there is.
    """
    worst: dict[str, Verdict] = {}
    waiting: list[Formula] = [formula]
    while waiting:
        part = waiting.pop()
        if isinstance(part, All):
            waiting += part.parts
        elif isinstance(part, Laid):
            worst[part.cause.key] = max(part.cause.verdict, worst.get(part.cause.key, H))
    return sorted(worst.values())[-2] if len(worst) > 1 else H


def links(formula: Formula) -> list[Link]:
    """Every link of a formula, in order of writing."""
    found = []
    for part in _parts(formula):
        if isinstance(part, Link):
            found.append(part)
        elif isinstance(part, Unless):
            found.append(Link(part.id))
    return found


def keys(formula: Formula) -> list[str]:
    """The key of every fault that the verdict of a formula can depend on."""
    found = []
    for part in _parts(formula):
        if isinstance(part, (Laid, Unless, Guard)):
            found.append(part.cause.key)
        if isinstance(part, Guard):
            found += part.adverse
    return found


def _parts(formula: Formula) -> list[Formula]:
    """A formula and all formulas inside it, in order of writing."""
    found: list[Formula] = []
    waiting = [formula]
    while waiting:
        part = waiting.pop()
        found.append(part)
        if isinstance(part, (All, Best)):
            waiting += reversed(part.parts)
        elif isinstance(part, Guard):
            waiting.append(part.part)
    return found


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
