"""The Calculations page: what is worked out, by which method, with the results that are used."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.assessment import CheckOutcome, ResultValue
from assurance.model.engineering_records import Calculation
from assurance.site import wording
from assurance.site.cells import beneath, counted_line, named_cell, to
from assurance.site.check_rows import limit_shown
from assurance.site.links import Link
from assurance.site.page_calculation import NEVER_WORKED
from assurance.site.pieces import code
from assurance.site.result_rows import checks_by_result, listed_value, result_name, used_elsewhere
from assurance.site.table_groups import Grouping
from assurance.site.tables import Column, Field, Table, TableOf, table
from assurance.site.view import View

MOST_RESULTS = 4  # results named in the list; the sheet has them all


@dataclass(frozen=True, slots=True)
class ResultLine:
    """One result of a calculation, with the checks that compare it."""

    name: str
    value: ResultValue
    checks: Sequence[CheckOutcome]
    used: bool


@dataclass(frozen=True, slots=True)
class CalculationsPage:
    """What `calculations.html` shows."""

    count: str
    calculations: Table | None


def calculations_page(view: View) -> CalculationsPage:
    """The Calculations page of a case."""
    ids = list(view.assessment.of_kind("calculations"))
    ids.sort(key=lambda id_: (-view.links.verdict(id_), id_))
    return CalculationsPage(
        count=wording.counted(len(ids), "calculation") if ids else "Calculations",
        calculations=table("calculations", _calculations_table(view), ids, root=view.links.root),
    )


def _calculations_table(view: View) -> TableOf[str]:
    """How calculations are shown: what cannot be relied on first."""
    results = _results_of(view)
    return TableOf(
        caption="Calculations",
        columns=_columns(view, results),
        fields=_fields(view, results),
        groupings=(Grouping("method", lambda id_: _method(view, id_), _method_line, lambda one: one),),
        nothing="No calculation matches.",
    )


def _columns(view: View, results: Callable[[str], Sequence[ResultLine]]) -> tuple[Column[str], ...]:
    links = view.links
    return (
        Column("Verdict", lambda id_: links.named(id_).mark, lambda id_: -links.verdict(id_), "mk",
               unseen=True),
        Column("Calculation", lambda id_: named_cell(links.named(id_)), links.name, "what", names_row=True),
        Column("Method", lambda id_: _method_cell(view, id_), lambda id_: _method(view, id_) or None, "nb",
               "Method"),
        Column("Results", lambda id_: _lines(view, id_, results(id_)), word="Results"),
        Column("Used by", lambda id_: f"{_used_by(view, id_):,}", lambda id_: _used_by(view, id_), "num",
               "Used by", falling=True),
    )  # fmt: skip


def _fields(view: View, results: Callable[[str], Sequence[ResultLine]]) -> tuple[Field[str], ...]:
    return (
        Field("verdict", lambda id_: view.links.verdict(id_).word),
        Field("id", lambda id_: id_),
        Field("title", view.links.name),
        Field("method", lambda id_: _method(view, id_)),
        Field("results", lambda id_: "; ".join(_in_words(view, id_, one) for one in results(id_))),
        Field("used by [records]", lambda id_: _used_by(view, id_)),
        Field("file", lambda id_: view.assessment.entries[id_].place.file),
        Field("line", lambda id_: view.assessment.entries[id_].place.line),
    )


def _results_of(view: View) -> Callable[[str], Sequence[ResultLine]]:
    """The results of a calculation that something uses, or the first where nothing uses any."""
    checks, used = checks_by_result(view), used_elsewhere(view)

    def of(id_: str) -> Sequence[ResultLine]:
        found = [
            ResultLine(name, value, checks.get(f"{id_}.{name}", ()), f"{id_}.{name}" in used)
            for name, value in view.assessment.worked.get(id_, NEVER_WORKED).results.items()
        ]
        return ([one for one in found if one.checks or one.used] or found[:1])[:MOST_RESULTS]

    return of


def _lines(view: View, id_: str, results: Sequence[ResultLine]) -> Markup:
    return Markup("").join(_line(view, id_, one) for one in results) or Markup("not worked out")


def _line(view: View, id_: str, one: ResultLine) -> Markup:
    name = to(Link(result_name(_method(view, id_), one.name), view.links.result(f"{id_}.{one.name}")))
    limit = "".join(f", {said}" for said in _limits(one))
    return Markup('<span class="result">{} <b class="nb">{}</b>{}{}</span>').format(
        name, _value(one), limit, beneath(wording.sentence(one.value.why_not))
    )


def _in_words(view: View, id_: str, one: ResultLine) -> str:
    said = " ".join((result_name(_method(view, id_), one.name), _value(one)))
    return ", ".join((said, *_limits(one)))


def _value(one: ResultLine) -> str:
    return listed_value(one.name, one.value, {check.bound for check in one.checks})


def _limits(one: ResultLine) -> tuple[str, ...]:
    return tuple(dict.fromkeys(limit_shown(check) for check in one.checks))


def _method(view: View, id_: str) -> str:
    record = view.assessment.entries[id_].record
    return record.method if isinstance(record, Calculation) else ""


def _method_cell(view: View, id_: str) -> Markup:
    method = _method(view, id_)
    return code(method, view.links.method(method)) if method else Markup("not read")


def _method_line(key: str, rows: Sequence[str]) -> Markup:
    count = wording.counted(len(rows), "calculation")
    return counted_line(key, count, css="id") if key else counted_line("Not read", count)


def _used_by(view: View, id_: str) -> int:
    return len(view.assessment.used_by.get(id_, ()))
