"""What a rule of its own sees, before it carries the name and the weight of the rule."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import wraps
from typing import TypeVar, cast

from assurance.model.argument_records import Case
from assurance.model.fields import Record
from assurance.model.kinds import KINDS
from assurance.model.verdicts import Finding, Weight
from assurance.rules.view import Rule, View

Kind = TypeVar("Kind", bound=Record)
_KEY = {record: key for key, record in KINDS.items()}


@dataclass(frozen=True, slots=True)
class Seen:
    """One thing seen at a field of a record: what is wrong, and what would put it right."""

    record: str
    path: tuple[str | int, ...]
    message: str
    remedy: str


Look = Callable[[View], Iterable[Seen]]


def own_rule(look: Look, weight: Weight) -> Rule:
    """The rule that reports what a function sees, under the name of the function."""
    name = name_of(look)

    @wraps(look)
    def report(view: View) -> Iterator[Finding]:
        for seen in look(view):
            place = view.place(seen.record, *seen.path)
            yield Finding(name, weight, seen.record, place, seen.message, seen.remedy)

    return Rule(name, weight, report)


def cause_rule(look: Callable[[View], Iterable[Finding]], weight: Weight) -> Rule:
    """The rule that reports causes; `weight` is the usual one, each cause brings its own."""
    return Rule(name_of(look), weight, look)


def name_of(look: Callable[..., object]) -> str:
    """The name of a rule: that of its function, in words with hyphens."""
    return look.__name__.replace("_", "-")


def living(view: View, kind: type[Kind]) -> Iterator[tuple[str, Kind]]:
    """The records of a kind that were read whole and are not retired, by id in order."""
    records = view.living.get(_KEY[kind], ())
    return iter(cast(tuple[tuple[str, Kind], ...], records))


def nobody_names(view: View, id_: str) -> bool:
    """Whether no record relies on this one, and none that was not read whole may do so."""
    return not view.assessment.used_by.get(id_) and not view.may_be_named(id_)


def the_case(view: View) -> Case | None:
    """The case record, where it could be read."""
    entry = view.assessment.entries.get(view.assessment.case)
    return entry.record if entry and isinstance(entry.record, Case) else None


def quoted(names: Iterable[str]) -> str:
    """Names in backticks, the last after `and`."""
    each = [f"`{name}`" for name in names]
    return f"{', '.join(each[:-1])} and {each[-1]}" if len(each) > 1 else "".join(each)


def listed(words: Iterable[str]) -> str:
    """Words in a row, the last after `and`."""
    each = list(words)
    return f"{', '.join(each[:-1])} and {each[-1]}" if len(each) > 1 else "".join(each)
