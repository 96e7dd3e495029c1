"""A calculation as a sheet that can be worked out again by hand."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.assessment import CheckOutcome, ResultValue, Worked
from assurance.model.engineering_records import Calculation
from assurance.model.methods import Remark
from assurance.model.steps import Sheet
from assurance.site import marks, wording
from assurance.site.around import Around, around
from assurance.site.check_rows import limit_shown
from assurance.site.links import result_anchor
from assurance.site.pieces import anchor, code, span
from assurance.site.result_rows import result_symbol, result_words, sheet_value
from assurance.site.rows import MOST_ROWS
from assurance.site.sentences import record_sentence
from assurance.site.sheet_rows import (
    ColumnRow,
    GivenRow,
    StepRow,
    column_row,
    given_row,
    step_row,
    symbol_shown,
)
from assurance.site.strength_rows import cells_table, worst_first
from assurance.site.tables import Table, table
from assurance.site.view import CauseRow, Fact, View
from assurance.site.written import Written

WORST = 10  # parts, load cases and criteria that stand in sight to begin with
NEVER_WORKED = Worked("", "", 0, {})


@dataclass(frozen=True, slots=True)
class ResultRow:
    """One result of a calculation."""

    anchor: str
    name: str
    symbol: Markup
    value: str
    interval: str
    tag: str
    why_not: str
    limits: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RemarkRow:
    """What the method says about its own result."""

    limit: str
    text: Markup
    remedy: Markup
    outside: bool


@dataclass(frozen=True, slots=True)
class CalculationPage:
    """What `calculation.html` shows."""

    title: str
    css: str
    mark: Markup
    word: str
    sentence: Markup
    causes: tuple[CauseRow, ...]
    results: tuple[ResultRow, ...]
    any_interval: bool
    any_limit: bool
    sheet_title: str
    givens: tuple[GivenRow, ...]
    columns: tuple[ColumnRow, ...]
    steps: tuple[StepRow, ...]
    cells: Table | None
    definitions: tuple[wording.Definition, ...]
    empty_cells: tuple[str, ...]
    remarks: tuple[RemarkRow, ...]
    facts: tuple[Fact, ...]
    around: Around
    written: Written


def calculation_page(
    view: View, id_: str, record: Calculation, *, checks: Sequence[CheckOutcome]
) -> CalculationPage:
    """The sheet of one calculation. `checks` are those that compare one of its results."""
    work = view.assessment.worked.get(id_, NEVER_WORKED)
    verdict = view.links.verdict(id_)
    sheet = work.sheet or Sheet("")
    return CalculationPage(
        title=record.title,
        css=marks.css_class(verdict),
        mark=marks.plain_mark(verdict, size=17),
        word=wording.label(verdict.word),
        sentence=record_sentence(view, id_, "It can be worked out, and everything it takes is current."),
        causes=view.cause_rows(id_),
        results=tuple(
            _result(view, f"{id_}.{name}", record.method, value, checks)
            for name, value in work.results.items()
        ),
        any_interval=any(one.lower is not None for one in work.results.values()),
        any_limit=bool(checks),
        sheet_title=sheet.title,
        givens=tuple(given_row(view, one) for one in sheet.givens),
        columns=tuple(column_row(one, say=view.links.say) for one in sheet.columns),
        steps=_steps(sheet, view.links.say),
        cells=_cells(view, id_),
        definitions=wording.STRENGTH_WORDS if work.cells else (),
        empty_cells=tuple(
            ", ".join(view.links.name(one) for one in combination if one) for combination in work.empty_cells
        )[:MOST_ROWS],
        remarks=tuple(_remark(view, one) for one in work.remarks),
        facts=_facts(view, id_, record, work),
        around=around(view, id_),
        written=view.written(id_),
    )


def _cells(view: View, id_: str) -> Table | None:
    """The reserve factors of a calculation; one alone is the result itself, and is not taken away."""
    rows = worst_first(view, (id_,))
    shown = cells_table(view, rows, at_first=WORST)
    return table(f"calculations/{id_}", shown, rows, root=view.links.root, taken=len(rows) > 1)


def _remark(view: View, remark: Remark) -> RemarkRow:
    say = view.links.say
    text, remedy = say(wording.sentence(remark.text)), say(wording.sentence(remark.remedy))
    return RemarkRow(remark.limit, text, remedy, remark.outside)


def _result(
    view: View, reference: str, method: str, value: ResultValue, checks: Sequence[CheckOutcome]
) -> ResultRow:
    name = reference.partition(".")[2]
    return ResultRow(
        anchor=result_anchor(name),
        name=result_words(method, name),
        symbol=symbol_shown(result_symbol(method, name)),
        value=sheet_value(name, value, {one.bound for one in checks if one.result == reference}),
        interval=wording.interval(value),
        tag=view.tag(value) if value.value is not None else "",
        why_not=wording.sentence(value.why_not),
        limits=tuple(dict.fromkeys(limit_shown(one) for one in checks if one.result == reference)),
    )


def _steps(sheet: Sheet, say: Callable[[str], Markup]) -> tuple[StepRow, ...]:
    named = sheet.named()
    symbols = {name: one.symbol for name, one in named.items()}
    return tuple(
        step_row(number, step, named, symbols, say=say) for number, step in enumerate(sheet.steps, 1)
    )


def _method(view: View, record: Calculation, work: Worked) -> Markup:
    version = f", version {work.version}" if work.version else ""
    return code(record.method, view.links.method(record.method)) + escape(version)


def _facts(view: View, id_: str, record: Calculation, work: Worked) -> tuple[Fact, ...]:
    place = view.links.place(view.assessment.entries[id_].place, id_)
    say = view.links.say
    facts = [
        Fact("Id", (span("id", id_),)),
        Fact("Written in", (anchor("#as-written", place.text, "place"),)),
        Fact("Method", (_method(view, record, work),)),
        Fact("Parts", tuple(say(f"`{one}`") for one in work.parts)),
        Fact("Load cases", tuple(say(f"`{one}`") for one in work.load_cases)),
        Fact("Data files", tuple(span("place", one) for one in work.files)),
        Fact("Author", (escape(view.who(record.author or "")),)),
        Fact("Checker", (escape(view.who(record.checker or "")),)),
    ]
    return tuple(fact for fact in facts if fact.values)
