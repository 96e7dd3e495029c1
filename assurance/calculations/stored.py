"""What a calculation gave, as plain JSON and back; anything of another shape is not there."""

import hashlib
import json
import re
from collections.abc import Iterable
from dataclasses import replace
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from assurance.calculations.bound import Inputs
from assurance.model import numbers
from assurance.model.assessment import Fault, ResultValue, Worked
from assurance.model.methods import Method, Outcome, ResultSpec
from assurance.model.steps import well_formed
from assurance.model.verdicts import ReasonKind
from assurance.store import Store

MOST_READY = 20_000  # calculations that a process keeps ready, taken apart
_MAY_BE_ENDLESS = re.compile(rb"NaN|Infinity|[eE]\+?[0-9]{3}")  # in words too, which are then looked at


@cache
def _shape() -> TypeAdapter[Worked]:
    return TypeAdapter(Worked)


def to_plain(worked: Worked) -> dict[str, Any]:
    """A worked calculation as JSON objects, lists, text and numbers."""
    plain: dict[str, Any] = _shape().dump_python(worked, mode="json")
    return plain


@lru_cache(maxsize=MOST_READY)
def from_json(text: bytes) -> Worked | None:
    """A worked calculation from JSON, or None where any type or tree is not as it must be."""
    try:
        worked = _shape().validate_json(_finite(text), strict=True)
    except (ValidationError, ValueError, RecursionError):
        return None
    return worked if worked.sheet is None or well_formed(worked.sheet) else None


def _finite(text: bytes) -> bytes:
    """The same JSON. Raises `ValueError` where it holds a number that is none, such as `NaN` or `1e999`."""
    if not _MAY_BE_ENDLESS.search(text):
        return text
    return json.dumps(json.loads(text), allow_nan=False).encode("ascii")


def fetch(store: Store | None, key: str, id_: str, method: Method) -> Worked | None:
    """What the store has under the key, for this calculation, if it is what the method gives."""
    text = store.text(key) if store else None
    worked = from_json(text) if text else None
    names = {spec.name for spec in method.results}
    if worked is None or set(worked.results) != names:
        return None
    if worked.faults and worked.id != id_:  # a fault names the calculation that it was found in
        return None
    if (worked.method, worked.version) != (method.name, method.version):
        return None
    return replace(worked, id=id_)


def keep(store: Store | None, key: str, worked: Worked, *, read: Iterable[tuple[str, str]] = ()) -> None:
    """Put a worked calculation into the store.

    `read` names the files that it was worked out from, each with the digest that the key knows. One that
    was written meanwhile may have given its new rows under the old key: then nothing is kept.
    """
    if store and all(_digest(path) == sha256 for path, sha256 in read):
        store.put(key, to_plain(worked))


def _digest(path: str) -> str:
    try:
        with Path(path).open("rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()
    except OSError:
        return ""


def nothing(id_: str, method: Method, faults: tuple[Fault, ...], why: str) -> Worked:
    """No result at all, with the reason on each."""
    blocking = [one.text for one in faults if one.kind is ReasonKind.RESULT_NOT_WORKED_OUT]
    reason = blocking[0].rstrip(".") if blocking else why
    results = {spec.name: ResultValue(None, "", why_not=reason, whole=spec.whole) for spec in method.results}
    return Worked(id_, method.name, method.version, results, faults=unique(faults))


def unique(faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Each fault once, in order: one that is found at several fields is told at the first."""
    found: dict[tuple[object, ...], Fault] = {}
    for one in faults:
        found.setdefault((one.kind, one.verdict, one.text, one.results), one)
    return tuple(found.values())


def results_of(method: Method, outcome: Outcome, given: Inputs) -> dict[str, ResultValue]:
    """The results of a method, rounded as they are published, ends of intervals outward."""
    inside = tuple(dict.fromkeys(name for one in given.numbers.values() for name in one.factors))
    return {
        spec.name: _result(spec, outcome, unit=_unit_of(spec, given), factors=inside)
        for spec in method.results
    }


def _unit_of(spec: ResultSpec, given: Inputs) -> str:
    return given.unit_of(spec.unit[1:]) if spec.unit.startswith("@") else spec.unit


def _result(spec: ResultSpec, outcome: Outcome, *, unit: str, factors: tuple[str, ...]) -> ResultValue:
    value = outcome.values.get(spec.name)
    if value is None:
        return ResultValue(None, unit, why_not=outcome.why_not[spec.name].text, whole=spec.whole)
    digits = numbers.SOLVED_DIGITS if spec.solved else numbers.EXACT_DIGITS
    lower, upper = outcome.intervals.get(spec.name, (None, None))
    return ResultValue(
        numbers.published(value, solved=spec.solved),
        unit,
        None if lower is None else numbers.rounded(lower, digits, toward="down"),
        None if upper is None else numbers.rounded(upper, digits, toward="up"),
        solved=spec.solved,
        basis=spec.basis,
        factors=factors,
        whole=spec.whole,
    )
