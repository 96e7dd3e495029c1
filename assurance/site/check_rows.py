"""Checks as rows: value, limit and margin, never rounded to the wrong side of the limit."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import numbers
from assurance.model.assessment import CheckOutcome
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.result_rows import ROUNDED_DOWN
from assurance.site.view import View

_WORDS = {Verdict.HOLDS: "passes", Verdict.FAILS: "fails", Verdict.OPEN: "cannot be made"}


@dataclass(frozen=True, slots=True)
class CheckRow:
    """One check of a claim."""

    mark: Markup
    result: str
    href: str
    word: str
    tag: str
    value: str
    interval: str
    limit: str
    limit_href: str
    limit_record: str
    margin: str
    because: Markup


def check_row(check: CheckOutcome, view: View) -> CheckRow:
    """A check for a reader."""
    return CheckRow(
        mark=marks.mark(check.verdict),
        result=check.result,
        href=view.links.result(check.result),
        word=_WORDS.get(check.verdict, check.verdict.word),
        tag=view.tag(check.value) if check.value else "",
        value=value_shown(check),
        interval=wording.interval(check.value) if check.value else "",
        limit=limit_shown(check),
        limit_href=view.links.record(check.limit_record),
        limit_record=check.limit_record,
        margin=_margin_shown(check),
        because=view.links.say(wording.sentence(check.because)),
    )


def value_shown(check: CheckOutcome) -> str:
    """The value of a check, rounded toward its limit and so never to the better side."""
    if check.value is None or check.value.value is None:
        return wording.NOT_WORKED_OUT
    toward = "up" if check.bound == "at most" else "down"
    return numbers.with_unit(wording.toward_limit(check.value.value, toward), check.value.unit)


def limit_shown(check: CheckOutcome) -> str:
    """The limit as it was written, with the side on which it lies."""
    if check.limit is None:
        return f"{check.bound} (not stated)"
    limit = numbers.with_unit(numbers.as_written(check.limit), check.limit_unit)
    return f"{check.bound} {limit}".replace(" ", numbers.NO_BREAK_SPACE)


def comparison(check: CheckOutcome, name: str = "") -> str:
    """A check in one line, such as 2.71 kN ≤ 3.20 kN peak force; `name` is what the result is called."""
    passes, fails = ("≤", ">") if check.bound == "at most" else ("≥", "<")
    if check.value is None or check.value.value is None or check.limit is None:
        return f"{name or check.result}: {wording.NOT_WORKED_OUT}"
    sign = fails if check.verdict is Verdict.FAILS else passes
    limit = numbers.with_unit(numbers.as_written(check.limit), check.limit_unit)
    judged = check.judged if check.judged is not None else check.value.value
    unit = check.limit_unit if check.judged is not None else check.value.unit
    toward = "up" if check.bound == "at most" else "down"
    name = name or check.result.partition(".")[2].replace("_", " ")
    shown = _reserve_shown(check, judged) or wording.toward_limit(judged, toward)
    return f"{numbers.with_unit(shown, unit)} {sign} {limit} {name}"


def _reserve_shown(check: CheckOutcome, judged: float) -> str:
    """A reserve factor with its two decimals, unless they would put it on the wrong side of its limit."""
    if check.result.partition(".")[2] not in ROUNDED_DOWN or check.limit is None:
        return ""
    down = math.floor(round(100 * judged, 9)) / 100
    return numbers.reserve(judged) if (down < check.limit) == (judged < check.limit) else ""


def tightest(checks: Iterable[CheckOutcome]) -> CheckOutcome | None:
    """The check with the least margin for its limit; one that could not be made comes last."""
    made = [one for one in checks if one.margin is not None]
    return min(made, key=_relative, default=None)


def _relative(check: CheckOutcome) -> float:
    margin = check.margin or 0.0
    return margin / abs(check.limit) if check.limit else margin


def _margin_shown(check: CheckOutcome) -> str:
    if check.margin is None:
        return ""
    margin = numbers.with_unit(numbers.shown(check.margin, 3, toward="down"), check.limit_unit)
    if not check.limit:
        return margin
    share = numbers.fixed(100 * check.margin / abs(check.limit), 0, toward="down")
    return f"{margin} ({share}{numbers.NO_BREAK_SPACE}%)"
