"""The Calculations page: what is worked out, by which method, with the results that are used."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.assessment import CheckOutcome, ResultValue
from assurance.model.engineering_records import Calculation
from assurance.site import wording
from assurance.site.check_rows import limit_shown
from assurance.site.links import Link
from assurance.site.page_calculation import NEVER_WORKED
from assurance.site.result_rows import checks_by_result, listed_value, result_name, used_elsewhere
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View

MOST_RESULTS = 4  # results named in the list; the sheet has them all


@dataclass(frozen=True, slots=True)
class ResultLine:
    """One result that something uses, with its limit, or why there is none."""

    name: Link
    value: str
    limit: str
    why_not: str


@dataclass(frozen=True, slots=True)
class CalculationRow:
    """One calculation of the case."""

    mark: Markup
    title: str
    id: str
    href: str
    method: str
    results: tuple[ResultLine, ...]
    used_by: str


@dataclass(frozen=True, slots=True)
class CalculationsPage:
    """What `calculations.html` shows."""

    count: str
    rows: tuple[CalculationRow, ...]
    more: str


def calculations_page(view: View) -> CalculationsPage:
    """The Calculations page of a case."""
    ids = list(view.assessment.of_kind("calculations"))
    ids.sort(key=lambda id_: (-view.links.verdict(id_), id_))
    checks, used = checks_by_result(view), used_elsewhere(view)
    rows = tuple(_row(view, id_, checks, used) for id_ in ids[:MOST_ROWS])
    return CalculationsPage(_count(len(ids)), rows, more_rows(len(ids)))


def _count(count: int) -> str:
    return wording.counted(count, "calculation") if count else "Calculations"


def _row(view: View, id_: str, checks: dict[str, list[CheckOutcome]], used: set[str]) -> CalculationRow:
    named = view.links.named(id_)
    record = view.assessment.entries[id_].record
    method = record.method if isinstance(record, Calculation) else ""
    results = view.assessment.worked.get(id_, NEVER_WORKED).results
    wanted = [name for name in results if f"{id_}.{name}" in checks or f"{id_}.{name}" in used]
    return CalculationRow(
        mark=named.mark,
        title=named.name,
        id=id_,
        href=named.href,
        method=method,
        results=tuple(
            _line(view, method, f"{id_}.{name}", results[name], checks.get(f"{id_}.{name}", ()))
            for name in (wanted or list(results)[:1])[:MOST_RESULTS]
        ),
        used_by=f"{len(view.assessment.used_by.get(id_, ())):,}",
    )


def _line(
    view: View, method: str, reference: str, value: ResultValue, checks: Sequence[CheckOutcome]
) -> ResultLine:
    name = reference.partition(".")[2]
    return ResultLine(
        name=Link(result_name(method, name), view.links.result(reference)),
        value=listed_value(name, value, {one.bound for one in checks}),
        limit=", ".join(dict.fromkeys(limit_shown(one) for one in checks)),
        why_not=wording.sentence(value.why_not),
    )
