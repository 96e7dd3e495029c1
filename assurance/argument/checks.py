"""One comparison of a result with a limit, and why it could not be made."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from assurance.graph.formula import Unless
from assurance.model import numbers, units
from assurance.model.argument_records import Check, Limit
from assurance.model.assessment import CheckOutcome, ResultValue
from assurance.model.quantity import Quantity
from assurance.model.verdicts import Cause, ReasonKind, Verdict
from assurance.standing.facts import Facts, Path, cause

Bound = Literal["at least", "at most"]


@dataclass(frozen=True, slots=True)
class CheckPlace:
    """Where a check stands: its claim, its argument, its number and the field."""

    claim: str
    argument: str
    index: int
    path: Path


@dataclass(frozen=True, slots=True)
class MadeCheck:
    """A check with its outcomes (one for each bound) and the causes that it lays on its claim."""

    outcomes: tuple[CheckOutcome, ...]
    causes: tuple[Cause, ...]
    backstops: tuple[Unless, ...] = ()  # a check that was not made never holds, whatever its result says


def make_check(facts: Facts, place: CheckPlace, check: Check) -> MadeCheck:
    """Compare a result with its limit or limits."""
    value = facts.results.get(check.result or "")
    outcomes, causes = [], list(_judged_by(facts, place, check))
    for bound, limit in _bounds(check):
        at = replace(place, path=(*place.path, bound.replace(" ", "_")))
        causes += _without_reason(facts, at, check, limit)
        outcome, fault = _compare(facts, at, check, value, bound, limit)
        outcomes.append(outcome)
        causes += [fault] if fault else []
    if check.result is None or not outcomes:
        lacking = "result" if check.result is None else "limit"
        causes.append(_cannot(facts, place, f"A check of `{place.claim}` has no {lacking}.",
                              "Give `result` and `at_least` or `at_most`."))  # fmt: skip
    return MadeCheck(tuple(outcomes), tuple(causes), tuple(_backstops(facts, place, check, outcomes, causes)))


def _backstops(
    facts: Facts, place: CheckPlace, check: Check, outcomes: list[CheckOutcome], causes: list[Cause]
) -> Iterator[Unless]:
    record = (check.result or "").partition(".")[0]
    if facts.broken.get(place.claim):
        return  # open for that reason, which may well be why the check is not made
    limits = [limit.record for _, limit in _bounds(check) if limit.record]
    if any(facts.kind(one) and facts.record(one) is None for one in limits):
        return  # the claim needs its limit, which could not be read and is told by itself
    not_made = any(one.judged is None for one in outcomes)
    if not_made and not causes and facts.kind(record):
        yield Unless(record, _not_made(facts, place, check, ""))


def _not_made(facts: Facts, at: CheckPlace, check: Check, why: str) -> Cause:
    text = f"The check of `{check.result}` cannot be made: it has no value" + (f" ({why})." if why else ".")
    return _cannot(facts, at, text, "Check a result that can be worked out, or argue without it.")


def _bounds(check: Check) -> Iterator[tuple[Bound, Limit]]:
    if check.at_least is not None:
        yield "at least", check.at_least
    if check.at_most is not None:
        yield "at most", check.at_most


def _judged_by(facts: Facts, place: CheckPlace, check: Check) -> Iterator[Cause]:
    if check.judge_by == "nominal" and not check.because:
        yield cause(
            facts, place.claim, ReasonKind.LIMIT_WITHOUT_REASON, Verdict.OPEN,
            f"The check of `{check.result}` judges the nominal value and gives no reason.",
            "Say why under `because`, or leave `judge_by` out.", path=(*place.path, "judge_by"),
        )  # fmt: skip


def _without_reason(facts: Facts, at: CheckPlace, check: Check, limit: Limit) -> Iterator[Cause]:
    """A typed limit needs a reason; the comparison is made all the same."""
    if limit.value is not None and not check.because:
        yield cause(
            facts, at.claim, ReasonKind.LIMIT_WITHOUT_REASON, Verdict.OPEN,
            f"The limit {limit.value} for `{check.result}` has no reason.",
            "Say under `because` where it comes from, or name a requirement.", path=at.path,
        )  # fmt: skip


def _compare(
    facts: Facts, at: CheckPlace, check: Check, value: ResultValue | None, bound: Bound, limit: Limit
) -> tuple[CheckOutcome, Cause | None]:
    wanted = _limit_quantity(facts, limit)
    fault = _fault(facts, at, check, value, limit, wanted)
    number, unit = (None, "") if wanted is None else (wanted.value, wanted.unit)
    outcome = CheckOutcome(
        at.argument, at.index, check.result or "", value, bound, number, unit,
        limit.record or "", None, None, Verdict.OPEN, check.because or "",
    )  # fmt: skip
    if fault is not None or value is None or value.value is None or number is None:
        return outcome, fault
    judged = numbers.published(units.convert(_judged(value, bound, check), given=value.unit, wanted=unit))
    margin = judged - number if bound == "at least" else number - judged
    verdict = Verdict.HOLDS if margin >= 0 else Verdict.FAILS
    outcome = replace(outcome, judged=judged, margin=margin, verdict=verdict)
    return outcome, _fails(facts, at, outcome) if margin < 0 else None


def _judged(value: ResultValue, bound: Bound, check: Check) -> float:
    """The end of the interval that speaks against the claim; the value itself without one."""
    assert value.value is not None
    if check.judge_by == "nominal" and check.because:
        return value.value
    end = value.lower if bound == "at least" else value.upper
    return value.value if end is None else end


def _limit_quantity(facts: Facts, limit: Limit) -> Quantity | None:
    """The number of a limit, its own or of the record it names; None where there is none."""
    if limit.record is None:
        return limit.value
    value: Quantity | None = getattr(facts.record(limit.record), "value", None)
    return value


def _fault(
    facts: Facts,
    at: CheckPlace,
    check: Check,
    value: ResultValue | None,
    limit: Limit,
    wanted: Quantity | None,
) -> Cause | None:
    told = _limit_fault(facts, at, check, limit, wanted)
    if told is not None or wanted is None:
        return told
    if value is None:
        return None if check.result is None else _no_result(facts, at, check)
    if not units.same_dimension(value.unit, wanted.unit):
        measured, asked = units.unit(value.unit).dimension, wanted.dimension
        text = f"`{check.result}` is {measured} and its limit is {asked}."
        return _cannot(facts, at, text, "Give the limit in the unit of the result.")
    if limit.record in value.factors:
        return cause(
            facts, at.claim, ReasonKind.FACTOR_COUNTED_TWICE, Verdict.OPEN,
            f"The factor `{limit.record}` is inside `{check.result}` and cannot be its limit as well.",
            "Name a requirement for the reserve factor, such as 1.0.", path=at.path,
        )  # fmt: skip
    if value.value is None and value.undefined:
        return _not_made(facts, at, check, value.why_not.rstrip("."))
    return None


def _limit_fault(
    facts: Facts, at: CheckPlace, check: Check, limit: Limit, quantity: Quantity | None
) -> Cause | None:
    """Why a limit is none: nothing where the record it names cannot be read, which is told already."""
    if limit.value is not None and limit.record is not None:
        text = f"The limit for `{check.result}` is both a number and `{limit.record}`."
        return _cannot(facts, at, text, "Keep one of `value` and `record`.")
    if limit.record is not None and facts.record(limit.record) is None:
        return None
    if quantity is None:
        named = f"`{limit.record}`" if limit.record else "that is written"
        return _cannot(facts, at, f"The limit {named} for `{check.result}` has no value.",
                       "Name a requirement that has a `value`, or a number with `because`.")  # fmt: skip
    if quantity.half_width is not None:
        text = f"The limit {quantity} for `{check.result}` has an uncertainty; a limit is one number."
        return _cannot(facts, at, text, "Put the uncertainty into the result, or the margin into the limit.")
    return None


def _no_result(facts: Facts, at: CheckPlace, check: Check) -> Cause | None:
    record = (check.result or "").partition(".")[0]
    if facts.kind(record) and facts.record(record) is None:
        return None  # the claim needs that record, which could not be read
    written = facts.case.locate(at.claim, (*at.path[:-1], "result"))
    if any(finding.place == written for finding in facts.broken.get(at.claim, ())):
        return None  # the reading has told it
    return _cannot(facts, at, f"The check of `{check.result}` cannot be made: there is no such value.",
                   "Name a result that exists.")  # fmt: skip


def _cannot(facts: Facts, at: CheckPlace, text: str, remedy: str) -> Cause:
    return cause(facts, at.claim, ReasonKind.CHECK_CANNOT_BE_MADE, Verdict.OPEN, text, remedy, path=at.path)


def _fails(facts: Facts, at: CheckPlace, outcome: CheckOutcome) -> Cause:
    assert outcome.judged is not None
    assert outcome.limit is not None
    value, limit = numbers.beside(outcome.judged, outcome.limit)
    unit = outcome.limit_unit
    needed = f"{outcome.bound} {numbers.with_unit(limit, unit)} is needed"
    end = "" if outcome.value is None or outcome.value.lower is None else ", the adverse end of its interval"
    return cause(
        facts, at.claim, ReasonKind.CHECK_FAILS, Verdict.FAILS,
        f"`{outcome.result}` is {numbers.with_unit(value, unit)}{end}; {needed}.",
        "Change the design until it passes; a limit is changed only with its source.", path=at.path,
    )  # fmt: skip
