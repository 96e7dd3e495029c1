"""Works out one calculation: binds its inputs, asks the store, else the method."""

from collections.abc import Mapping
from dataclasses import replace

from assurance.calculations import by_hand, by_table, inputs, stored
from assurance.calculations.bound import Inputs, fault, nearest
from assurance.calculations.keys import key_of
from assurance.methods.registry import METHODS
from assurance.model.assessment import Fault, ResultValue, Worked
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation
from assurance.model.methods import Method, Outcome, WhyNot
from assurance.model.steps import Sheet
from assurance.store import Store

MOST_IN_WORDS = 2  # results that a message names; the others it counts
Results = Mapping[str, ResultValue]


def work_out(
    id: str, calculation: Calculation, case: CaseText, results: Results, store: Store | None
) -> Worked:
    """The results of a calculation, with its sheet, and a fault for whatever is wrong with what it is given.

    `results` holds the results of everything that comes before, by `record.result`.
    """
    method = METHODS.get(calculation.method)
    if method is None:
        text = f"no method is called `{calculation.method}`{nearest(calculation.method, METHODS)}"
        remedy = f"name one of {', '.join(f'`{name}`' for name in METHODS)}"
        return Worked(id, calculation.method, 0, {}, faults=(fault(("method",), text, remedy),))
    if method.name == "reserve_factors":
        way = by_hand.work_out if calculation.table is None else by_table.work_out
        return way(id, calculation, case, results, store)
    return _by_method(id, calculation, method, case, results, store)


def _by_method(
    id_: str, calculation: Calculation, method: Method, case: CaseText, results: Results, store: Store | None
) -> Worked:
    given = inputs.bind(id_, calculation, method, case, results)
    refused = (*given.faults, *inputs.no_table(calculation, method))
    if refused or given.why_not:
        return stored.nothing(id_, method, refused, given.why_not, calculation)
    key = key_of(method, given)
    kept = stored.fetch(store, key, id_, method)
    if kept is None:
        kept = _from_method(id_, calculation, method, given)
        stored.keep(store, key, kept)
    return replace(
        kept, key=key, parts=calculation.parts, load_cases=calculation.load_cases,
        files=tuple(dict.fromkeys(column.file for column in given.columns.values())),
    )  # fmt: skip


def _from_method(id_: str, calculation: Calculation, method: Method, given: Inputs) -> Worked:
    bound, faults = inputs.for_method(given)
    if faults:
        return stored.nothing(id_, method, faults, "", calculation)
    outcome = method.work(bound, {name: given.unit_of(name) for name in bound})
    sheet = None if outcome.sheet is None else with_origins(outcome.sheet, given)
    values = stored.results_of(method, outcome, given)
    return Worked(
        id_, method.name, method.version, values, sheet, remarks=outcome.remarks,
        faults=_not_defined(id_, method, outcome),
    )  # fmt: skip


def with_origins(sheet: Sheet, given: Inputs) -> Sheet:
    """The sheet with each given number pointing at its record, each column at its file."""
    givens = (
        replace(one, record=given.numbers[one.name].record) if one.name in given.numbers else one
        for one in sheet.givens
    )
    columns = (
        replace(one, file=given.columns[one.name].file) if one.name in given.columns else one
        for one in sheet.columns
    )
    return replace(sheet, givens=tuple(givens), columns=tuple(columns))


def _not_defined(id_: str, method: Method, outcome: Outcome) -> tuple[Fault, ...]:
    """One fault for each reason why the method gives no number, at the input it is drawn from."""
    names: dict[WhyNot, list[str]] = {}
    for name, why in outcome.why_not.items():
        names.setdefault(why, []).append(name)
    path = ("inputs", method.inputs[0].name)
    return tuple(
        fault(path, f"{_cannot(id_, method, which)}: {why.text}", why.remedy, results=tuple(which))
        for why, which in names.items()
    )


def _cannot(id_: str, method: Method, names: list[str]) -> str:
    """Which results of a calculation cannot be worked out: at most two in words, and how many more."""
    if len(names) == len(method.results):
        return f"No result of `{id_}` can be worked out"
    words = [f"the {spec.short}" for spec in method.results if spec.name in names]
    more = len(words) - MOST_IN_WORDS
    rest = f" (nor {more} more result{'s' if more > 1 else ''})" if more > 0 else ""
    return f"{' and '.join(words[:MOST_IN_WORDS])} of `{id_}` cannot be worked out{rest}"
