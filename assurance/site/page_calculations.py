"""The Calculations page: what is worked out, by which method, with which results."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.site import wording
from assurance.site.links import Link
from assurance.site.page_calculation import NEVER_WORKED
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View

MOST_RESULTS = 4  # results named in the list; the sheet has them all


@dataclass(frozen=True, slots=True)
class CalculationRow:
    """One calculation of the case."""

    mark: Markup
    title: str
    id: str
    href: str
    method: str
    results: tuple[Link, ...]
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
    rows = tuple(_row(view, id_) for id_ in ids[:MOST_ROWS])
    return CalculationsPage(wording.counted(len(ids), "calculation"), rows, more_rows(len(ids)))


def _row(view: View, id_: str) -> CalculationRow:
    named = view.links.named(id_)
    work = view.assessment.worked.get(id_, NEVER_WORKED)
    used = len(view.assessment.used_by.get(id_, ()))
    results = tuple(
        Link(f"{wording.label(name)} {wording.value(value)}", view.links.result(f"{id_}.{name}"))
        for name, value in list(work.results.items())[:MOST_RESULTS]
    )
    return CalculationRow(named.mark, named.name, id_, named.href, work.method, results, f"{used}")
