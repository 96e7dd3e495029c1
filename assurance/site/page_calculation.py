"""A calculation as a sheet that can be worked out again by hand."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.assessment import Cell, CheckOutcome, ResultValue, Worked
from assurance.model.engineering_records import Calculation
from assurance.model.methods import Remark
from assurance.model.steps import Given, Sheet, Step
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.check_rows import limit_shown
from assurance.site.links import Named, result_anchor
from assurance.site.page_strength import CellRow, cell_row
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.sheet_rows import ColumnRow, GivenRow, StepRow, column_row, given_row, step_row
from assurance.site.view import MOST_CAUSES, CauseRow, Fact, View, Written

ROUNDED_DOWN = ("least_reserve_factor", "margin_of_safety")
NEVER_WORKED = Worked("", "", 0, {})


@dataclass(frozen=True, slots=True)
class ResultRow:
    """One result of a calculation."""

    anchor: str
    name: str
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
    cells: tuple[CellRow, ...]
    more_cells: str
    empty_cells: tuple[str, ...]
    remarks: tuple[RemarkRow, ...]
    facts: tuple[Fact, ...]
    used_by: tuple[Named, ...]
    written: Written


def calculation_page(
    view: View, id_: str, record: Calculation, *, checks: Sequence[CheckOutcome]
) -> CalculationPage:
    """The sheet of one calculation. `checks` are those that compare one of its results."""
    work = view.assessment.worked.get(id_, NEVER_WORKED)
    verdict = view.links.verdict(id_)
    sheet = work.sheet or Sheet("")
    causes = view.causes(id_)
    return CalculationPage(
        title=record.title,
        css=marks.css_class(verdict),
        mark=marks.plain_mark(verdict, size=17),
        word=wording.label(verdict.word),
        sentence=_sentence(view, id_, verdict),
        causes=view.cause_rows(causes[:MOST_CAUSES]),
        results=tuple(
            _result(view, f"{id_}.{name}", _label(sheet, name), value, checks)
            for name, value in work.results.items()
        ),
        any_interval=any(one.lower is not None for one in work.results.values()),
        any_limit=bool(checks),
        sheet_title=sheet.title,
        givens=tuple(given_row(view, one) for one in sheet.givens),
        columns=tuple(column_row(one) for one in sheet.columns),
        steps=_steps(sheet, view.links.say),
        cells=tuple(cell_row(view, id_, one) for one in _worst_first(work.cells)[:MOST_ROWS]),
        more_cells=more_rows(len(work.cells)),
        empty_cells=tuple(
            ", ".join(view.links.name(one) for one in combination if one) for combination in work.empty_cells
        )[:MOST_ROWS],
        remarks=tuple(_remark(view, one) for one in work.remarks),
        facts=_facts(view, id_, record, work),
        used_by=view.links.each(view.assessment.used_by.get(id_, ())[:MOST_ROWS]),
        written=view.written(id_),
    )


def _remark(view: View, remark: Remark) -> RemarkRow:
    say = view.links.say
    text, remedy = say(wording.sentence(remark.text)), say(wording.sentence(remark.remedy))
    return RemarkRow(remark.limit, text, remedy, remark.outside)


def _sentence(view: View, id_: str, verdict: Verdict) -> Markup:
    if verdict is Verdict.HOLDS:
        return view.links.say("It can be worked out, and everything it takes is current.")
    reasons = sorted(view.assessment.reasons.get(id_, ()), key=lambda one: -one.verdict)
    return view.links.say(wording.sentence(reasons[0].text) if reasons else "")


def _result(
    view: View, reference: str, label: str, value: ResultValue, checks: Sequence[CheckOutcome]
) -> ResultRow:
    name = reference.partition(".")[2]
    toward = _side(name, {one.bound for one in checks if one.result == reference})
    return ResultRow(
        anchor=result_anchor(name),
        name=label,
        value=wording.value(value, toward=toward),
        interval=wording.interval(value),
        tag=view.tag(value),
        why_not=wording.sentence(value.why_not),
        limits=tuple(dict.fromkeys(limit_shown(one) for one in checks if one.result == reference)),
    )


def _side(name: str, bounds: set[str]) -> str:
    """The side to which a result is rounded: that of its limit; a reserve factor or margin down."""
    if name in ROUNDED_DOWN or bounds == {"at least"}:
        return "down"
    return "up" if bounds == {"at most"} else "nearest"


def _worst_first(cells: Sequence[Cell]) -> list[Cell]:
    return sorted(cells, key=lambda one: (one.reserve_factor is None, one.reserve_factor or 0.0))


def _label(sheet: Sheet, name: str) -> str:
    """What a result is, in the words of the step that gives it."""
    step = next((one for one in sheet.steps if one.name == name), None)
    return wording.sentence(step.what).rstrip(".") if step and step.what else wording.label(name)


def _steps(sheet: Sheet, say: Callable[[str], Markup]) -> tuple[StepRow, ...]:
    named: Mapping[str, Given | Step] = sheet.named()
    values = {name: one.value for name, one in named.items()}
    symbols = {name: one.symbol for name, one in named.items()}
    return tuple(
        step_row(number, step, values, symbols, say=say) for number, step in enumerate(sheet.steps, 1)
    )


def _facts(view: View, id_: str, record: Calculation, work: Worked) -> tuple[Fact, ...]:
    place = view.links.place(view.assessment.entries[id_].place, id_)
    plain = Markup("{}").format
    say = view.links.say
    facts = [
        Fact("Id", (Markup('<span class="id">{}</span>').format(id_),)),
        Fact("Written in", (Markup('<a class="place" href="#as-written">{}</a>').format(place.text),)),
        Fact(
            "Method", (plain(f"{record.method}, version {work.version}" if work.version else record.method),)
        ),
        Fact("Parts", tuple(say(f"`{one}`") for one in work.parts)),
        Fact("Load cases", tuple(say(f"`{one}`") for one in work.load_cases)),
        Fact("Data files", tuple(Markup('<span class="place">{}</span>').format(one) for one in work.files)),
        Fact("Author", (plain(view.who(record.author or "")),)),
        Fact("Checker", (plain(view.who(record.checker or "")),)),
    ]
    return tuple(fact for fact in facts if fact.values)
